"""Rings in plan: which way round they go, where they turn, and moved sideways."""

from __future__ import annotations

import numpy as np
import shapely

from .arrays import Array


def turned_area(ring: Array) -> float:
    """Return the area of a ring ``(n, 2)``, positive when it goes counter-clockwise."""
    x, y = ring.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def directions(ring: Array) -> Array:
    """Return ``(n, 2)`` unit vectors along the sides: side ``k`` goes from corner ``k`` to the next."""
    ways = np.roll(ring, -1, axis=0) - ring
    return np.asarray(ways / np.linalg.norm(ways, axis=1)[:, None])


def turns(ring: Array) -> Array:
    """Return how far the ring turns at each corner, ``(n,)`` radians, to the left positive."""
    here = directions(ring)
    before = np.roll(here, 1, axis=0)
    cross = before[:, 0] * here[:, 1] - before[:, 1] * here[:, 0]
    return np.asarray(np.arctan2(cross, (before * here).sum(axis=1)))


def moved_out(ring: Array, distances: Array) -> Array:
    """Return a ring whose sides are moved to their right, each by its own distance.

    Args:
        ring: ``(n, 2) float, inches``; no two neighboring sides in one line.
        distances: ``(n,) float, inches``, to the right of each side's direction.
    """
    along = directions(ring)
    right = np.column_stack([along[:, 1], -along[:, 0]])
    offset = (ring * right).sum(axis=1) + distances
    before = np.roll(right, 1, axis=0)
    lines = np.stack([before, right], axis=1)
    return np.asarray(
        np.linalg.solve(lines, np.stack([np.roll(offset, 1), offset], axis=1)[..., None])[..., 0]
    )


def crossing(rings: list[Array]) -> tuple[float, float] | None:
    """Return where an outline and its holes cross or touch themselves or each other; None where they do not."""
    plan = shapely.Polygon(rings[0], rings[1:])
    if plan.is_valid:
        return None
    said = shapely.is_valid_reason(plan)
    x, y = said[said.index("[") + 1 : said.index("]")].split()[:2]
    return float(x), float(y)


def stretches(ring: Array, aside: float) -> list[list[int]]:
    """Return the sides of a ring, those in one line together, each by its number from 0.

    Args:
        ring: ``(n, 2) float, inches``.
        aside: A corner this close to the line between its neighbors is no corner, inches.
    """
    before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
    way = after - before
    spoke = ring - before
    off = np.abs(way[:, 0] * spoke[:, 1] - way[:, 1] * spoke[:, 0]) / np.maximum(np.hypot(*way.T), aside)
    ahead = (spoke * (after - ring)).sum(axis=1) > 0
    firsts = [int(k) for k in np.flatnonzero((off > aside) | ~ahead)]
    ends = [*firsts[1:], firsts[0] + len(ring)] if firsts else []
    return [[k % len(ring) for k in range(a, b)] for a, b in zip(firsts, ends, strict=True)]
