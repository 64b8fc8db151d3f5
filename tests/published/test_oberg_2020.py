"""E. Oberg et al., *Machinery's Handbook*, 31st ed. (2020), p. 1421: lengths of metal in bends (pub).

The year is from memory.
"""

import math
from dataclasses import replace

import pytest

from trimwright.model.metals import METALS, bend_length

SOFT_STEEL = METALS["steel"]
HALF_DIGIT = 0.0005 + 1e-9


@pytest.mark.parametrize(
    ("angle", "radius", "printed"), [(180, 3 / 8, 1.338), (60, 5 / 8, 0.707)], ids=["180 at 3/8", "60 at 5/8"]
)
def test_worked_bends_of_eighth_inch_soft_steel(angle: float, radius: float, printed: float) -> None:
    assert bend_length(SOFT_STEEL, 1 / 8, radius, math.radians(angle)) == pytest.approx(
        printed, abs=HALF_DIGIT
    )


def test_worked_length_of_the_whole_part() -> None:
    bends = bend_length(SOFT_STEEL, 1 / 8, 3 / 8, math.pi) + bend_length(
        SOFT_STEEL, 1 / 8, 5 / 8, math.pi / 3
    )
    assert bends + 3.5 == pytest.approx(5.545, abs=HALF_DIGIT)


@pytest.mark.parametrize(
    ("kind", "factor"), [("steel", 0.64), ("galvanized", 0.64), ("aluminum", 0.64), ("copper", 0.64)]
)
def test_factor_of_half_hard_copper_soft_steel_and_aluminum(kind: str, factor: float) -> None:
    assert bend_length(METALS[kind], 1.0, 0.0, math.pi / 2) == pytest.approx(factor)


@pytest.mark.parametrize("factor", [0.55, 0.64, 0.71], ids=["soft copper", "soft steel", "cold-rolled steel"])
def test_the_three_formulas(factor: float) -> None:
    metal = replace(SOFT_STEEL, bend=factor)
    assert bend_length(metal, 0.1, 0.2, math.pi / 2) == pytest.approx(factor * 0.1 + 1.57 * 0.2)
