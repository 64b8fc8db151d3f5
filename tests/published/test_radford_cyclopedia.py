"""*Radford's Cyclopedia of Construction* vol. 3: backing of hips (pub)."""

import math

import pytest
from valleys import valley

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


def test_valley_of_a_run_of_11_ft_3_in_at_6_in_12() -> None:
    """The book steps 18 in of valley eleven and a quarter times; its own product is illegible."""
    edge, beside, _ = valley(wing="6/12", main="6/12", half_span=135)
    assert edge.length == pytest.approx(11.25 * 18)
    assert beside.longer(16) == pytest.approx(18, abs=0.5)  # "1 ft 6 in" between jacks 16 in apart


def test_board_cut_to_a_valley_at_6_in_12() -> None:
    """Twelve on one arm of the square, 13 5/12 on the other."""
    _, beside, _ = valley(wing="6/12", main="6/12")
    assert 12 / math.tan(math.radians(beside.seam)) == pytest.approx(13 + 5 / 12, abs=0.5 / 12)
