"""*Radford's Cyclopedia of Construction* vol. 3: backing of hips (pub)."""

import math

import pytest
from valleys import cut_to_the_valley, from_seam, laid_out, steps_of, valley

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.edges import falls_beside
from trimwright.model.scene.roof import GableSpec, HipSpec


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


def test_panels_16_in_wide_are_1_ft_6_in_longer_each_at_6_in_12() -> None:
    layout = laid_out(wing="6/12", main="6/12", cover=16, half_span=135)
    for face in ("side 3", "side 4"):
        steps = steps_of(cut_to_the_valley(layout, face))
        assert steps
        assert steps == pytest.approx([18] * len(steps), abs=0.5)
        assert steps == pytest.approx([8 * math.sqrt(5)] * len(steps))


def test_common_rafter_of_a_run_of_11_ft_3_in_at_6_in_12() -> None:
    """Twelve feet seven inches, to the nearest inch."""
    roof = build_roof(
        GableSpec(form="gable", length=240, width=270, pitch="6/12", overhang={"eave": 0, "rake": 0})
    )
    rake = next(edge for edge in roof.edges if edge.kind == "rake")
    assert rake.length == pytest.approx(12 * 12 + 7, abs=0.5)


def test_hip_and_rafter_at_10_in_12() -> None:
    """P4: 15 7/12 in of rafter to a foot of run; a jack cut of 12 to 15 7/12; the hip's of 17 to 19.72."""
    roof = build_roof(HipSpec(form="hip", length=480, width=240, pitch="10/12", overhang={"eave": 0}))
    hip = next(edge for edge in roof.edges if edge.kind == "hip")
    assert hip.length / 10 == pytest.approx(19.72, abs=0.03)  # steps of the square: 17 for 16.97, 10
    _, beside, _ = valley(wing="10/12", main="10/12")
    assert 12 / math.tan(math.radians(beside.seam)) == pytest.approx(15 + 7 / 12, abs=0.5 / 12)


def test_board_cut_to_a_valley_at_6_in_12() -> None:
    """Twelve on one arm of the square, 13 5/12 on the other."""
    _, beside, _ = valley(wing="6/12", main="6/12")
    assert 12 / math.tan(math.radians(beside.seam)) == pytest.approx(13 + 5 / 12, abs=0.5 / 12)
    panels = cut_to_the_valley(laid_out(wing="6/12", main="6/12", cover=16), "side 3")
    assert panels
    for panel in panels:
        assert 12 / math.tan(math.radians(from_seam(panel))) == pytest.approx(13 + 5 / 12, abs=0.5 / 12)
