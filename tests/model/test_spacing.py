"""Screws of a row: never too far apart, no more than needed, off the seams."""

import math
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from trimwright.model.spacing import SEAM, end_mark, space


@given(st.floats(2, 400), st.floats(6, 30), st.floats(6, 30), st.floats(0, 30))
def test_rows_are_covered_and_keep_off_seams(length: float, most: float, cover: float, offset: float) -> None:
    assume(cover > 2 * SEAM + 1)
    seams = [offset + cover * k for k in range(int(length / cover) + 1)]
    marks = space(0.0, length, most, seams)
    assert marks[0] == 0.0
    assert marks[-1] == length
    assert all(0 < b - a <= most + 1e-6 for a, b in pairwise(marks))
    if most > 2 * SEAM + 2 and length > 8:
        crowded = [at for at in marks[1:-1] if any(abs(at - seam) < SEAM - 1e-6 for seam in seams)]
        assert len(crowded) <= 1


@given(st.floats(2, 400), st.floats(6, 30))
def test_without_seams_as_few_as_will_do_and_even(length: float, most: float) -> None:
    marks = space(0.0, length, most, [])
    assert len(marks) == max(1, math.ceil(length / most - 1e-9)) + 1
    gaps = [b - a for a, b in pairwise(marks)]
    assert max(gaps) - min(gaps) < 1e-6


def test_by_hand_ten_and_a_half_feet_at_twenty_inches() -> None:
    """126 in less 6 at each end leaves 114 in: six gaps of 19 in, the last row of the tape at 120 in."""
    assert space(6.0, 120.0, 20.0, []) == [6, 25, 44, 63, 82, 101, 120]


def test_an_end_screw_takes_the_near_side_of_its_band() -> None:
    assert end_mark(6, 8, 1.5, []) == 6


def test_an_end_screw_dodges_a_seam_within_its_band() -> None:
    assert end_mark(6, 8, 1.5, [6.5]) == 7.5
    assert end_mark(6, 8, 1.5, [7.0]) == 6


def test_an_end_screw_keeps_off_a_hidden_lap() -> None:
    assert end_mark(6, 8, 8.5, []) == 8.5
