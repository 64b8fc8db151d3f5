"""Whatever roof can be laid out can be drawn, on paper and for a plotter."""

from typing import Any

from any_scene import scenes
from hypothesis import Phase, assume, given, settings

from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.viewer.data.dxf import document_of
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.piece.batches import batches
from trimwright.viewer.drawings.piece.cut_sheet import cut_sheet
from trimwright.viewer.drawings.piece.template import template


@settings(max_examples=6, phases=(Phase.explicit, Phase.generate))
@given(scenes())
def test_any_roof_can_be_drawn(raw: dict[str, Any]) -> None:
    try:
        layout = build(scene_of(raw))
    except TrimwrightError:
        assume(False)
    assume(len(layout.parts) < 60)
    for batch in batches(layout)[:4]:
        pages = cut_sheet(batch, layout, "letter", imprint_of(layout.scene))
        pages += [
            page for end in batch.first.ends for page in template(batch, end, "a4", imprint_of(layout.scene))
        ]
        assert all(page.items for page in pages)
        assert not document_of(batch.first).audit().has_errors
