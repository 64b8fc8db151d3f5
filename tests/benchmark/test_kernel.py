"""How fast a house is built, as ratios to general-purpose kernels in the same run. Nothing here asserts a time.

Run with ``pytest -m benchmark -s``. The references build the same trim, panels and closures the way such kernels are
used, each of them, and again only those that are not alike; their volumes are compared. Nothing that was worked out
in one round is left for the next.
"""

import statistics
import subprocess
import sys
import time
from itertools import pairwise

import pytest
from zoo import SCENES

from tests.benchmark.house import HIP, HOUSE, gable, winged
from tests.benchmark.kernels import made_of, once, with_manifold, with_opencascade
from tests.benchmark.timing import cost, costs
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.sheet.solid import thicken

pytestmark = pytest.mark.benchmark

EVERY = 18
"""OpenCascade is timed by so few of all solids, one in so many: it takes a minute for all of them."""

SLIVER = 0.05
"""What a kernel leaves standing beside a bend past the cuts of its two strips, cubic inches."""


@pytest.mark.parametrize("text", [HIP, gable(112)], ids=["hip", "gable"])
def test_a_house_against_general_purpose_kernels(text: str) -> None:
    scene = scene_from(text, "house.toml")
    house = build(scene)
    made = made_of(house)
    sheets = [one.sheet for one in made]
    sample = made[::EVERY]
    ours, solids, checks, theirs, less = costs(
        [
            lambda: build(scene),
            lambda: [thicken(one.sheet, one.placement) for one in made],
            lambda: check(house),
            lambda: with_manifold(sheets),
            lambda: with_manifold(once(sheets)),
        ],
        7,
    )
    cascade = cost(lambda: with_opencascade([one.sheet for one in sample]), 3) * len(made) / len(sample)
    alike = len(once(sheets)) / len(sheets)
    print(
        f"\n{len(house.parts)} pieces, {len(house.panels)} panels, {len(house.closures)} closures, "
        f"{len(house.screws)} screws"
    )
    print(f"scene to solids                {ours * 1e3:8.1f} ms")
    print(f"  of it folding, thickening    {solids * 1e3:8.1f} ms")
    print(f"all checks                     {checks * 1e3:8.1f} ms, {checks / ours:.2f} of scene to solids")
    print(f"OpenCascade / scene to solids  {cascade / ours:8.0f}   ({cascade:.1f} s, from one in {EVERY})")
    print(f"  what is alike built once     {cascade * alike / ours:8.0f}")
    print(f"manifold3d / scene to solids   {theirs / ours:8.1f}   ({theirs * 1e3:.0f} ms)")
    print(f"  what is alike built once     {less / ours:8.1f}")
    for one, solid in zip(made, with_manifold(sheets), strict=True):
        assert solid.volume() == pytest.approx(one.solid.volume, rel=1e-2, abs=SLIVER)
    agree = [
        solid.volume == pytest.approx(one.solid.volume, rel=5e-3, abs=SLIVER)
        for one, solid in zip(sample, with_opencascade([one.sheet for one in sample]), strict=True)
    ]
    assert agree.count(False) <= 1, "OpenCascade now and then loses one of several cuts that touch each other"


def test_time_grows_with_the_number_of_pieces() -> None:
    print()
    points = []
    for length in (40, 80, 160, 320):
        scene = scene_from(gable(length), "long.toml")
        points.append((len(build(scene).parts), cost(lambda scene=scene: build(scene), 5)))
    for pieces, seconds in points:
        print(f"{pieces:4d} pieces {seconds * 1e3:8.1f} ms, {seconds / pieces * 1e3:.2f} ms a piece")
    assert all(later[0] > earlier[0] for earlier, later in pairwise(points))


def test_hips_and_valleys_take_no_longer_a_piece() -> None:
    """A roof of 28 slopes takes at most 1.3 times as long a piece as a hip of forty; a gable is told beside them."""
    scenes = [scene_from(HOUSE, "gable.toml"), scene_from(HIP, "hip.toml"), scene_of(winged())]
    pieces = [len(build(scene).parts) for scene in scenes]
    assert len(build(scenes[2]).roof.faces) == 28
    times = costs([lambda scene=scene: build(scene) for scene in scenes], 9)
    gable, hip, wings = (seconds / count for seconds, count in zip(times, pieces, strict=True))
    print(f"\na piece of 28 slopes / of a hip {wings / hip:.2f}, / of a gable {wings / gable:.2f}")
    print(f"{wings * 1e3:.2f} ms, {hip * 1e3:.2f} ms and {gable * 1e3:.2f} ms a piece")
    assert wings <= 1.3 * hip


def test_checking_a_small_gable_against_importing_its_libraries() -> None:
    boat_shed = next(path for path in SCENES if path.stem == "boat-shed")

    def taken(*words: str) -> float:
        start = time.perf_counter()
        subprocess.run([sys.executable, "-P", *words], check=True, capture_output=True)
        return time.perf_counter() - start

    command = "from trimwright.viewer.cli import main; main()"
    rounds = [
        (taken("-c", "import numpy, shapely, pydantic"), taken("-c", command, "check", str(boat_shed)))
        for _ in range(9)
    ]
    libraries, ours = (statistics.median(times) for times in zip(*rounds, strict=True))
    print(
        f"\ntrimwright check / importing numpy, shapely and pydantic: {ours / libraries:.2f} ({ours:.2f} s)"
    )
