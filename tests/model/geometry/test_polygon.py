import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from trimwright.model.geometry.polygon import area_vector, chord, clip, columns

SQUARE = np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]])
DIAGONAL = np.array([1.0, 1.0]) / np.sqrt(2)

angles = st.lists(st.floats(0, 6.28), min_size=3, max_size=9, unique_by=lambda a: round(a, 1))


def convex(turns: list[float]) -> NDArray[np.float64]:
    turns = sorted(turns)
    return 10 * np.column_stack([np.cos(turns), np.sin(turns)])


def area(polygon: NDArray[np.float64]) -> float:
    if not len(polygon):
        return 0.0
    return float(area_vector(np.column_stack([polygon, np.zeros(len(polygon))]))[2])


def test_area_vector_of_a_square_points_to_where_it_runs_counter_clockwise() -> None:
    assert area(SQUARE) == 16
    assert area(SQUARE[::-1]) == -16


def test_clip_keeps_the_triangle_below_the_diagonal() -> None:
    kept = clip(SQUARE, DIAGONAL, 4 / np.sqrt(2))
    assert sorted(map(tuple, kept.round(12))) == [(0, 0), (0, 4), (4, 0)]


def test_clip_leaves_a_polygon_alone_that_only_touches_the_line() -> None:
    assert clip(SQUARE, np.array([1.0, 0.0]), 4.0) is SQUARE


def test_clip_to_a_corner_leaves_nothing() -> None:
    assert len(clip(SQUARE, DIAGONAL, 0.0)) == 0


def test_chord_runs_with_the_normal_on_its_right() -> None:
    found = chord(SQUARE, np.array([1.0, 0.0]), 1.0)
    assert found is not None
    assert found.tolist() == [[1, 0], [1, 4]]


def test_chord_along_a_side_is_that_side() -> None:
    found = chord(SQUARE, np.array([0.0, -1.0]), 0.0)
    assert found is not None
    assert found.tolist() == [[0, 0], [4, 0]]


@pytest.mark.parametrize("offset", [0.0, -1.0, 9.0])
def test_no_chord_at_a_corner_or_outside(offset: float) -> None:
    assert chord(SQUARE, DIAGONAL, offset) is None


@given(angles, st.lists(st.floats(-12, 12), max_size=6, unique_by=lambda x: round(x, 2)))
def test_columns_share_out_the_area_between_the_cuts(turns: list[float], cuts: list[float]) -> None:
    polygon = convex(turns)
    parts = columns(polygon, np.array(sorted(cuts)))
    assert len(parts) == len(cuts) + 1
    assert sum(area(part) for part in parts) == pytest.approx(area(polygon), abs=1e-6)
    bounds = [-np.inf, *sorted(cuts), np.inf]
    for part, left, right in zip(parts, bounds, bounds[1:], strict=False):
        if len(part):
            assert area(part) >= 0
            assert part[:, 0].min() >= left - 1e-9
            assert part[:, 0].max() <= right + 1e-9


@given(angles, st.floats(0, 6.28), st.floats(-11, 11))
def test_clip_and_its_opposite_share_out_the_area(turns: list[float], angle: float, offset: float) -> None:
    polygon = convex(turns)
    normal = np.array([np.cos(angle), np.sin(angle)])
    both = area(clip(polygon, normal, offset)) + area(clip(polygon, -normal, -offset))
    assert both == pytest.approx(area(polygon), abs=1e-6)
