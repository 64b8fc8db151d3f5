"""Roofs of which much comes together at once, worked out by hand. All sides at 6/12: 2 in for each inch of height."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.model.roof.skeleton.record import OpenRoof
from trimwright.model.roof.skeleton.skeleton import SideFace, skeleton

Array = NDArray[np.float64]
Corners = list[tuple[float, float]]

SQUARE: Corners = [(0, 0), (40, 0), (40, 40), (0, 40)]
OBLONG: Corners = [(0, 0), (60, 0), (60, 40), (0, 40)]
ELL: Corners = [(0, 0), (44, 0), (44, 20), (20, 20), (20, 44), (0, 44)]
TEE: Corners = [(0, 0), (60, 0), (60, 20), (40, 20), (40, 50), (20, 50), (20, 20), (0, 20)]
HIGH_TEE: Corners = [(0, 0), (60, 0), (60, 24), (40, 24), (40, 50), (20, 50), (20, 24), (0, 24)]
PLUS: Corners = [
    (20, 0),
    (40, 0),
    (40, 20),
    (60, 20),
    (60, 40),
    (40, 40),
    (40, 60),
    (20, 60),
    (20, 40),
    (0, 40),
    (0, 20),
    (20, 20),
]
AITCH: Corners = [
    (0, 0),
    (20, 0),
    (20, 20),
    (40, 20),
    (40, 0),
    (60, 0),
    (60, 60),
    (40, 60),
    (40, 40),
    (20, 40),
    (20, 60),
    (0, 60),
]
U: Corners = [(0, 0), (60, 0), (60, 50), (40, 50), (40, 20), (20, 20), (20, 50), (0, 50)]
ZED: Corners = [(0, 0), (40, 0), (40, 20), (60, 20), (60, 40), (20, 40), (20, 20), (0, 20)]
COURT: Corners = [(20, 20), (20, 60), (60, 60), (60, 20)]
AROUND: Corners = [(0, 0), (80, 0), (80, 80), (0, 80)]

SPEED = 2.0


def roof(*rings: Corners, speeds: Sequence[float] | None = None) -> tuple[SideFace, ...]:
    count = sum(len(ring) for ring in rings)
    return skeleton(
        [np.array(ring, dtype=float) for ring in rings], np.array(speeds if speeds else [SPEED] * count)
    )


def tops(faces: Sequence[SideFace]) -> set[tuple[float, float, float]]:
    """Return the corners above the eaves."""
    points = np.concatenate([face.outline for face in faces])
    return {tuple(point) for point in (points[points[:, 2] > 1e-9].round(9) + 0.0).tolist()}


def areas(faces: Sequence[SideFace]) -> list[float]:
    found = []
    for face in faces:
        x, y = face.outline[:, 0], face.outline[:, 1]
        found.append(round(float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2, 9))
    return found


@pytest.mark.parametrize(
    ("rings", "points"),
    [
        ((SQUARE,), {(20, 20, 10)}),
        ((OBLONG,), {(20, 20, 10), (40, 20, 10)}),
        ((ELL,), {(10, 10, 5), (34, 10, 5), (10, 34, 5)}),
        ((TEE,), {(10, 10, 5), (50, 10, 5), (30, 10, 5), (30, 40, 5)}),
        ((HIGH_TEE,), {(12, 12, 6), (48, 12, 6), (30, 14, 5), (30, 40, 5)}),
        ((PLUS,), {(30, 30, 5), (30, 10, 5), (50, 30, 5), (30, 50, 5), (10, 30, 5)}),
        ((AITCH,), {(10, 10, 5), (10, 30, 5), (10, 50, 5), (50, 10, 5), (50, 30, 5), (50, 50, 5)}),
        ((U,), {(10, 10, 5), (50, 10, 5), (50, 40, 5), (10, 40, 5)}),
        ((ZED,), {(10, 10, 5), (30, 10, 5), (30, 30, 5), (50, 30, 5)}),
        ((AROUND, COURT), {(10, 10, 5), (70, 10, 5), (70, 70, 5), (10, 70, 5)}),
    ],
    ids=["square", "oblong", "ell", "tee", "high tee", "plus", "aitch", "U", "zed", "courtyard"],
)
def test_where_ridges_hips_and_valleys_meet(
    rings: tuple[Corners, ...], points: set[tuple[float, float, float]]
) -> None:
    assert tops(roof(*rings)) == points


def test_faces_of_an_oblong_by_hand() -> None:
    # Ends: triangles 40 wide and 20 deep; sides: the rest of 2400, halved.
    assert areas(roof(OBLONG)) == [800, 400, 800, 400]


def test_sides_in_one_plane_on_both_sides_of_a_wing_share_a_face() -> None:
    # The T's two back eaves (sides 2 and 6) are in one line, and its wing ends below the ridge.
    faces = roof(HIGH_TEE)
    assert [face.sides for face in faces] == [(0,), (1,), (2, 6), (3,), (4,), (5,), (7,)]
    assert len(faces[2].outline) == 7


def test_a_gable_is_a_roof_with_two_sides_that_stand_still() -> None:
    faces = roof(OBLONG, speeds=[SPEED, 0, SPEED, 0])
    assert [face.sides for face in faces] == [(0,), (2,)]
    assert tops(faces) == {(0, 20, 10), (60, 20, 10)}


def test_unequal_pitches_put_the_ridge_off_the_middle() -> None:
    # 6/12 in front and 12/12 at the back: the ridge divides 40 in as 2 : 1.
    faces = roof(OBLONG, speeds=[2, 0, 1, 0])
    assert {point[1:] for point in tops(faces)} == {(round(80 / 3, 9), round(40 / 3, 9))}


def test_gables_on_the_wings_of_an_ell() -> None:
    faces = roof(ELL, speeds=[2, 0, 2, 2, 0, 2])
    assert tops(faces) == {(44, 10, 5), (10, 44, 5), (10, 10, 5)}
    assert len(faces) == 4


def test_a_regular_octagon_comes_to_a_point() -> None:
    ring = [(100 * math.cos(k * math.pi / 4), 100 * math.sin(k * math.pi / 4)) for k in range(8)]
    faces = roof(ring)
    assert tops(faces) == {(0, 0, round(100 * math.cos(math.pi / 8) / 2, 9))}
    assert len(set(areas(faces))) == 1


def test_two_peaks_over_one_gable() -> None:
    # The corner of a courtyard reaches the gable's wall before its two slopes meet.
    court: Corners = [(50, 20), (44, 16), (44, 24)]
    faces = roof(OBLONG, court, speeds=[2, 0, 2, 2, 2, 2, 2])
    on_gable = {point for point in tops(faces) if point[0] == 60}
    assert len(on_gable) == 3


def test_a_jog_between_unequal_pitches_is_refused() -> None:
    # Sides 1 and 3 of the front come to one line at 10 in of height, where side 2 between them has run out.
    jog: Corners = [(0, 0), (60, 0), (60, -10), (100, -10), (100, 60), (0, 60)]
    with pytest.raises(OpenRoof) as caught:
        roof(jog, speeds=[1, 0.5, 2, 1, 1, 1])
    assert caught.value.why == "jog"
    assert caught.value.sides == (0, 2)
    assert caught.value.at == pytest.approx([65, 10])


def test_a_slope_that_reaches_a_gable_along_its_length_ends_there() -> None:
    # 40 in deep at 6/12: 20 in up along the back, less the 40 in that each end has come in by then.
    wide: Corners = [(0, 0), (200, 0), (200, 40), (0, 40)]
    assert tops(roof(wide, speeds=[2, 2, 0, 2])) == {(40, 40, 20), (160, 40, 20)}


def test_gables_alone_never_close() -> None:
    with pytest.raises(OpenRoof) as caught:
        roof(OBLONG, speeds=[0, 0, 0, 0])
    assert caught.value.why == "open"


def test_a_gentle_slope_goes_all_round_a_courtyard() -> None:
    # The front rises 3 in 12 and is past the courtyard, whose sides rise 12 in 12, well below the ridge.
    court: Corners = [(50, 20), (47, 22), (50, 24), (53, 22)]
    wide: Corners = [(0, 0), (100, 0), (100, 90), (0, 90)]
    faces = roof(wide, court, speeds=[4, 1, 1, 1, 1, 1, 1, 1])
    assert [len(face.holes) for face in faces] == [1, 0, 0, 0, 0, 0, 0, 0]
    (hole,) = (SideFace((), hole, ()) for hole in faces[0].holes)
    assert sum(areas(faces)) + areas([hole])[0] == pytest.approx(100 * 90 - 12)
