"""How long the roof over an outline of up to 20 sides takes. Nothing here asserts a time.

Run with ``pytest -m benchmark -s``. A repeated inset by GEOS, 200 times, is the other way to the same heights.
"""

import statistics
import time

import numpy as np
import pytest
import shapely
from outlines import Rings, outline

from trimwright.model.roof.skeleton.skeleton import skeleton

pytestmark = pytest.mark.benchmark

SPEED = 2.0


def insets(rings: Rings, top: float) -> None:
    plan = shapely.Polygon(rings[0], rings[1:])
    for _ in range(200):
        plan = plan.buffer(-SPEED * top / 200, join_style="mitre", mitre_limit=1e6)


def test_outlines_of_up_to_20_sides() -> None:
    ours, theirs = [], []
    drawn = [rings for rings in map(outline, range(150)) if sum(map(len, rings)) <= 20]
    for rings in drawn:
        speeds = np.full(sum(map(len, rings)), SPEED)
        start = time.perf_counter()
        faces = skeleton(rings, speeds)
        ours.append(time.perf_counter() - start)
        start = time.perf_counter()
        insets(rings, max(float(face.outline[:, 2].max()) for face in faces))
        theirs.append(time.perf_counter() - start)
    mine, other = (1000 * statistics.median(times) for times in (ours, theirs))
    print(
        f"\nskeleton: {mine:.1f} ms, 200 insets: {other:.1f} ms, ratio {mine / other:.2f}, {len(drawn)} outlines"
    )
    assert len(drawn) > 100
