"""Points that are to lie in one plane: how far off each is, and how that changes as they move."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from .arrays import Array

Four = tuple[int, int, int, int]
"""A point that is to lie in the plane of three others: these, and itself."""


@dataclass(frozen=True, slots=True, eq=False)
class Coplanar:
    """Equations that hold where points lie in one plane.

    Attributes:
        fours: For each equation the points that it is about.
        sizes: ``(m,)`` twice the area of the triangle of the first three, square inches.
    """

    fours: tuple[Four, ...]
    sizes: Array

    def off(self, points: Array) -> Array:
        """Return how far each last point is off, ``(m,) float, inches``, where the triangles keep their sizes."""
        a, b, c, d = (points[[four[k] for four in self.fours]] for k in range(4))
        return np.asarray((np.cross(b - a, c - a) * (d - a)).sum(axis=1) / self.sizes)

    def changes(self, points: Array) -> Array:
        """Return how that changes as points ``(n, 3)`` move, ``(m, 3 n)``."""
        rows = np.zeros((len(self.fours), *points.shape))
        for row, four, size in zip(rows, self.fours, self.sizes, strict=True):
            a, b, c, d = points[list(four)]
            of_b, of_c, of_d = np.cross(c - a, d - a), np.cross(d - a, b - a), np.cross(b - a, c - a)
            row[list(four)] = np.array([-(of_b + of_c + of_d), of_b, of_c, of_d]) / size
        return rows.reshape(len(rows), points.size)


def coplanar(points: Array, groups: Sequence[Sequence[int]]) -> Coplanar:
    """Return what holds where each group of points lies in a plane of its own: one equation for each but three of it.

    Args:
        points: ``(n, 3) float, inches``.
        groups: Each as indices of them, along a ring at first.
    """
    fours: list[Four] = []
    for group in groups:
        three = _widest(points, group)
        fours += [(*three, point) for point in group if point not in three]
    a, b, c = (points[[four[k] for four in fours]] for k in range(3))
    return Coplanar(tuple(fours), np.asarray(np.linalg.norm(np.cross(b - a, c - a), axis=1)))


def _widest(points: Array, group: Sequence[int]) -> tuple[int, int, int]:
    """Return the three points of a group that make the largest triangle."""

    def area(three: tuple[int, int, int]) -> float:
        a, b, c = points[list(three)]
        return float(np.linalg.norm(np.cross(b - a, c - a)))

    return max(combinations(group[:: 1 + len(group) // 24], 3), key=area)
