"""What a survey takes for granted: faces are plane, eaves level, and the roof stays where the form has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..geometry.arrays import Array
from ..geometry.coplanar import Coplanar, coplanar
from ..roof.record import Roof
from ..tolerances import LEVEL
from .quantities import outlines


@dataclass(frozen=True, slots=True, eq=False)
class Assumed:
    """Equations that hold exactly, whatever the tape says.

    Attributes:
        form: ``(n, 3) float, inches``; the corners as the form has them.
        planes: The corners of each face lie in one plane.
        level: Both ends of each edge that is level.
        stays: The corner that stays, and the next one along, toward which the direction in plan stays; None where the
            roof may stand anywhere.
        kept: ``(k, 3 n)``; directions in which nothing moves.
    """

    form: Array
    planes: Coplanar
    level: tuple[tuple[int, int], ...]
    stays: tuple[int, int] | None
    kept: Array

    def without_place(self) -> Assumed:
        """Return the same of a roof that may stand anywhere."""
        return replace(self, stays=None)

    def off(self, points: Array) -> Array:
        """Return how far each equation is off, inches."""
        off: list[Array] = [
            self.planes.off(points),
            np.array([points[two, 2] - points[one, 2] for one, two in self.level]),
            self.kept @ (points - self.form).ravel(),
        ]
        if self.stays is not None:
            corner, beside = self.stays
            off += [
                points[corner] - self.form[corner],
                np.array([(points[beside, :2] - points[corner, :2]) @ self._across(corner, beside)]),
            ]
        return np.concatenate(off)

    def changes(self, points: Array) -> Array:
        """Return how each equation changes as corners move, ``(m, 3 n)``."""
        rows = list(self.planes.changes(points).reshape(-1, *self.form.shape))
        for one, two in self.level:
            rows.append(self._row({one: np.array([0.0, 0.0, -1.0]), two: np.array([0.0, 0.0, 1.0])}))
        rows += [row.reshape(self.form.shape) for row in self.kept]
        if self.stays is not None:
            corner, beside = self.stays
            rows += [self._row({corner: axis}) for axis in np.eye(3)]
            across = np.array([*self._across(corner, beside), 0.0])
            rows.append(self._row({corner: -across, beside: across}))
        return np.array(rows).reshape(-1, self.form.size)

    def _across(self, corner: int, beside: int) -> Array:
        """Return the direction in plan square to the edge that does not turn."""
        way = self.form[beside, :2] - self.form[corner, :2]
        return np.asarray(np.array([way[1], -way[0]]) / np.hypot(*way))

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
        planes=coplanar(roof.vertices, [(*ring, *more) for ring, more in zip(rings, inner, strict=True)]),
        level=tuple(flat),
        stays=first.vertices,
        kept=np.empty((0, roof.vertices.size)),
    )


def _indices(roof: Roof, holes: Sequence[Array]) -> list[int]:
    return [int(np.abs(roof.vertices - corner).sum(axis=1).argmin()) for hole in holes for corner in hole]
