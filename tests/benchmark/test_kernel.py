"""How fast a house is built, as ratios to general-purpose kernels in the same run. Nothing here asserts a time.

Run with ``pytest -m benchmark -s``. The references build the same pieces the way such kernels are used: a
straight extrusion of the section, what the cuts take off it, and the tabs put on; their volumes are compared.
"""

import statistics
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import manifold3d
import numpy as np
import pytest
from shapely import LineString
from shapely.geometry.polygon import orient
from zoo import SCENES

from trimwright.model.checks.run import check
from trimwright.model.layout import Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene, scene_from
from trimwright.model.sheet.fold import facets, strip_fold
from trimwright.model.sheet.solid import formed, thicken

pytestmark = pytest.mark.benchmark

HOUSE = """
title = "A house of some forty pieces"
[roof]
form = "hip"
length = "64'"
width = "36'"
pitch = "6/12"
end_pitch = "8/12"
"""


def rows(length: float) -> str:
    return (
        f'title = "long"\n[roof]\nform = "gable"\nlength = "{length:g}\'"\nwidth = "24\'"\npitch = "6/12"\n'
    )


def median(work: Callable[[], object], rounds: int = 7) -> float:
    times = []
    for _ in range(rounds):
        formed.cache_clear()  # nothing that was folded in an earlier round counts
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def tools(part: Part) -> tuple[list[np.ndarray], list[np.ndarray]]:
    """Return what is cut off a long straight piece, strip by strip and end by end, and its tabs.

    Each is a plate ``(2, k, 3)``: its two sides in sheet space.
    """
    section, sheet = part.run.section, part.sheet
    half = section.thickness / 2
    away = []
    for cut, limit in ((sheet.low.line, part.low - 24), (sheet.high.line, part.high + 24)):
        for strip in range(section.strips):
            first, last = section.v[strip : strip + 2]
            inside = (cut[:, 1] >= first) & (cut[:, 1] <= last)
            line = cut[inside]
            ring = np.concatenate([line, [[limit, last], [limit, first]]])
            fold, normal = strip_fold(section, strip)
            space = ring @ fold[:, :2].T + fold[:, 2]
            away.append(np.stack([space - normal * half * 1.001, space + normal * half * 1.001]))
    tabs = []
    for facet in facets(sheet):
        if facet.tab:
            space = facet.to_space(facet.ring)
            tabs.append(np.stack([space - facet.normal * half, space + facet.normal * half]))
    return away, tabs


def with_manifold(parts: tuple[Part, ...]) -> list[manifold3d.Manifold]:
    """Build the pieces with manifold3d: a long extrusion, the cuts taken off, the tabs put on."""
    result = []
    for part in parts:
        section = part.run.section
        band = LineString(section.points).buffer(
            section.thickness / 2, cap_style="flat", join_style="mitre", mitre_limit=20
        )
        shape = manifold3d.CrossSection([np.array(orient(band).exterior.coords)[:-1]])
        turned = np.array([[0.0, 0, 1, part.low - 12], [1, 0, 0, 0], [0, 1, 0, 0]])
        solid = manifold3d.Manifold.extrude(shape, part.high - part.low + 24).transform(turned)
        away, tabs = tools(part)
        off = manifold3d.Manifold.batch_boolean(
            [manifold3d.Manifold.hull_points(plate.reshape(-1, 3)) for plate in away], manifold3d.OpType.Add
        )
        solid = solid - off
        for plate in tabs:
            solid = solid + manifold3d.Manifold.hull_points(plate.reshape(-1, 3))
        solid.num_tri()
        result.append(solid)
    return result


def with_opencascade(parts: tuple[Part, ...]) -> list[object]:
    """Build the pieces with OpenCascade in the same way."""
    from build123d import Face, Polyline, Solid, Vector, Wire

    def plate_of(plate: np.ndarray) -> Solid:
        ring = [Vector(*corner) for corner in plate[0]]
        face = Face(Wire(Polyline(ring, close=True).edges()))
        return Solid.extrude(face, Vector(*(plate[1] - plate[0])[0]))

    result: list[object] = []
    for part in parts:
        section = part.run.section
        band = LineString(section.points).buffer(
            section.thickness / 2, cap_style="flat", join_style="mitre", mitre_limit=20
        )
        ring = [Vector(part.low - 12, float(y), float(z)) for y, z in band.exterior.coords]
        solid = Solid.extrude(
            Face(Wire(Polyline(ring[:-1], close=True).edges())), Vector(part.high - part.low + 24, 0, 0)
        )
        away, tabs = tools(part)
        solid = solid.cut(*(plate_of(plate) for plate in away))
        if tabs:
            solid = solid.fuse(*(plate_of(plate) for plate in tabs))
        result.append(solid)
    return result


def test_a_house_against_general_purpose_kernels() -> None:
    scene = scene_from(HOUSE, "house.toml")
    house = build(scene)
    sample = house.parts[::5]
    ours = median(lambda: build(scene))
    solids = median(lambda: [thicken(part.sheet, part.placement) for part in house.parts])
    checks = median(lambda: check(house))
    theirs = median(lambda: with_manifold(house.parts))
    cascade = median(lambda: with_opencascade(sample), 3) * len(house.parts) / len(sample)
    print(f"\n{len(house.parts)} pieces, {len(house.screws)} screws, {len(house.panels)} panels")
    print(f"scene to solids           {ours * 1e3:8.1f} ms")
    print(f"  of it folding, thickening {solids * 1e3:6.1f} ms")
    print(
        f"OpenCascade / scene to solids  {cascade / ours:8.1f}   ({cascade * 1e3:.0f} ms, from every fifth piece)"
    )
    print(f"OpenCascade / solids           {cascade / solids:8.1f}")
    print(f"manifold3d / scene to solids   {theirs / ours:8.2f}   ({theirs * 1e3:.1f} ms)")
    print(f"manifold3d / solids            {theirs / solids:8.2f}")
    print(f"all checks / scene to solids   {checks / ours:8.2f}   ({checks * 1e3:.1f} ms)")
    for part, solid, cascade_solid in zip(
        sample, with_manifold(sample), with_opencascade(sample), strict=True
    ):
        assert solid.volume() == pytest.approx(part.solid.volume, rel=2e-2), "hulls round off the reliefs"
        assert cascade_solid.volume == pytest.approx(part.solid.volume, rel=5e-3)


def test_time_grows_with_the_number_of_pieces() -> None:
    print()
    points = []
    for length in (40, 80, 160, 320):
        scene = scene_from(rows(length), "long.toml")
        points.append((len(build(scene).parts), median(lambda scene=scene: build(scene), 5)))
    for pieces, seconds in points:
        print(f"{pieces:4d} pieces {seconds * 1e3:8.1f} ms, {seconds / pieces * 1e3:.2f} ms a piece")
    assert all(later[0] > earlier[0] for earlier, later in pairwise(points))


def test_checking_a_small_gable_against_importing_its_libraries() -> None:
    import subprocess
    import sys

    boat_shed = next(path for path in SCENES if path.stem == "boat-shed")
    assert build(read_scene(boat_shed)).parts

    def run(*words: str) -> float:
        return median(lambda: subprocess.run(words, check=True, capture_output=True), 7)

    libraries = run(sys.executable, "-c", "import numpy, shapely, pydantic")
    ours = run(str(Path(sys.executable).with_name("trimwright")), "check", str(boat_shed))
    print(
        f"\ntrimwright check / importing numpy, shapely and pydantic: {ours / libraries:.2f} ({ours:.2f} s)"
    )
