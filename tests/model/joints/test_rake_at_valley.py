"""A gable that stands flush in the eave: its rakes meet the eave in line where its valleys begin."""

import math
from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Any

import numpy as np
import pytest
from slots import Cutter, hook_slots
from uncut import left_uncut

from trimwright.model.checks.run import check
from trimwright.model.joints import rake_at_valley, sealed_end, valley_foot_at_rake
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import in_scene

PITCHES = [(6, 6), (12, 8), (6, 10), (12, 12), (10, 6), (3, 4)]


@cache
def flush_gable(
    main: int, wing: int, back: float = 0.0, face: float | None = None, turn: float = 0.0
) -> Layout:
    """Return a main slope that rises ``main`` in 12 with a gable in its eave, 160 in wide, of ``wing`` in 12.

    Its wall stands ``back`` inches behind the eave on the right of it, so that the two are not in line there. The
    faces of its rake trim are ``face`` inches deep, or as the profile has them. The house is turned by ``turn``.
    """
    a, b = main / 12, wing / 12
    top, deep = 80 * b, 80 * b / a
    ridge = 100 + 200 * a
    faces = [
        [[0, 0, 100], [120, 0, 100], [200, deep, 100 + top], [280, 0, 100], [400, 0, 100], [400, 200, ridge]],
        [[400, 200, ridge], [400, 400, 100], [0, 400, 100], [0, 200, ridge]],
        [[120, 0, 100], [200, back, 100 + top], [200, deep, 100 + top]],
        [[200, back, 100 + top], [280, 0, 100], [200, deep, 100 + top]],
    ]
    faces[0].append([0, 200, ridge])
    cos, sin = math.cos(turn), math.sin(turn)
    faces = [[[x * cos - y * sin, x * sin + y * cos, z] for x, y, z in face] for face in faces]
    trim: dict[str, Any] = {kind: {"start": "even"} for kind in ("eave", "rake", "valley", "ridge")}
    trim["rake"] |= {} if face is None else {"face": face}
    return build(scene_of({"title": "Gable", "roof": {"form": "faces", "faces": faces}, "trim": trim}))


def ends_of(layout: Layout, kind: str) -> list[Part]:
    return [part for part in layout.parts if any(end.kind.name == kind for end in part.ends)]


@pytest.mark.parametrize(("main", "wing"), PITCHES)
def test_both_corners_are_made_and_nothing_is_wrong(main: int, wing: int) -> None:
    layout = flush_gable(main, wing)
    assert len(ends_of(layout, rake_at_valley.KIND.name)) == 4
    assert len(ends_of(layout, valley_foot_at_rake.KIND.name)) == 2
    assert not ends_of(layout, sealed_end.KIND.name)
    assert not [str(finding.message) for finding in check(layout) if finding.severity == "error"]
    assert not [part.mark for part in layout.parts for end in part.ends if left_uncut(end) > 0.05]


def test_what_is_open_between_panels_at_the_eaves_beside_it_is_listed() -> None:
    """The foot of each seam, at the eave that it stands over."""
    layout = flush_gable(6, 6)
    listed = [place for place in layout.sealed if place.place == "foot of a seam"]
    open_at: Counter[str] = Counter()
    for slot in hook_slots(layout, Cutter(layout)):
        middle = sum(slot.along) / 2
        (_,) = [place for place in listed if place.at == slot.at and place.along[0] < middle < place.along[1]]
        open_at[slot.at] += 1
    assert open_at["front eave 1"] == open_at["front eave 2"] == 7


@pytest.mark.parametrize("turn", [0.4, 1.1, 2.0, 4.0])
def test_however_the_house_stands_its_rakes_are_in_line_with_the_eave(turn: float) -> None:
    layout = flush_gable(6, 6, turn=turn)
    assert len(ends_of(layout, rake_at_valley.KIND.name)) == 4


@pytest.mark.parametrize(("main", "wing"), PITCHES)
def test_the_faces_meet_where_the_kicks_cross(main: int, wing: int) -> None:
    """The kicks' bends: one level, the eave's face deep; one along the rake, its face deep square to the rake.

    They cross (rake's / cos W - eave's) / tan W from the corner toward the gable, W the slope of the wing.
    """
    layout, slope = flush_gable(main, wing), math.atan(wing / 12)
    for eave, _, rake, end in met_at(layout):
        corner = rake.run.edge.start
        deep = [bend_below(part, corner) - corner[2] for part in (eave, rake)]
        along = (crossing(rake, end) - corner)[0] * np.sign(rake.run.edge.direction[0])
        assert along == pytest.approx((deep[0] - deep[1]) / math.tan(slope), abs=0.03)


@pytest.mark.parametrize("face", [2.0, 3.5, 5.0])
@pytest.mark.parametrize(("main", "wing"), [(6, 6), (10, 6), (6, 10)])
def test_the_face_underneath_runs_on_as_far_as_it_may(main: int, wing: int, face: float) -> None:
    """1 1/2 in past the line on which the faces meet, but no nearer to the rake's kick than a sheet and 1/32 in.

    Each straight cut of it lies on one of these two lines, and inside the other.
    """
    for eave, under, rake, over in met_at(flush_gable(main, wing, face=face)):
        start, along = crossing(rake, over), rake.placement[:3, 0]
        normal, up = square_in_elevation(start - rake.run.edge.start), square_in_elevation(along)
        normal, up = normal * np.sign(normal @ along), up * np.sign(up[2])
        section = eave.run.section
        strip = section.strip_of("face")
        v = under.cut.line[:, 1]
        inside = (section.v[strip] - 1e-9 < v) & (v < section.v[strip + 1] + 1e-9)
        corners = in_scene(eave.run.section, strip, eave.placement, under.cut.line[inside][1:-1])
        for one in (corners[1:] + corners[:-1]) / 2 - start:
            room = 1.5 - one @ normal, one @ up - section.thickness - 1 / 32
            assert min(room) == pytest.approx(0, abs=0.03)


def met_at(layout: Layout) -> Iterator[tuple[Part, End, Part, End]]:
    """Yield the eave trim and the rake trim of each corner, with their ends there."""
    for rake in (part for part in ends_of(layout, rake_at_valley.KIND.name) if part.run.trim == "rake"):
        over = next(end for end in rake.ends if end.kind is rake_at_valley.KIND)
        eave = layout.part(over.others[0])
        under = next(end for end in eave.ends if end.kind is rake_at_valley.KIND and rake.mark in end.others)
        yield eave, under, rake, over


def crossing(rake: Part, over: End) -> np.ndarray:
    """Return where the two kicks cross: the lower end of the miter."""
    assert over.miter is not None
    section = rake.run.section
    return in_scene(section, section.strip_of("face"), rake.placement, over.miter[1])


def square_in_elevation(way: np.ndarray) -> np.ndarray:
    """Return the unit vector square to ``way`` as one sees it who stands before the gable."""
    return np.array([way[2], 0.0, -way[0]]) / math.hypot(way[0], way[2])


def bend_below(part: Part, corner: np.ndarray) -> float:
    """Return how high the lower bend of a piece's face is plumb below a corner."""
    section = part.run.section
    start = part.placement @ [0.0, *section.points[section.strip_of("face") + 1], 1.0]
    way = part.placement[:3, 0]
    return float(start[2] + way[2] * (corner[0] - start[0]) / way[0])


def test_three_ridges_of_one_height_over_unequal_slopes() -> None:
    """A wing of 10 in 12 whose ridge meets the main one, of 4 in 12: two ridge caps run in line, tilted by laps."""
    a, b = 4 / 12, 10 / 12
    top = 100 + 200 * a
    assert top == pytest.approx(100 + 80 * b)
    faces = [
        [[0, 0, 100], [120, 0, 100], [200, 200, top], [0, 200, top]],
        [[280, 0, 100], [400, 0, 100], [400, 200, top], [200, 200, top]],
        [[400, 200, top], [400, 400, 100], [0, 400, 100], [0, 200, top]],
        [[120, 0, 100], [200, 0, top], [200, 200, top]],
        [[200, 0, top], [280, 0, 100], [200, 200, top]],
    ]
    trim = {kind: {"start": "even"} for kind in ("eave", "rake", "valley", "ridge")}
    layout = build(scene_of({"title": "Gable", "roof": {"form": "faces", "faces": faces}, "trim": trim}))
    meeting = {run.name for run in layout.runs if run.trim in ("ridge", "valley")}
    wrong = [finding for finding in check(layout) if finding.severity == "error" and finding.where in meeting]
    assert not wrong
    assert not ends_of(layout, sealed_end.KIND.name)


@pytest.mark.parametrize("wing", [3, 6])
def test_closures_carry_a_ridge_however_near_its_ends_are(wing: int) -> None:
    """Of 20 or 40 in: from inside its turned-down end, out over the rakes, on to the panels that end at the valley.

    That end closes the gable alone, however near to the valley it stands.
    """
    layout = flush_gable(12, wing)
    (ridge,) = (run for run in layout.runs if run.trim == "ridge" and run.length < 50)
    for face in ridge.edge.faces:
        own = [one.solid.vertices for one in layout.closures if one.at == ridge.name and one.face == face]
        along = (np.vstack(own) - ridge.edge.start) @ ridge.edge.direction
        assert -2.0 < along.min() < -1.0
        assert ridge.length - 6.0 < along.max() < ridge.length
    assert "screw-without-hold" not in {finding.rule for finding in check(layout)}


def test_edges_that_are_not_in_line_are_sealed_and_told() -> None:
    layout = flush_gable(6, 6, back=30.0)
    told = {finding.rule for finding in check(layout)}
    assert "corner-without-joint" in told
    assert ends_of(layout, sealed_end.KIND.name)
