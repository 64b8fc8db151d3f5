"""The marks on a sheet of an end against sheets worked out on paper: each mark along the piece, and no others."""

from dataclasses import replace

import pytest
import shapely
from by_hand import CLOSE, EAVE, RAKE, Hooked, Worked, eave_rake, hip_foot, peak_over, peak_under
from pytest import approx
from zoo import layout

from trimwright.model.units import Tape
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.piece.end_figure import figure
from trimwright.viewer.drawings.piece.end_kinds import EndKind, PieceEnd
from trimwright.viewer.drawings.piece.tape_hooks import from_hook
from trimwright.viewer.words.speaker import Speaker

SHOW = Tape()


def marks_of(name: str, mark: str, at: int, flat: bool) -> tuple[PieceEnd, list[str], list[str]]:
    """Return an end, its marks along and across the piece, and those of its bends."""
    part = layout(name).part(mark)
    one = PieceEnd(part, part.ends[at])
    items = figure(EndKind("A", (one,)), 6.0, 2.0, Speaker(tape=SHOW), flat).items
    words = [item for item in items if isinstance(item, Words) and item.name == "tape"]
    return one, [item.text for item in words if not item.bold], [item.text for item in words if item.bold]


def near(value: float, texts: list[str]) -> bool:
    return bool({SHOW(value - CLOSE), SHOW(value), SHOW(value + CLOSE)} & set(texts))


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
def test_marks_are_from_the_end_of_the_blank_and_flat_from_the_inboard_edge(
    name: str, mark: str, at: int, worked: Worked
) -> None:
    _, texts, _ = marks_of(name, mark, at, flat=True)
    us = [u for u, _ in worked.points]
    end = min(us) if at == 0 else max(us)
    points = shapely.get_coordinates(shapely.LineString(worked.points).simplify(1 / 32)).tolist()
    flat = [text.partition(" (")[0] for text in texts]
    for u, v in points:
        assert near(abs(u - end), flat), u
        assert near(v, flat), v
    wanted = [value for u, v in worked.points for value in (abs(u - end), v)]
    assert all(any(near(value, [text]) for value in wanted) for text in flat)


def test_a_rule_reads_the_tab_of_a_rake_from_its_lip() -> None:
    """The face's upper bend is an inside corner of 90 degrees: a rule stops at the lip's face, R + T/2 short of it.

    The rule's end lies against the painted face of the lip, and the bend takes R there: the flat's own end plus R.
    """
    part = layout("shallow-eave").part("R1-1")
    first, last = RAKE.face
    for v in (first + 0.5, first + 2.0):
        told = from_hook(part.run.section, v)
        assert told is not None
        far = dict(told.values)["far"].inches  # type: ignore[union-attr]
        assert far == approx(v - first + RAKE.r, abs=0.02)
        assert str(told).endswith("below lip")
    assert from_hook(part.run.section, last) is None, "at a bend no rule is needed"


def test_legs_measured_across_are_as_wide_as_the_catalogue_has_them() -> None:
    """Of top 4, kick 3/4 and hem 3/8, outside the bends: from edge or fold to the far end of the flat, and its bend."""
    section = layout("shallow-eave").part("R1-1").run.section
    top = from_hook(section, 4 - 1 / 2)
    assert top is not None and str(top).endswith("from edge")
    assert dict(top.values)["far"].inches == approx(3.5, abs=1e-6)  # type: ignore[union-attr]
    hem = from_hook(section, section.width)
    assert hem is not None
    assert dict(hem.values)["far"].inches == approx(3 / 8, abs=0.01)  # type: ignore[union-attr]


@pytest.mark.parametrize(("mark", "widths"), [("R1-1", RAKE), ("E1-2", EAVE)])
def test_bend_lines(mark: str, widths: Hooked) -> None:
    one, _, bold = marks_of("shallow-eave", mark, 0, flat=True)
    v = widths.v
    expected = [(v[1] + v[2]) / 2, (v[3] + v[4]) / 2, (v[5] + v[6]) / 2, (v[7] + v[8]) / 2]
    section = one.part.run.section
    found = [(section.v[bend.first] + section.v[bend.last]) / 2 for bend in section.bends]
    assert found == approx(expected, abs=1e-6)
    turns = ("180° down", f"{widths.turn:.0f}° up", "45° up", "180° down")
    assert set(bold) == {f"{SHOW(place)}  {turn}" for place, turn in zip(expected, turns, strict=True)}
    assert replace(one, end=one.part.ends.high).blank == one.part.high
