"""Rafter lengths and angles for rises of 2 to 18 in 12, by the edges of a hip roof (data/README.md)."""

import csv
import math
from pathlib import Path

import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.edges import falls_beside
from trimwright.model.roof.record import Roof
from trimwright.model.scene.roof import HipSpec

TABLE = list(csv.DictReader((Path(__file__).parent / "data/rafter_table.csv").read_text().splitlines()))
RUN_FT = 10.0
DIGIT = 0.5e-6


def hip_roof(rise: str) -> Roof:
    spec = HipSpec(
        form="hip", length=36 * RUN_FT, width=24 * RUN_FT, pitch=f"{rise}/12", overhang={"eave": 0}
    )
    return build_roof(spec)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"rise {row['rise_in_12']}")
def test_row(row: dict[str, str]) -> None:
    roof = hip_roof(row["rise_in_12"])
    edges = {edge.name: edge for edge in roof.edges}
    hip, ridge, eave = edges["front-left hip"], edges["ridge"], edges["front eave"]
    face = roof.faces[eave.faces[0]]
    up = -eave.outward
    common = float((ridge.start - eave.start) @ up)
    jack = float(hip.direction @ up) / float(hip.direction @ eave.direction)
    backing = falls_beside(hip.direction, *(roof.faces[index].normal for index in hip.faces))
    found = {
        "common_per_ft_in": common / RUN_FT,
        "hip_per_ft_in": hip.length / RUN_FT,
        "jack16_in": 16 * jack,
        "jack24_in": 24 * jack,
        "jack_side_cut_in": 12 / jack,
        "hip_side_cut_in": 12 * math.dist(hip.start[:2], hip.end[:2]) / hip.length,
        "common_deg": math.degrees(face.slope),
        "hip_deg": math.degrees(hip.slope),
        "backing_deg": math.degrees(backing[0]),
        "hip_dihedral_deg": math.degrees(hip.dihedral),
        "ridge_dihedral_deg": math.degrees(ridge.dihedral),
        "slope_factor": common / (12 * RUN_FT),
        "hip_factor": hip.length / (12 * RUN_FT),
    }
    printed = {key: float(value) for key, value in row.items() if key != "rise_in_12"}
    assert found == pytest.approx(printed, abs=DIGIT)
    assert backing[1] == pytest.approx(backing[0])


@pytest.mark.parametrize("rise", [row["rise_in_12"] for row in TABLE])
def test_dihedral_of_equal_hips_closed_form(rise: str) -> None:
    pitch = math.atan(float(rise) / 12)
    dihedrals = [edge.dihedral for edge in hip_roof(rise).edges if edge.kind == "hip"]
    assert dihedrals == pytest.approx([math.pi - math.acos(math.cos(pitch) ** 2)] * 4, abs=1e-12)
