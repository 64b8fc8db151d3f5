"""NAVEDTRA 14044, *Builder 3&2 Vol. 2*, ch. 2: roof framing by the square (pub)."""

import math

import pytest
from valleys import cut_to_the_valley, from_seam, laid_out, valley

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge, Roof
from trimwright.model.scene.roof import GableSpec, HipSpec
from trimwright.model.units import tape

NO_OVERHANG = {"eave": 0, "rake": 0}


def hip_roof(span_ft: float, rise: int) -> Roof:
    return build_roof(
        HipSpec(
            form="hip",
            length=12 * (span_ft + 20),
            width=12 * span_ft,
            pitch=f"{rise}/12",
            overhang=NO_OVERHANG,
        )
    )


def first(roof: Roof, kind: str) -> Edge:
    return next(edge for edge in roof.edges if edge.kind == kind)


def test_gable_example_1_span_16_ft_rise_7_in_12() -> None:
    spec = GableSpec(form="gable", length=240, width=192, pitch="7/12", overhang=NO_OVERHANG)
    rake = first(build_roof(spec), "rake")
    # The book multiplies the square's rounded 13.89 in by the 8 ft of run and prints 111.12 in.
    assert round(rake.length / 8, 2) * 8 == pytest.approx(111.12, abs=0.005)
    assert tape(rake.length) == tape(9 * 12 + 3 + 1 / 8)


def test_hip_example_span_30_ft_rise_8_in_12() -> None:
    roof = hip_roof(30, 8)
    hip, ridge, eave = first(roof, "hip"), first(roof, "ridge"), first(roof, "eave")
    assert (ridge.start[2] - eave.start[2]) / 12 == pytest.approx(10, abs=1e-9)
    assert math.dist(hip.start[:2], hip.end[:2]) / 12 == pytest.approx(21.21, abs=0.005)
    assert hip.length / 12 == pytest.approx(23.45, abs=0.005)


def test_hip_per_foot_of_common_run_at_rise_8() -> None:
    assert first(hip_roof(30, 8), "hip").length / 15 == pytest.approx(18.76, abs=0.005)


def test_first_hip_jack_at_16_in_centres_at_rise_8() -> None:
    assert first_jack(hip_roof(30, 8), 16) == pytest.approx(19.23, abs=0.005)


def first_jack(roof: Roof, spacing: float) -> float:
    """Return the length, from eave to hip straight up the slope, at a distance from the corner, inches."""
    hip = next(edge for edge in roof.edges if edge.name == "front-left hip")
    eave = next(edge for edge in roof.edges if edge.name == "front eave")
    along = hip.direction * spacing / (hip.direction @ eave.direction)
    return float(math.dist(along, eave.direction * spacing))


def test_valley_of_a_half_span_of_15_ft_at_9_in_12() -> None:
    """Page 80: run 21.21 ft, 19.21 in of valley for each foot of common run, 288.15 in."""
    edge, _, _ = valley(wing="9/12", main="9/12", half_span=180)
    run = math.hypot(*(edge.end - edge.start)[:2])
    assert run / 12 == pytest.approx(21.21, abs=0.005)
    assert edge.length / 15 == pytest.approx(19.21, abs=0.005)
    assert edge.length == pytest.approx(288.15, abs=0.005 * 15)


def test_side_cut_of_a_valley_jack_at_8_in_12() -> None:
    """Page 85: 12 on one arm of the square, 10 on the other."""
    _, beside, _ = valley(wing="8/12", main="8/12")
    assert 12 * math.tan(math.radians(beside.seam)) == pytest.approx(10, abs=0.5)


def test_side_cut_of_a_panel_at_8_in_12() -> None:
    """The same cut on the sheets of panels: exactly 9.985 in."""
    panels = cut_to_the_valley(laid_out(wing="8/12", main="8/12", cover=16), "side 4")
    assert panels
    for panel in panels:
        assert 12 * math.tan(math.radians(from_seam(panel))) == pytest.approx(10, abs=0.5)


def test_valley_runs_16_97_in_to_a_foot_of_common_run() -> None:
    """Page 80: the unit run of a hip or valley."""
    edge, _, _ = valley(wing="9/12", main="9/12", half_span=180)
    assert math.hypot(*(edge.end - edge.start)[:2]) / 15 == pytest.approx(16.97, abs=0.005)
