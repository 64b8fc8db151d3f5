"""Four small roofs of the City of Vienna's open LoD2 roof model, created 2016 (pub; data/README.md).

The model states area, tilt and azimuth of each face; its corners are rounded to a millimeter. Areas are
compared within half of their last printed digit, angles within that and what half a millimeter makes over
half a face.
"""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.edges import roof_from_faces
from trimwright.model.roof.record import Face
from trimwright.model.scene.roof import GableSpec, HipSpec, ShedSpec

ROOFS = {
    roof["kind"]: roof["faces"]
    for roof in json.loads((Path(__file__).parent / "data/vienna_roofs.json").read_text())
}
MM = 25.4
DIGIT = 0.005
NO_OVERHANG = {"eave": 0, "rake": 0, "high": 0}


def ring(face: dict[str, Any]) -> NDArray[np.float64]:
    return np.array(face["ring_mm"], dtype=float) / MM


def spans(face: dict[str, Any]) -> list[float]:
    """Return the lengths in plan of a face's sides, inches."""
    plan = ring(face)[:, :2]
    return [float(size) for size in np.linalg.norm(np.roll(plan, -1, axis=0) - plan, axis=1)]


def rise(face: dict[str, Any]) -> float:
    return float(np.ptp(ring(face)[:, 2]))


def assert_as_printed(found: Face, printed: dict[str, Any], azimuth: bool = True) -> None:
    reach = math.hypot(*np.ptp(found.outline, axis=0)[:2]) / 2
    rounding = math.degrees(0.5 / MM / reach)
    assert found.area * (MM / 1000) ** 2 == pytest.approx(float(printed["area_m2"]), abs=DIGIT)
    slope = 90 - float(printed["tilt_from_plumb_deg"])
    assert math.degrees(found.slope) == pytest.approx(slope, abs=DIGIT + rounding)
    if azimuth:
        assert math.degrees(found.azimuth) == pytest.approx(
            float(printed["azimuth_deg"]), abs=DIGIT + rounding
        )


@pytest.mark.parametrize(
    "face", [face for roof in ROOFS.values() for face in roof], ids=lambda f: f["area_m2"]
)
def test_each_measured_face(face: dict[str, Any]) -> None:
    (found,) = roof_from_faces([ring(face)], deck=0.5, tolerance=1 / MM).faces
    assert_as_printed(found, face)


@pytest.mark.parametrize(
    ("kind", "edges"),
    [
        ("gable", {"eave": 2, "rake": 4, "ridge": 1}),
        ("hip", {"eave": 4, "hip": 4, "ridge": 1}),  # one eave is measured in three stretches, in one line
        ("shed", {"eave": 1, "rake": 2, "high": 1}),  # its eave rises 41 mm in 5.2 m
        ("hip+valley", {"eave": 4, "rake": 6, "high": 2, "hip": 2, "ridge": 1, "valley": 1}),
    ],
)
def test_measured_faces_make_a_roof(kind: str, edges: dict[str, int]) -> None:
    roof = roof_from_faces([ring(face) for face in ROOFS[kind]], deck=0.5, tolerance=1 / MM)
    kinds = [edge.kind for edge in roof.edges]
    assert {name: kinds.count(name) for name in kinds} == edges
    assert len({edge.name for edge in roof.edges}) == len(roof.edges)
    for found, printed in zip(roof.faces, ROOFS[kind], strict=True):
        assert_as_printed(found, printed)


def test_gable_form_fits_each_slope_alone() -> None:
    """The two eaves are at different heights, which the form does not have: each slope is half of a gable."""
    printed = ROOFS["gable"]
    runs = [spans(face)[1] for face in printed]
    pitch = math.degrees(math.atan(sum(rise(face) for face in printed) / sum(runs)))
    for face, run in zip(printed, runs, strict=True):
        spec = GableSpec(
            form="gable",
            length=spans(face)[0],
            width=2 * run,
            pitch=f"{pitch} deg",
            overhang=NO_OVERHANG,
        )
        for slope in build_roof(spec).faces:
            assert_as_printed(slope, face, azimuth=False)


def test_hip_form_fits() -> None:
    printed = ROOFS["hip"]
    long, short = spans(printed[0])[2], spans(printed[3])[0]
    pitch = math.degrees(math.atan(rise(printed[0]) / (short / 2)))
    spec = HipSpec(form="hip", length=long, width=short, pitch=f"{pitch} deg", overhang=NO_OVERHANG)
    roof = build_roof(spec)
    for name, face in zip(("back", "left", "front", "right"), printed, strict=True):
        found = next(face for face in roof.faces if face.name == name)
        assert_as_printed(found, face, azimuth=False)
        turned = (math.degrees(found.azimuth) - 3.39) % 360
        assert turned == pytest.approx(float(face["azimuth_deg"]), abs=DIGIT)
    ridge = next(edge for edge in roof.edges if edge.kind == "ridge")
    assert ridge.length == pytest.approx(spans(printed[0])[0], abs=1 / MM)


def test_shed_form_fits_by_its_mean_sides() -> None:
    """The face is out of square by 1 in 30, which the form does not have: opposite sides are averaged."""
    (face,) = ROOFS["shed"]
    ends = spans(face)
    spec = ShedSpec(
        form="shed",
        length=(ends[0] + ends[2]) / 2,
        width=(ends[1] + ends[3]) / 2,
        pitch=f"{90 - float(face['tilt_from_plumb_deg'])} deg",
        overhang=NO_OVERHANG,
    )
    (found,) = build_roof(spec).faces
    assert_as_printed(found, face, azimuth=False)
