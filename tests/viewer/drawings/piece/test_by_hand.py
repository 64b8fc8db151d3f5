"""The marks on a cut sheet against sheets worked out on paper: each tape mark, and no others."""

import pytest
import shapely
from by_hand import CLOSE, EAVE, RAKE, Hooked, Worked, eave_rake, hip_foot, peak_over, peak_under
from pytest import approx
from zoo import layout

from trimwright.model.layout import Part
from trimwright.model.units import Tape
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.piece.batches import batches
from trimwright.viewer.drawings.piece.cut_sheet import cut_sheet
from trimwright.viewer.drawings.piece.pattern import end_block
from trimwright.viewer.words.speaker import Speaker


def part_of(name: str, mark: str) -> Part:
    return next(part for part in layout(name).parts if part.mark == mark)


@pytest.mark.parametrize(
    ("name", "mark", "at", "worked"),
    [
        ("shallow-eave", "R1-1", 0, eave_rake()),
        ("shallow-eave", "R2-2", 1, peak_over()),
        ("shallow-eave", "R1-2", 1, peak_under()),
        ("bakehouse", "H1-1", 0, hip_foot()),
    ],
    ids=["eave-rake", "peak, on top", "peak, underneath", "hip foot"],
)
def test_tape_marks(name: str, mark: str, at: int, worked: Worked) -> None:
    show = Tape()
    part = part_of(name, mark)
    items = end_block(part, part.ends[at], 3.5, 4.75, Speaker(tape=show)).items
    texts = [item.text for item in items if isinstance(item, Words) and item.name == "tape" and not item.bold]
    wanted = [value for point in worked.points for value in point]
    for text in texts:
        assert any(text in (show(value - CLOSE), show(value), show(value + CLOSE)) for value in wanted), text
    kept = shapely.get_coordinates(shapely.LineString(worked.points).simplify(1 / 32)).ravel().tolist()
    for value in kept:
        assert {show(value - CLOSE), show(value), show(value + CLOSE)} & set(texts), value


@pytest.mark.parametrize(("mark", "widths"), [("R1-1", RAKE), ("E1-2", EAVE)])
def test_bend_lines(mark: str, widths: Hooked) -> None:
    part = part_of("shallow-eave", mark)
    v = widths.v
    expected = [(v[1] + v[2]) / 2, (v[3] + v[4]) / 2, (v[5] + v[6]) / 2, (v[7] + v[8]) / 2]
    section = part.run.section
    found = [(section.v[bend.first] + section.v[bend.last]) / 2 for bend in section.bends]
    assert found == approx(expected, abs=1e-6)
    plan = layout("shallow-eave")
    batch = next(batch for batch in batches(plan) if mark in batch.marks)
    bold = {
        item.text
        for page in cut_sheet(batch, plan, "letter", imprint_of(plan.scene))
        for item in page.items
        if isinstance(item, Words) and item.name == "tape" and item.bold
    }
    turns = ("180° down", f"{widths.turn:.0f}° up", "45° up", "180° down")
    assert bold == {f"{Tape()(place)}  {turn}" for place, turn in zip(expected, turns, strict=True)}
