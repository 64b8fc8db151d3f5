"""I. S. Griffith, *Carpentry* (1916), sec. 20 and App. IV: hips (pub)."""

import math

import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.roof import HipSpec


def test_hip_per_foot_of_common_run_at_rise_12() -> None:
    spec = HipSpec(form="hip", length=480, width=240, pitch="12/12", overhang={"eave": 0})
    hips = [edge for edge in build_roof(spec).edges if edge.kind == "hip"]
    assert len(hips) == 4
    for hip in hips:
        assert hip.length / 10 == pytest.approx(20.78, abs=0.005)
        assert math.dist(hip.start[:2], hip.end[:2]) / 10 == pytest.approx(16.97, abs=0.005)


def test_hip_of_a_run_of_12_ft_7_in_at_6_in_12_by_steps() -> None:
    """Twelve full steps of 17 and 6 on the square, and a part step of 9 11/12 and 3 1/2 for the 7 in left over."""
    spec = HipSpec(form="hip", length=480, width=2 * 151, pitch="6/12", overhang={"eave": 0})
    hip = next(edge for edge in build_roof(spec).edges if edge.kind == "hip")
    run, rise = math.dist(hip.start[:2], hip.end[:2]), float(hip.end[2] - hip.start[2])
    assert run == pytest.approx(12 * 17 + 9 + 11 / 12, abs=0.5)  # the square's 17 stands for 16.97
    assert rise == pytest.approx(12 * 6 + 3.5)
    assert hip.length == pytest.approx(226.5, abs=0.05)
