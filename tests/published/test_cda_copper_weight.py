"""Copper Development Association handbook, table 1.1.3: what a thickness of copper weighs (pub)."""

import pytest

from trimwright.model.metals import METALS
from trimwright.model.takeoff.facts import DENSITIES

HALF_A_DIGIT = 0.00005


@pytest.mark.parametrize("label", METALS["copper"].labels)
def test_so_many_ounces_a_square_foot_are_so_thick(label: str) -> None:
    pounds = float(label.removesuffix(" oz")) / 16
    thickness = pounds / 144 / DENSITIES["copper"].value
    assert thickness == pytest.approx(METALS["copper"].labels[label], abs=HALF_A_DIGIT)
