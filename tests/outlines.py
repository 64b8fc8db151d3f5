"""Random outlines, the same for the same seed: star-shaped, rectilinear, and with courtyards."""

from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

Array = NDArray[np.float64]
Rings = list[Array]

SIXTEENTH = 16


def star(rng: np.random.Generator, corners: int, low: float, high: float) -> Array:
    """Return a ring round the origin, counter-clockwise, whose corners are seen from there."""
    gaps = rng.uniform(0.4, 1.6, corners)
    angles = np.cumsum(gaps) / gaps.sum() * 2 * np.pi
    radii = rng.uniform(low, high, corners)
    return on_tape(np.column_stack([radii * np.cos(angles), radii * np.sin(angles)]))


def convex(rng: np.random.Generator, corners: int) -> Array:
    """Return a convex ring: corners on an ellipse."""
    gaps = rng.uniform(0.5, 1.5, corners)
    angles = np.cumsum(gaps) / gaps.sum() * 2 * np.pi
    long, short = rng.uniform(200, 500, 2)
    return np.column_stack([long * np.cos(angles), short * np.sin(angles)])


def rectilinear(rng: np.random.Generator) -> Rings:
    """Return the rings of a few wings, square to each other, that overlap; courtyards where they close round one."""
    step = float(rng.choice([24.0, 60.0, 61.5]))
    while True:
        wings = []
        for _ in range(rng.integers(2, 6)):
            x, y = rng.integers(0, 10, 2)
            wide, deep = rng.integers(2, 8, 2)
            wings.append(shapely.box(x * step, y * step, (x + wide) * step, (y + deep) * step))
        plan = shapely.union_all(wings)
        if plan.geom_type == "Polygon" and plan.buffer(-step / 4, join_style="mitre").geom_type == "Polygon":
            return rings_of(shapely.simplify(plan, 0.0))


def with_courtyard(rng: np.random.Generator) -> Rings:
    """Return a star with a smaller one cut out."""
    outer = star(rng, int(rng.integers(4, 9)), 350, 500)
    inner = star(rng, int(rng.integers(3, 6)), 60, 140)
    plan = shapely.Polygon(outer).difference(shapely.Polygon(inner))
    return rings_of(plan)


def rings_of(plan: shapely.Polygon) -> Rings:
    """Return the outline counter-clockwise and the holes clockwise."""
    plan = shapely.orient_polygons(plan)
    return [np.array(ring.coords)[:-1] for ring in (plan.exterior, *plan.interiors)]


def on_tape(points: Array) -> Array:
    """Return points to a sixteenth."""
    return np.round(points * SIXTEENTH) / SIXTEENTH


def outline(seed: int) -> Rings:
    """Return one of the outlines; a third of each kind."""
    rng = np.random.default_rng(seed)
    while True:
        match seed % 3:
            case 0:
                rings = [star(rng, int(rng.integers(4, 16)), 120, 500)]
            case 1:
                rings = rectilinear(rng)
            case _:
                rings = with_courtyard(rng)
        plan = shapely.Polygon(rings[0], rings[1:])
        if (
            plan.is_valid
            and plan.geom_type == "Polygon"
            and len(set(map(tuple, np.concatenate(rings)))) == sum(map(len, rings))
        ):
            return rings


def sharpest(rings: Rings) -> float:
    """Return the smallest angle in plan between neighboring sides, radians: inside or outside of the roof."""
    least = np.pi
    for ring in rings:
        closed = [ring[-1], *ring, ring[0]]
        for (a, b), (_, c) in pairwise(pairwise(closed)):
            one, two = a - b, c - b
            least = min(least, float(np.arccos(one @ two / np.linalg.norm(one) / np.linalg.norm(two))))
    return least
