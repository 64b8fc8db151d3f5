"""Plane polygons in the plane or in space: area, and clipping to one side of a line or plane."""

from __future__ import annotations

import numpy as np

from .arrays import Array

ON = 1e-9
"""A corner this close to a line or plane is on it, inches: above the rounding of a 1000 ft roof, and below
any tolerance even where planes meet at half a degree."""


def area_vector(polygon: Array) -> Array:
    """Return the vector whose length is the polygon's area and whose direction its normal.

    Args:
        polygon: ``(n, 3) float``; counter-clockwise seen from where the normal points. Of a ring that is not
            quite plane, the sum over its triangles.
    """
    spokes = polygon - polygon[0]
    fan = np.cross(spokes[1:-1], spokes[2:])
    return np.asarray(fan.sum(axis=0) / 2)


def clip(polygon: Array, normal: Array, offset: float) -> Array:
    """Return the part of a convex polygon where ``normal · p <= offset``.

    Args:
        polygon: ``(n, k) float``, in the plane or in space.
        normal: ``(k,)`` unit vector.
        offset: Distance from the origin along the normal; corners within ``ON`` of it stay as they are.

    Returns:
        ``(m, k)``, in the same sense of rotation; ``(0, k)`` when nothing is left.
    """
    beyond = polygon @ normal - offset
    beyond[np.abs(beyond) <= ON] = 0.0
    if (beyond <= 0).all():
        return polygon
    corners: list[Array] = []
    for i in range(len(polygon)):
        before = beyond[i - 1]
        here = beyond[i]
        if before * here < 0:
            share = before / (before - here)
            corners.append(polygon[i - 1] + share * (polygon[i] - polygon[i - 1]))
        if here <= 0:
            corners.append(polygon[i])
    if len(corners) < 3:
        return np.empty((0, polygon.shape[1]))
    return np.array(corners)


def chord(polygon: Array, normal: Array, offset: float) -> Array | None:
    """Return the segment of the line ``normal · p = offset`` within a convex polygon.

    Args:
        polygon: ``(n, 2) float``.
        normal: ``(2,)`` unit vector.
        offset: Distance from the origin along the normal.

    Returns:
        ``(2, 2)``, its ends, the normal to the right of the way from first to last; a side of the polygon
        that lies on the line counts. None where the line misses it or only touches a corner.
    """
    beyond = polygon @ normal - offset
    beyond[np.abs(beyond) <= ON] = 0.0
    ends = list(polygon[beyond == 0])
    for i in np.flatnonzero(beyond * np.roll(beyond, 1) < 0):
        share = beyond[i - 1] / (beyond[i - 1] - beyond[i])
        ends.append(polygon[i - 1] + share * (polygon[i] - polygon[i - 1]))
    if len(ends) < 2:
        return None
    along = np.array(ends) @ np.array([-normal[1], normal[0]])
    if along.max() - along.min() <= ON:
        return None
    return np.array([ends[along.argmin()], ends[along.argmax()]])


def columns(polygon: Array, cuts: Array) -> list[Array]:
    """Return a convex polygon cut along upright lines, from left to right.

    Args:
        polygon: ``(n, 2) float``, counter-clockwise.
        cuts: ``(m,)`` where the lines stand, increasing.

    Returns:
        ``m + 1`` polygons ``(k, 2)``, counter-clockwise from the foot of the left cut to its top; ``(0, 2)``
        where the polygon does not reach.
    """
    if not len(polygon):
        return [polygon] * (len(cuts) + 1)
    start = int(polygon[:, 0].argmin())
    ring = np.roll(polygon, -start, axis=0)
    turn = int(ring[:, 0].argmax())
    low = ring[: turn + 1]
    high = np.concatenate([ring[turn:], ring[:1]])[::-1]
    inside = (cuts > low[0, 0] + ON) & (cuts < low[-1, 0] - ON)
    lows = np.column_stack([cuts, np.interp(cuts, low[:, 0], low[:, 1])])
    highs = np.column_stack([cuts, np.interp(cuts, high[:, 0], high[:, 1])])
    bounds = np.array([-np.inf, *cuts, np.inf])
    between = np.stack([lows[:-1], lows[1:], highs[1:], highs[:-1]], axis=1)
    parts = [lows[:0], *between, lows[:0]][: len(cuts) + 1]
    clipped = np.flatnonzero(~(inside[:-1] & inside[1:])) + 1
    cornered = np.searchsorted(cuts, np.concatenate([low, high])[:, 0])
    for i in {0, len(cuts), *clipped.tolist(), *cornered.tolist()}:
        left, right = bounds[i] + ON, bounds[i + 1] - ON
        under = low[(low[:, 0] > left) & (low[:, 0] < right)]
        over = high[1:-1][(high[1:-1, 0] > left) & (high[1:-1, 0] < right)][::-1]
        before = [i - 1] if i > 0 and inside[i - 1] else []
        after = [i] if i < len(cuts) and inside[i] else []
        part = np.concatenate([lows[before], under, lows[after], highs[after], over, highs[before]])
        parts[i] = part if len(part) > 2 else np.empty((0, 2))
    return parts
