"""Planes in space: where they stand, how high they are over a point."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from .arrays import Array


@dataclass(frozen=True, slots=True, eq=False)
class Plane:
    """All points ``p`` with ``normal · p = offset``.

    Attributes:
        normal: ``(3,)`` unit vector.
        offset: Distance from the origin along the normal, inches.
    """

    normal: Array
    offset: float

    def moved(self, distance: float) -> Plane:
        """Return the plane moved along its normal, inches."""
        return Plane(self.normal, self.offset + distance)

    def lift(self, points: Array) -> Array:
        """Return ``(n, 2)`` plan points raised on to the plane, ``(n, 3)``; the plane must not be plumb."""
        height = (self.offset - points @ self.normal[:2]) / self.normal[2]
        return np.column_stack([points, height])


def falling(through: Array, toward: Array, slope: float) -> Plane:
    """Return the plane through a point that falls toward a level direction.

    Args:
        through: ``(3,) float, inches``.
        toward: ``(2,)`` unit vector in plan: which way water runs.
        slope: Angle from level, radians.
    """
    normal = np.array([toward[0] * math.sin(slope), toward[1] * math.sin(slope), math.cos(slope)])
    return Plane(normal, float(normal @ through))
