"""Plane polygons in the plane or in space: area, and clipping to one side of a line or plane."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..tolerances import POINT

Array = NDArray[np.float64]


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
        offset: Distance from the origin along the normal; corners within ``POINT`` of it stay as they are.

    Returns:
        ``(m, k)``, in the same sense of rotation; ``(0, k)`` when nothing is left.
    """
    beyond = polygon @ normal - offset
    beyond[np.abs(beyond) <= POINT] = 0.0
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
