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
