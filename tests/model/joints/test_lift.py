"""Lifts: two are one where no hand could tell them apart."""

import numpy as np
import pytest

from trimwright.model.joints.lift import Lift

LIFT = Lift(2.0, 6.0, np.array([0.03, -0.02]))


@pytest.mark.parametrize(
    ("by", "same"),
    [
        ((0.0, 0.0, 0.0, 0.0), True),
        ((0.0005, -0.0005, 5e-6, -5e-6), True),
        ((0.01, 0.0, 0.0, 0.0), False),
        ((0.0, -0.01, 0.0, 0.0), False),
        ((0.0, 0.0, 0.001, 0.0), False),
        ((0.0, 0.0, 0.0, -0.001), False),
    ],
)
def test_a_thousandth_of_a_sheet_or_of_an_inch_is_no_difference(by: tuple[float, ...], same: bool) -> None:
    sheets, overlap, *aside = by
    other = Lift(LIFT.sheets + sheets, LIFT.overlap + overlap, LIFT.aside + aside)
    assert LIFT.is_near(other) == other.is_near(LIFT) == same
