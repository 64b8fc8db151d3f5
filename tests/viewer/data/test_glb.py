"""The 3D model: meters, y up, one named node for each thing, and what each says about itself."""

import json
import struct
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh
from zoo import layout

from trimwright.viewer.data.glb import glb_of
from trimwright.viewer.data.report import report_of
from trimwright.viewer.display.stage import stage_of


@pytest.fixture(scope="module", params=["harbor-office", "slip-shed", "boxed-gable"])
def written(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Any, Path]:
    there = layout(request.param)
    path = tmp_path_factory.mktemp("glb") / "roof.glb"
    path.write_bytes(glb_of(stage_of(there), there))
    return there, path


def tables(path: Path) -> dict[str, Any]:
    data = path.read_bytes()
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    whole: dict[str, Any] = json.loads(data[20 : 20 + size])
    return whole


def test_a_node_for_every_piece_panel_screw_face_and_wall(written: tuple[Any, Path]) -> None:
    there, path = written
    nodes = [node["name"] for node in tables(path)["nodes"] if "mesh" in node]
    assert len(nodes) == len(set(nodes))
    expected = {part.mark for part in there.parts}
    expected |= {f"panel {panel.name}" for panel in there.panels}
    expected |= {f"deck {face.name}" for face in there.roof.faces}
    assert expected <= set(nodes)
    assert sum(name.startswith("screw ") for name in nodes) == len(there.screws)
    assert sum(name.startswith("wall ") for name in nodes) == len(there.roof.walls)


def test_each_piece_panel_closure_and_cleat_is_one_closed_solid(written: tuple[Any, Path]) -> None:
    """As many nodes of each kind as the report has, every name once, each as heavy as its solid in the layout."""
    there, path = written
    whole = report_of(there, ())
    nodes = [node for node in tables(path)["nodes"] if "mesh" in node]
    names = [node["name"] for node in nodes]
    assert len(names) == len(set(names))
    kinds = Counter(node.get("extras", {}).get("kind") for node in nodes)
    for kind, key in (("trim", "pieces"), ("panel", "panels"), ("closure", "closures"), ("cleat", "cleats")):
        assert kinds[kind] == len(whole[key]), kind
    volumes = {part.mark: part.solid.volume for part in there.parts}
    volumes |= {f"panel {panel.name}": panel.solid.volume for panel in there.panels}
    volumes |= {f"closure {closure.name}": closure.solid.volume for closure in there.closures}
    volumes |= {f"cleat {cleat.mark}": cleat.solid.volume for cleat in there.cleats}
    scene = trimesh.load(path, process=False)
    for name, volume in volumes.items():
        mesh = scene.geometry[scene.graph[name][1]]
        assert mesh.is_watertight and mesh.is_winding_consistent, name
        assert mesh.body_count == 1, name
        assert mesh.volume == pytest.approx(volume * 0.0254**3, rel=1e-3), name


def test_screws_share_one_mesh(written: tuple[Any, Path]) -> None:
    whole = tables(written[1])
    assert len({node["mesh"] for node in whole["nodes"] if node.get("name", "").startswith("screw ")}) == 1


def test_a_piece_says_what_it_is(written: tuple[Any, Path]) -> None:
    there, path = written
    nodes = {node.get("name"): node for node in tables(path)["nodes"]}
    for part in there.parts:
        extras = nodes[part.mark]["extras"]
        assert extras["mark"] == part.mark
        assert extras["run"] == part.run.name
        assert extras["length"] == pytest.approx(part.length, abs=1e-6)
        assert extras["hand"] == (part.piece.hand or part.run.hand)
        assert [lap["with"] for lap in extras["laps"]] == [lap.others[0] for lap in part.ends.laps]


def test_meters_with_y_up(written: tuple[Any, Path]) -> None:
    there, path = written
    scene = trimesh.load(path)
    part = there.parts[0]
    transform, name = scene.graph[part.mark]
    mesh = scene.geometry[name].copy().apply_transform(transform)
    wanted = part.solid.vertices[:, [0, 2, 1]] * [0.0254, 0.0254, -0.0254]
    assert mesh.bounds == pytest.approx(np.array([wanted.min(axis=0), wanted.max(axis=0)]), abs=1e-5)
    top = max(float(face.outline[:, 2].max()) for face in there.roof.faces) * 0.0254
    assert top < scene.bounds[1][1] < top + 0.25


def test_screws_stand_on_the_metal(written: tuple[Any, Path]) -> None:
    there, path = written
    scene = trimesh.load(path)
    screw = there.screws[0]
    transform, _ = scene.graph[f"screw {screw.mark} 1"]
    place = screw.point[[0, 2, 1]] * [0.0254, 0.0254, -0.0254]
    assert np.linalg.norm(transform[:3, 3] - place) < 0.003
    normal = screw.normal[[0, 2, 1]] * [1, 1, -1]
    assert transform[:3, 2] == pytest.approx(normal, abs=1e-6)
