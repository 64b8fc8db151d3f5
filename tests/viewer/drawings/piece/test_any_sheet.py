"""Whatever roof can be laid out can be drawn, on paper and for a plotter."""

from typing import Any

from any_scene import scenes
from hypothesis import Phase, assume, given, settings
from paged import box_of, paged

from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.viewer.data.dxf import document_of
from trimwright.viewer.drawings.piece.end_sheets import end_sheets
from trimwright.viewer.drawings.piece.template import templates
from trimwright.viewer.words.speaker import speaker_of


@settings(max_examples=6, phases=(Phase.explicit, Phase.generate))
@given(scenes())
def test_any_roof_can_be_drawn(raw: dict[str, Any]) -> None:
    try:
        layout = build(scene_of(raw))
    except TrimwrightError:
        assume(False)
    assume(len(layout.parts) < 60)
    say, room = speaker_of(layout.scene), box_of(layout)
    ends = end_sheets(layout, room, room.height, say)
    for blocks in (ends.blocks, templates(ends.kinds, room, say)):
        assert all(page.items for page in paged(layout, blocks))
    assert not document_of(layout.parts[0]).audit().has_errors
