"""Ends made on the sheet step by step, as snips and pliers do it: every cut is possible when its turn comes.

Nothing of the drawings is used. Snips go in from an edge of the metal that is there at that step and follow the
step's line; what no longer hangs together with the rest of the piece falls off. A tab is folded when its hinge alone
still holds it. In the end the metal is the piece's own pattern.
"""

import numpy as np
import pytest
import shapely
from zoo import layout

from trimwright.model.joints.end import End
from trimwright.model.layout import Part

KERF = 1e-3
"""Half the width of a cut, inches."""

REACH = 1 / 16
"""Snips begin at an edge that is this near, inches."""

ENDS = (
    ("boat-shed", "E1-4", 1, "eave-rake, underneath"),
    ("boat-shed", "R1-1", 0, "eave-rake, on top"),
    ("boat-shed", "R2-1", 0, "eave-rake, on top, the other hand"),
    ("boat-shed", "R1-2", 1, "peak, underneath"),
    ("boat-shed", "R2-2", 1, "peak, on top"),
    ("boat-shed", "E1-2", 0, "lap, underneath"),
    ("bakehouse", "H1-1", 0, "hip foot"),
    ("rope-store", "V1-1", 0, "valley foot"),
    ("weigh-house", "R1-1", 1, "porch corner, underneath"),
    ("weigh-house", "E1-1", 0, "porch corner, on top"),
    ("weigh-house", "E3-1", 1, "porch corner, on top, the other hand"),
)


def blank_of(part: Part, end: End) -> shapely.Polygon:
    """Return the end of the blank: the strip square across, as far in as anything is done to it, and 2 in more."""
    us = [u for step in end.steps for line in step.lines for u, _ in line] + [*end.reach]
    low, high = part.sheet.extent
    near, far = (low, max(us) + 2) if end.at == "low" else (min(us) - 2, high)
    return shapely.box(near, 0.0, far, part.run.section.width)


def kept(metal: shapely.Geometry, end: End) -> shapely.Polygon:
    """Return what still hangs together with the rest of the piece."""
    inner = metal.bounds[2] if end.at == "low" else metal.bounds[0]
    rest = shapely.LineString([(inner, metal.bounds[1]), (inner, metal.bounds[3])]).buffer(0.1)
    return max(shapely.get_parts(metal), key=lambda part: part.intersection(rest).area)


def snipped(metal: shapely.Polygon, line: np.ndarray, end: End) -> shapely.Polygon:
    """Return the metal after one cut, which must begin at an edge of what is there."""
    cut = shapely.LineString(line)
    through = cut.intersection(metal.buffer(2 * KERF))
    parts = [part for part in shapely.get_parts(through) if part.length > 2 * REACH]
    for part in parts:
        ends = shapely.points(shapely.get_coordinates(part)[[0, -1]])
        inside = part.difference(metal.boundary.buffer(REACH))
        if inside.length > REACH:
            assert shapely.distance(metal.boundary, ends).min() < REACH, "no edge to begin at"
    return kept(metal.difference(cut.buffer(KERF, cap_style="square")), end)


@pytest.mark.parametrize(("name", "mark", "at", "what"), ENDS, ids=[what for *_, what in ENDS])
def test_every_cut_is_possible_when_its_turn_comes(name: str, mark: str, at: int, what: str) -> None:
    part = layout(name).part(mark)
    end = part.ends[at]
    metal = blank_of(part, end)
    blank = metal
    folded: set[int] = set()
    worked = 0.0
    for step in end.steps:
        if step.verb == "cut":
            before = metal
            for line in step.lines:
                metal = snipped(metal, np.array(line), end)
            cuts = shapely.union_all([shapely.LineString(line) for line in step.lines])
            assert cuts.distance(before) < REACH, (what, str(step.says), "there is no metal there any more")
            worked += before.area - metal.area
        if step.verb == "fold":
            for number, tab in enumerate(end.cut.tabs):
                hinge = shapely.LineString(tab.hinge)
                if not any(shapely.LineString(line).distance(hinge) < 0.1 for line in step.lines):
                    continue
                flap = shapely.Polygon(np.concatenate([tab.hinge, tab.flap]))
                held = metal.intersection(
                    flap.boundary.difference(hinge.buffer(0.06)).buffer(0.03)
                ).difference(flap.buffer(4 * KERF))
                assert held.area < 5e-3, (what, str(step.says), "the tab still hangs on more than its fold")
                folded.add(number)
    assert folded == set(range(len(end.cut.tabs))), "every tab is folded by a step"
    wanted = part.sheet.pattern.intersection(blank)
    apart = metal.symmetric_difference(wanted)
    length = sum(
        shapely.LineString(line).length for step in end.steps for line in step.lines if len(line) > 1
    )
    assert apart.area < 3 * KERF * length + 0.03, what
    assert worked >= blank.area - wanted.area - 3 * KERF * length - 0.03


def test_a_cut_out_of_turn_is_found() -> None:
    """A rake whose hook lip is cut before its top leg: snips have no edge to begin at."""
    part = layout("boat-shed").part("R1-1")
    end = part.ends.low
    inner = [step for step in end.steps if "across the hook lip" in step.says.text]
    with pytest.raises(AssertionError, match="no edge to begin at"):
        snipped(blank_of(part, end), np.array(inner[0].lines[0]), end)
