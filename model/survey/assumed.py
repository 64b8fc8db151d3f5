"""What a survey takes for granted: faces are plane, eaves level, and the roof stays where the form has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from ..geometry.arrays import Array
from ..roof.record import Roof
from ..tolerances import LEVEL
from .quantities import outlines


@dataclass(frozen=True, slots=True, eq=False)
class Assumed:
    """Equations that hold exactly, whatever the tape says.

    Attributes:
        form: ``(n, 3) float, inches``; the corners as the form has them.
        planes: Of each corner that is to lie in a face's plane, three others of the face and itself.
        level: Both ends of each edge that is level.
        stays: The corner that stays, and the next one along, toward which the direction in plan stays; None where the
            roof may stand anywhere.
        kept: ``(k, 3 n)``; directions in which nothing moves.
    """

    form: Array
    planes: tuple[tuple[int, int, int, int], ...]
    level: tuple[tuple[int, int], ...]
    stays: tuple[int, int] | None
    kept: Array

    def without_place(self) -> Assumed:
        """Return the same of a roof that may stand anywhere."""
        return replace(self, stays=None)

    def off(self, points: Array) -> Array:
        """Return how far each equation is off, inches."""
        a, b, c, d = (points[[four[k] for four in self.planes]] for k in range(4))
        off = [
            (np.cross(b - a, c - a) * (d - a)).sum(axis=1) / self._sizes(),
            [points[two, 2] - points[one, 2] for one, two in self.level],
            self.kept @ (points - self.form).ravel(),
        ]
        if self.stays is not None:
            corner, beside = self.stays
            off += [
                points[corner] - self.form[corner],
                [(points[beside, :2] - points[corner, :2]) @ self._across(corner, beside)],
            ]
        return np.concatenate(off)

    def changes(self, points: Array) -> Array:
        """Return how each equation changes as corners move, ``(m, 3 n)``."""
        rows = [
            self._plane_row(points, four, size) for four, size in zip(self.planes, self._sizes(), strict=True)
        ]
        for one, two in self.level:
            rows.append(self._row({one: np.array([0.0, 0.0, -1.0]), two: np.array([0.0, 0.0, 1.0])}))
        rows += [row.reshape(self.form.shape) for row in self.kept]
        if self.stays is not None:
            corner, beside = self.stays
            rows += [self._row({corner: axis}) for axis in np.eye(3)]
            across = np.array([*self._across(corner, beside), 0.0])
            rows.append(self._row({corner: -across, beside: across}))
        return np.array(rows).reshape(-1, self.form.size)

    def _sizes(self) -> Array:
        """Return twice the area of each plane's triangle in the form, square inches."""
        a, b, c = (self.form[[four[k] for four in self.planes]] for k in range(3))
        return np.asarray(np.linalg.norm(np.cross(b - a, c - a), axis=1))

    def _across(self, corner: int, beside: int) -> Array:
        """Return the direction in plan square to the edge that does not turn."""
        way = self.form[beside, :2] - self.form[corner, :2]
        return np.asarray(np.array([way[1], -way[0]]) / np.hypot(*way))

    def _plane_row(self, points: Array, four: tuple[int, int, int, int], size: float) -> Array:
        a, b, c, d = points[list(four)]
        of_b, of_c, of_d = np.cross(c - a, d - a), np.cross(d - a, b - a), np.cross(b - a, c - a)
        moves = {four[0]: -(of_b + of_c + of_d), four[1]: of_b, four[2]: of_c, four[3]: of_d}
        return self._row(moves) / size

    def _row(self, moves: dict[int, Array]) -> Array:
        row = np.zeros_like(self.form)
        for corner, move in moves.items():
            row[corner] = move
        return row


def assumed(roof: Roof, *, level: bool = True) -> Assumed:
    """Return what is taken for granted of a roof.

    Args:
        roof: As the form has it. The left corner of its first eave stays, and this eave does not turn.
        level: Its level eaves stay level. A ridge or the top of a shed is as level as the tape says.
    """
    rings = outlines(roof)
    inner = [_indices(roof, face.holes) for face in roof.faces]
    outer = [edge for edge in roof.edges if len(edge.faces) == 1]
    first = next((edge for edge in outer if edge.kind == "eave"), outer[0])
    flat = [edge.vertices for edge in outer if edge.kind == "eave" and edge.slope <= LEVEL] if level else []
    return Assumed(
        form=roof.vertices,
        planes=tuple(
            (*three, corner)
            for ring, more in zip(rings, inner, strict=True)
            for three in [_widest(roof.vertices, ring)]
            for corner in (*ring, *more)
            if corner not in three
        ),
        level=tuple(flat),
        stays=first.vertices,
        kept=np.empty((0, roof.vertices.size)),
    )


def _indices(roof: Roof, holes: Sequence[Array]) -> list[int]:
    return [int(np.abs(roof.vertices - corner).sum(axis=1).argmin()) for hole in holes for corner in hole]


def _widest(vertices: Array, ring: Sequence[int]) -> tuple[int, int, int]:
    """Return the three corners of a ring that make the largest triangle."""

    def area(three: tuple[int, int, int]) -> float:
        a, b, c = vertices[list(three)]
        return float(np.linalg.norm(np.cross(b - a, c - a)))

    return max(combinations(ring[:: 1 + len(ring) // 24], 3), key=area)
