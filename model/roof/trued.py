"""Corners of a measured roof moved a hair, so that its faces are plane and what is as good as level is level.

Trim lies along the edges and panels lie on the faces: on a face that is not plane the two part, by more than a sheet's
thickness, and nothing of metal follows that. What moves least moves, within what the measuring leaves open.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..geometry.coplanar import coplanar
from ..tolerances import POINT

AS_GOOD_AS_LEVEL = math.radians(0.5)
"""An edge that rises less, and by no more than the tolerance, is meant to be level: short ones show noise the most."""

ROUNDS = 20
"""Steps toward the answer; two or three do."""


def trued(vertices: Array, rings: Sequence[list[int]], owner: Sequence[int], tolerance: float) -> Array:
    """Return the corners so that every face is plane, ``(n, 3) float, inches``.

    Where that takes a corner farther than the tolerance, no edge is made level; where that does not help, the corners
    stay as they are.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them.
        owner: Which face each ring belongs to.
        tolerance: How far a corner may be moved, inches.
    """
    faces = [
        list(dict.fromkeys(i for ring, face in zip(rings, owner, strict=True) if face == one for i in ring))
        for one in dict.fromkeys(owner)
    ]
    groups = [face for face in faces if len(face) > 2]
    for level in (_as_good_as_level(vertices, rings, tolerance), []):
        found = _moved(vertices, groups, level)
        if found is not None and np.linalg.norm(found - vertices, axis=1).max() <= tolerance:
            return found
    return vertices


def _as_good_as_level(vertices: Array, rings: Sequence[list[int]], tolerance: float) -> list[tuple[int, int]]:
    """Return both ends of each edge that is meant to be level."""
    edges = {(min(a, b), max(a, b)) for ring in rings for a, b in zip(ring, ring[1:] + ring[:1], strict=True)}

    def is_level(a: int, b: int) -> bool:
        way = vertices[b] - vertices[a]
        return bool(abs(way[2]) <= min(tolerance, math.tan(AS_GOOD_AS_LEVEL) * math.hypot(way[0], way[1])))

    return [edge for edge in sorted(edges) if is_level(*edge)]


def _moved(
    vertices: Array, groups: Sequence[Sequence[int]], level: Sequence[tuple[int, int]]
) -> Array | None:
    """Return the nearest corners of plane faces and level edges; None where there are none near."""
    planes = coplanar(vertices, groups)
    tilts = np.zeros((len(level), *vertices.shape))
    for row, (a, b) in zip(tilts, level, strict=True):
        row[[a, b], 2] = -1.0, 1.0
    rows = tilts.reshape(len(level), vertices.size)
    points = vertices
    for _ in range(ROUNDS):
        off = np.concatenate([planes.off(points), rows @ points.ravel()])
        if np.abs(off).max(initial=0.0) <= POINT / 100:
            return points
        changes = np.concatenate([planes.changes(points), rows])
        points = points - np.linalg.lstsq(changes, off, rcond=1e-9)[0].reshape(points.shape)
    return None
