"""Walls under a roof of any outline, for pictures: from the ground to the underside of the deck."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..geometry.plane import Plane
from ..tolerances import POINT


def walls_under(
    rings: Sequence[Array],
    faces: Sequence[Array],
    holes: Sequence[Sequence[Array]],
    undersides: Sequence[Plane],
) -> tuple[Array, ...]:
    """Return a wall for every side: ``(n, 3) float, inches``, counter-clockwise seen from outside.

    Args:
        rings: The outside of the walls, ``(n, 2) float, inches`` each, the house on the left.
        faces: What each plane covers, ``(n, 3) float, inches``; together they reach past the walls.
        holes: For each what is left out of it, ``(n, 3) float, inches`` each.
        undersides: The underside of the deck on each face.
    """
    plans = [
        shapely.Polygon(face[:, :2], [hole[:, :2] for hole in own])
        for face, own in zip(faces, holes, strict=True)
    ]
    return tuple(
        _wall(start, end, plans, undersides)
        for ring in rings
        for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True)
    )


def _wall(start: Array, end: Array, plans: Sequence[shapely.Polygon], undersides: Sequence[Plane]) -> Array:
    """Return the wall from ``start`` to ``end``, up to whichever face is over it."""
    line = shapely.LineString([start, end])
    length = float(np.linalg.norm(end - start))
    way = (end - start) / length
    spans: list[tuple[float, float, Plane]] = []
    for plan, plane in zip(plans, undersides, strict=True):
        met = shapely.get_parts(line.intersection(plan))
        for part in met[shapely.length(met) > POINT]:
            ends = shapely.get_coordinates(part)[[0, -1]]
            near, far = sorted(float(along) for along in (ends - start) @ way)
            if far - near > POINT:
                spans.append((near, far, plane))
    top = [
        plane.lift((start + along * way)[None])[0]
        for near, far, plane in sorted(spans, key=lambda span: span[:2])
        for along in (near, far)
    ]
    ring = [np.array([*start, 0.0]), np.array([*end, 0.0]), *top[::-1]]
    return np.array([at for k, at in enumerate(ring) if np.abs(at - ring[k - 1]).max() > POINT])
