"""Walls that stand on level ground, each laid flat: what doors, windows and siding are measured on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Roof


@dataclass(frozen=True, slots=True, eq=False)
class WallFrame:
    """A wall laid flat: along from its left end seen from outside, and up from the ground, inches.

    Attributes:
        outline: ``(n, 2)``: its corners.
        start: ``(3,)``: its left end on the ground.
        along: ``(3,)`` level unit vector along it.
        out: ``(3,)`` level unit vector out of it.
    """

    outline: Array
    start: Array
    along: Array
    out: Array

    @property
    def length(self) -> float:
        """Inches."""
        return float(self.outline[:, 0].max())

    def top_at(self, x: float) -> float:
        """Return how high the wall is at ``x``, inches: the highest of its outline there."""
        heights = [
            float(a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]))
            for a, b in zip(self.outline, np.roll(self.outline, -1, axis=0), strict=True)
            if min(a[0], b[0]) <= x <= max(a[0], b[0]) and abs(b[0] - a[0]) > 1e-6
        ]
        return max(heights, default=0.0)

    def lift(self, flat: Array, off: float = 0.0) -> Array:
        """Return ``(n, 2)`` points as ``(n, 3)``, ``off`` inches out of the wall."""
        up = np.array([0.0, 0.0, 1.0])
        return np.asarray(self.start + flat[:, :1] * self.along + flat[:, 1:] * up + off * self.out)


def frames_of(roof: Roof) -> tuple[WallFrame, ...]:
    """Return the walls that stand on level ground, each laid flat."""
    ground = min((float(wall[:, 2].min()) for wall in roof.walls), default=0.0)
    return tuple(frame for wall in roof.walls if (frame := _frame(wall, ground)) is not None)


def _frame(wall: Array, ground: float) -> WallFrame | None:
    """Return a plumb wall laid flat; None for one that has no foot on the ground."""
    feet = np.flatnonzero(wall[:, 2] < ground + 0.5)
    if len(feet) < 2:
        return None
    normal = np.cross(wall, np.roll(wall, -1, axis=0)).sum(axis=0) * [1.0, 1.0, 0.0]
    size = float(np.linalg.norm(normal))
    if size < 1.0:
        return None
    out = normal / size
    along = np.array([-out[1], out[0], 0.0])
    reach = wall @ along
    start = wall[int(reach.argmin())] * [1.0, 1.0, 0.0] + [0.0, 0.0, ground]
    outline = np.column_stack([(wall - start) @ along, wall[:, 2] - ground])
    return WallFrame(outline, start, along, out)


def side_of(frame: WallFrame) -> str:
    """Return the side of the house that a wall is on: the one that it faces most."""
    x, y = frame.out[:2]
    if abs(y) >= abs(x):
        return "front" if y < 0 else "back"
    return "left" if x < 0 else "right"
