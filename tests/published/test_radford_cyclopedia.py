"""*Radford's Cyclopedia of Construction* vol. 3: backing of hips (pub)."""

import math

import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.edges import falls_beside
from trimwright.model.scene.roof import HipSpec


def test_hip_backing_at_6_in_12_is_the_angle_of_6_to_18() -> None:
    spec = HipSpec(form="hip", length=480, width=240, pitch="6/12")
    roof = build_roof(spec)
    hips = [edge for edge in roof.edges if edge.kind == "hip"]
    assert len(hips) == 4
    for hip in hips:
        backing = falls_beside(hip.direction, *(roof.faces[face].normal for face in hip.faces))
        assert [math.degrees(angle) for angle in backing] == pytest.approx([18.43, 18.43], abs=0.005)
        assert math.degrees(math.pi - hip.dihedral) == pytest.approx(2 * math.degrees(math.atan(6 / 18)))
