"""Measured roofs: from the scene or from a file, plane pieces united, and what lies under a higher roof told."""

import math
from pathlib import Path
from typing import Any

import cities
import numpy as np
import pytest

from trimwright.model.checks.run import check
from trimwright.model.errors import GeometryError, SceneError
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.read import read_scene, scene_of

TRUED = 0.02
"""Half a millimeter, inches: to that the file has its corners, and so much is left open."""

FRONT = [[0, 0, 100], [360, 0, 100], [360, 120, 160], [0, 120, 160]]
BACK = [[0, 120, 160], [360, 120, 160], [360, 240, 100], [0, 240, 100]]


def roof_of(**roof: Any) -> Roof:
    return build_roof(scene_of({"title": "Measured", "roof": {"form": "faces", **roof}}).roof)


def kinds(roof: Roof) -> dict[str, int]:
    found = [edge.kind for edge in roof.edges]
    return {kind: found.count(kind) for kind in sorted(set(found))}


def test_faces_in_the_scene() -> None:
    roof = roof_of(faces=[FRONT, BACK])
    assert kinds(roof) == {"eave": 2, "rake": 4, "ridge": 1}


def test_a_slope_in_two_pieces_is_one_face() -> None:
    left, right = (
        [[x0, 0, 100], [x1, 0, 100], [x1, 120, 160], [x0, 120, 160]] for x0, x1 in ((0, 200), (200, 360))
    )
    roof = roof_of(faces=[left, right, BACK])
    assert len(roof.faces) == 2
    assert kinds(roof) == {"eave": 2, "rake": 4, "ridge": 1}


def test_noise_within_the_tolerance_is_snapped() -> None:
    noisy = [[round(x + 0.3 * math.sin(7 * x + y), 3), y, z] for x, y, z in BACK]
    assert len(roof_of(faces=[FRONT, noisy]).vertices) == 6
    assert len(roof_of(faces=[FRONT, noisy], tolerance="1/16 in").vertices) > 6


def test_faces_farther_from_plane_than_the_tolerance_are_refused() -> None:
    with pytest.raises(GeometryError, match="out of plane"):
        roof_of(faces=[[*FRONT[:3], [0, 120, 164]]])


def test_an_edge_under_a_higher_roof_is_a_step() -> None:
    low = [[0, -200, 20], [360, -200, 20], [360, 0, 60], [0, 0, 60]]
    roof = roof_of(faces=[FRONT, BACK, low])
    steps = [edge for edge in roof.edges if edge.kind == "step"]
    assert [edge.name for edge in steps] == ["back step"]
    assert steps[0].length == pytest.approx(360)


def test_a_hole_in_a_face() -> None:
    hole = [[100, 30, 115], [100, 90, 145], [200, 90, 145], [200, 30, 115]]
    roof = roof_of(faces=[FRONT, BACK], holes={1: [hole]})
    assert roof.faces[0].area == pytest.approx((360 * 120 - 100 * 60) * math.sqrt(1.25))


@pytest.mark.parametrize("number", [0, 1, 2, 3])
def test_a_building_of_a_file_is_laid_out(tmp_path: Path, number: int) -> None:
    """Its areas are those that the file states; the lowest corner is at 0."""
    (tmp_path / "block.city.json").write_text(cities.one_file(), encoding="utf-8")
    path = tmp_path / "measured.toml"
    path.write_text(
        f'title = "Measured"\n[roof]\nform = "faces"\nfile = "block.city.json"\nbuilding = "house-{number}"\n'
    )
    layout = build(read_scene(path))
    stated = sum(float(face["area_m2"]) for face in cities.ROOFS[number]["faces"])
    count = len(layout.roof.faces)
    assert sum(face.area for face in layout.roof.faces) * 0.0254**2 == pytest.approx(
        stated, abs=0.005 * count
    )
    assert float(np.min(layout.roof.vertices)) == pytest.approx(0, abs=TRUED)
    assert not layout.untrimmed
    assert not [finding for finding in check(layout) if finding.severity == "error"]


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ('file = "none.json"\nbuilding = "house-0"', "there is no such file"),
        (
            'file = "block.city.json"\nbuilding = "barn"',
            "there is no building of that id in the file; .* house-0",
        ),
        ('file = "block.city.json"', "there is no building of that id"),
        ("", "roof.faces: missing"),
    ],
    ids=["no file", "no building", "no id", "nothing"],
)
def test_what_cannot_be_read_is_refused(tmp_path: Path, lines: str, says: str) -> None:
    (tmp_path / "block.city.json").write_text(cities.one_file(), encoding="utf-8")
    path = tmp_path / "measured.toml"
    path.write_text(f'title = "Measured"\n[roof]\nform = "faces"\n{lines}\n')
    with pytest.raises(SceneError, match=says):
        read_scene(path)
