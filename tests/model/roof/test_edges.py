import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from trimwright.model.errors import GeometryError
from trimwright.model.roof import forms
from trimwright.model.roof.corners import merge
from trimwright.model.roof.edges import falls_beside, roof_from_faces
from trimwright.model.roof.record import Roof

Array = NDArray[np.float64]

PITCH = math.atan(0.5)
HIP = forms.faces(forms.hip(384, 240, (PITCH, math.atan(8 / 12)), 108, 12))
GABLE = forms.faces(forms.gable(384, 240, (PITCH, math.atan(8 / 12)), 108, 12, 8))
SHED = forms.faces(forms.shed(384, 240, PITCH, 108, 12, 8, 6))


def turned(outlines: tuple[Array, ...], angle: float, by: Array) -> tuple[Array, ...]:
    c, s = math.cos(angle), math.sin(angle)
    return tuple(outline @ np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]]) + by for outline in outlines)


def told(roof: Roof) -> list[tuple[object, ...]]:
    """Return what does not depend on where a roof stands."""
    return sorted(
        (edge.kind, edge.hand or "", *(round(x, 6) for x in (edge.length, edge.dihedral, edge.slope)))
        for edge in roof.edges
    )


@pytest.mark.parametrize("outlines", [HIP, GABLE, SHED], ids=["hip", "gable", "shed"])
@given(angle=st.floats(-7, 7), by=st.tuples(*[st.floats(-5000, 5000)] * 3))
def test_turning_a_roof_changes_only_its_names(
    outlines: tuple[Array, ...], angle: float, by: tuple[float, float, float]
) -> None:
    here = roof_from_faces(outlines, 0.5)
    there = roof_from_faces(turned(outlines, angle, np.array(by)), 0.5)
    assert told(there) == told(here)
    assert len({edge.name for edge in there.edges}) == len(there.edges)


def test_a_quarter_turn_turns_the_names_too() -> None:
    roof = roof_from_faces(turned(GABLE, math.pi / 2, np.zeros(3)), 0.5)
    assert [face.name for face in roof.faces] == ["right", "left"]
    assert [edge.name for edge in roof.edges] == [
        "right eave",
        "left eave",
        "front-end right rake",
        "back-end left rake",
        "back-end right rake",
        "front-end left rake",
        "ridge",
    ]
    assert roof.edges[-1].direction.tolist() == pytest.approx([0, 1, 0])


@pytest.mark.parametrize("outlines", [HIP, GABLE, SHED], ids=["hip", "gable", "shed"])
def test_a_mirrored_roof_has_its_hands_exchanged(outlines: tuple[Array, ...]) -> None:
    mirrored = tuple((outline * [-1, 1, 1])[::-1] for outline in outlines)
    exchanged = {"left": "right", "right": "left", "": ""}
    here, there = (told(roof_from_faces(each, 0.5)) for each in (outlines, mirrored))
    assert sorted((kind, exchanged[str(hand)], *rest) for kind, hand, *rest in here) == there


def test_a_left_rake_rises_to_the_right_seen_from_outside() -> None:
    for edge in roof_from_faces(GABLE, 0.5).edges:
        if edge.kind == "rake":
            rightward = np.cross([0, 0, 1], edge.outward)
            assert edge.hand == ("left" if edge.direction @ rightward > 0 else "right")


def test_corners_within_tolerance_become_one() -> None:
    noisy = tuple(outline + 0.01 * np.sin(outline * 7 + k) for k, outline in enumerate(GABLE))
    roof = roof_from_faces(noisy, 0.5, tolerance=0.05)
    assert len(roof.vertices) == 6
    assert sorted(edge.kind for edge in roof.edges) == ["eave"] * 2 + ["rake"] * 4 + ["ridge"]


def test_merge_drops_a_side_shorter_than_the_tolerance() -> None:
    vertices, rings = merge([np.array([[0.0, 0, 0], [9, 0, 0], [9, 0, 1e-9], [0, 9, 0]])], 1e-6)
    assert len(vertices) == 3
    assert rings == [[0, 1, 2]]


def test_several_faces_that_fall_the_same_way_are_numbered() -> None:
    beside = tuple(outline + np.array([500, 0, 0]) for outline in GABLE)
    roof = roof_from_faces([*GABLE, *beside], 0.5)
    assert [face.name for face in roof.faces] == ["front 1", "back 1", "front 2", "back 2"]
    names = [edge.name for edge in roof.edges]
    assert len(set(names)) == len(names) == 14
    assert {"ridge 1", "ridge 2", "front 1 eave", "right-end left rake 2"} <= set(names)


@given(st.floats(0.05, 1.3), st.floats(0.05, 1.3))
def test_falls_beside_a_ridge_are_its_slopes(front: float, back: float) -> None:
    roof = roof_from_faces(forms.faces(forms.gable(384, 240, (front, back), 2000, 12, 8)), 0.5)
    ridge = roof.edges[-1]
    falls = falls_beside(ridge.direction, *(roof.faces[face].normal for face in ridge.faces))
    assert falls == pytest.approx((back, front))


def ring(*corners: tuple[float, float, float]) -> Array:
    return np.array(corners, dtype=float)


UPHILL = ring((0, 0, 0), (10, 0, 0), (10, 10, 5), (0, 10, 5))
NOTCHED = ring((0, 0, 0), (4, 0, 0), (5, 10, 5), (6, 0, 0), (10, 0, 0), (10, 10, 5), (0, 10, 5))
"""The point of its notch lies on its upper edge."""


@pytest.mark.parametrize(
    ("outlines", "says"),
    [
        ([UPHILL, UPHILL[:3]], "same side"),
        ([UPHILL[::-1]], "clockwise"),
        ([NOTCHED], "meets itself"),
        ([UPHILL * [1, 1, 0]], "told from level"),
        ([UPHILL + ring((0, 0, 0), (0, 0, 0), (0, 0, 1), (0, 0, 0))], "out of plane"),
        ([UPHILL[:2]], "no area"),
        (
            [UPHILL, *(ring((0, 10, 5), (10, 10, 5), (10, 20, z), (0, 20, z)) for z in (0.0, 1.0))],
            "3 faces share one edge",
        ),
    ],
)
def test_what_is_no_roof_is_refused_in_a_sentence(outlines: list[Array], says: str) -> None:
    with pytest.raises(GeometryError, match=says) as caught:
        roof_from_faces(outlines, 0.5)
    assert str(caught.value).endswith(".")
    assert "\n" not in str(caught.value)


BEYOND = [(0, 10, 5), (10, 10, 5), (10, 20, 5), (0, 20, 5)]
"""A face behind the one that falls to the front; where its far edge is says how the two meet."""


@pytest.mark.parametrize(
    ("far", "kind", "dihedral"),
    [
        (0.0, "ridge", math.pi - 2 * math.atan(0.5)),
        (6.0, "break", math.pi - math.atan(0.5) + math.atan(0.1)),
        (12.0, "break", math.pi - math.atan(0.5) + math.atan(0.7)),
    ],
    ids=["ridge", "less steep above", "steeper above"],
)
def test_how_two_faces_meet_along_a_level_edge(far: float, kind: str, dihedral: float) -> None:
    beyond = ring(*BEYOND[:2], (10, 20, far), (0, 20, far))
    roof = roof_from_faces([UPHILL, beyond], 0.5)
    (shared,) = [edge for edge in roof.edges if len(edge.faces) == 2]
    assert shared.kind == kind
    assert shared.dihedral == pytest.approx(dihedral)


@pytest.mark.parametrize("side", [1, -1], ids=["upper on the left", "upper on the right"])
def test_of_a_break_that_slopes_the_upper_face_comes_first_and_outward_is_down_it(side: int) -> None:
    """By hand: z = y / 2 below the line y = x, and z = 0.8 y - 0.3 x above it; and the same in a mirror."""
    lower, upper = ([(0, 0, 0), (10, 0, 0), (10, 10, 5)], [(0, 0, 0), (10, 10, 5), (0, 10, 8)])
    rings = [ring(*((side * x, y, z) for x, y, z in face[::side])) for face in (lower, upper)]
    (shared,) = [edge for edge in roof_from_faces(rings, 0.5).edges if len(edge.faces) == 2]
    assert (shared.kind, shared.faces) == ("break", (1, 0))
    assert shared.outward == pytest.approx(np.array([side, -1.0, 0.0]) / math.sqrt(2))


def test_a_level_valley() -> None:
    facing = ring((0, -10, 5), (10, -10, 5), (10, 0, 0), (0, 0, 0))
    (valley,) = [edge for edge in roof_from_faces([UPHILL, facing], 0.5).edges if len(edge.faces) == 2]
    assert (valley.kind, valley.name) == ("valley", "front-back valley")
    assert valley.dihedral == pytest.approx(math.pi + 2 * math.atan(0.5))


def test_an_edge_is_split_where_another_face_ends_on_it() -> None:
    half = ring((0, 10, 5), (5, 10, 5), (5, 20, 0), (0, 20, 0))
    roof = roof_from_faces([UPHILL, half], 0.5)
    kinds = {
        (edge.kind, *sorted([edge.start[0], edge.end[0]]))
        for edge in roof.edges
        if edge.start[1] == edge.end[1] == 10
    }
    assert kinds == {("ridge", 0.0, 5.0), ("high", 5.0, 10.0)}


def test_faces_in_one_plane_that_share_an_edge_are_one() -> None:
    roof = roof_from_faces([UPHILL, ring((0, 10, 5), (10, 10, 5), (10, 20, 10), (0, 20, 10))], 0.5)
    assert len(roof.faces) == 1
    assert sorted(edge.kind for edge in roof.edges) == ["eave", "high", "rake", "rake"]
