"""Notes: what is written into a view never collides, and speaks only of what is in sight."""

import numpy as np
import pytest
from recording import Recorder
from zoo import NAMES, layout

from trimwright.model.checks.run import check
from trimwright.viewer.display.placing import Box
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.display.view import ViewPoint
from trimwright.viewer.render.notes import Frame, write

WIDE, HIGH = 1600, 922


def frames_of(view: ViewPoint, depth: float = np.inf) -> list[Frame]:
    """Return the frames of a view in which everything is ``depth`` inches away."""
    frames = []
    for shot in view.shots:
        left, top, right, bottom = shot.frame
        box = Box(left * WIDE, top * HIGH, right * WIDE, bottom * HIGH)
        frames.append(Frame(shot, box, np.full((92, 160), depth, dtype=np.float32), 1000.0))
    return frames


@pytest.mark.parametrize("name", NAMES)
def test_no_two_texts_collide_in_any_view(name: str) -> None:
    stage = stage_of(layout(name), check(layout(name)))
    for view in map(stage.view, stage.album):
        sheet, taken = Recorder(), Box(0, 0, 180, 160)
        write(sheet, stage, view, frames_of(view), [taken])
        for i, box in enumerate(sheet.boxes):
            assert view.name.startswith("screws") or not box.overlaps(taken), view.name
            for other in sheet.boxes[:i]:
                assert not box.overlaps(other), (view.name, box, other)


@pytest.mark.parametrize("name", NAMES)
def test_every_tape_mark_stays_in_its_own_strip(name: str) -> None:
    stage = stage_of(layout(name))
    for view in (stage.view(one) for one in stage.album if one.startswith("screws")):
        for frame in frames_of(view):
            sheet, strip = Recorder(), frame.box
            write(sheet, stage, view, [frame], [])
            for box in sheet.boxes:
                inside = strip.holds(box.left, box.top) and strip.holds(box.right, box.bottom)
                assert inside, (view.name, box)


@pytest.mark.parametrize(
    ("name", "facing"),
    [("bare", {"E1-1", "E1-2", "C1-1", "C1-4"}), ("bare back", {"E2-1", "E2-2", "C1-1", "C1-4"})],
)
def test_every_piece_that_faces_the_eye_is_named(name: str, facing: set[str]) -> None:
    stage, sheet = stage_of(layout("boat-shed")), Recorder()
    write(sheet, stage, stage.view(name), frames_of(stage.view(name)), [])
    assert {text.split()[0] for text in sheet.texts} >= facing


def test_nothing_hidden_is_spoken_of() -> None:
    stage = stage_of(layout("boat-shed"))
    for name in ("bare", "corner eave-rake", "short piece"):
        sheet = Recorder()
        write(sheet, stage, stage.view(name), frames_of(stage.view(name), depth=1.0), [])
        assert not [text for text in sheet.texts if not text.startswith("lap")]


def test_pins_in_sight_are_told_and_no_others() -> None:
    stage = stage_of(layout("slip-shed"), check(layout("slip-shed")))
    view = stage.view("findings")
    sheet = Recorder()
    drawn = write(sheet, stage, view, frames_of(view), [])
    assert len(drawn) > len(stage.pins) / 2
    assert set(map(str, drawn)) == set(sheet.texts)
    assert write(Recorder(), stage, view, frames_of(view, depth=1.0), []) == {}
