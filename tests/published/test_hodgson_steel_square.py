"""F. T. Hodgson, *The A B C of the Steel Square and Its Uses*: hips between unequal slopes (pub)."""

import math

import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge
from trimwright.model.scene.roof import HipSpec


def hip(length_ft: float, width_ft: float, pitch: str, end_pitch: str) -> Edge:
    spec = HipSpec(
        form="hip",
        length=12 * length_ft,
        width=12 * width_ft,
        pitch=pitch,
        end_pitch=end_pitch,
        overhang={"eave": 0},
    )
    return next(edge for edge in build_roof(spec).edges if edge.kind == "hip")


def test_runs_of_12_and_16_ft_rise_10_ft() -> None:
    """Page 43: the hip runs 20 ft; its length and angles follow from it."""
    found = hip(44, 24, "10/12", "10/16")
    assert math.dist(found.start[:2], found.end[:2]) / 12 == pytest.approx(20, abs=1e-9)
    assert found.length / 12 == pytest.approx(math.sqrt(20**2 + 10**2))
    assert math.degrees(found.slope) == pytest.approx(26.565, abs=5e-4)
    assert 180 - math.degrees(found.dihedral) == pytest.approx(49.35, abs=0.005)


def test_plan_of_18_by_28_ft_rise_9_ft_without_a_ridge() -> None:
    """Page 32: four hips that meet in one point, 9 and 14 ft of run."""
    found = hip(28, 18, "9/9", "9/14")
    assert math.dist(found.start[:2], found.end[:2]) / 12 == pytest.approx(math.hypot(9, 14), abs=1e-9)
    assert found.length / 12 == pytest.approx(18.921, abs=5e-4)
