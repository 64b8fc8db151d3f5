"""How far the faces of a measured roof are out of square."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..geometry.arrays import Array
from ..roof.record import Roof
from .quantities import outlines
from .record import Crooked

SQUARE = 1e-6
"""Sine of how far the form's own corner may be from square."""


def crooked_faces(form: Roof, roof: Roof) -> Iterator[Crooked]:
    """Yield how far out of square each face is that has four corners, the form's at the eave square.

    Args:
        form: The roof as the form has it.
        roof: The same with its corners where the tape has them.
    """
    for number, ring in enumerate(outlines(form)):
        if len(ring) != 4:
            continue
        before, after = form.vertices[ring], roof.vertices[ring]
        if max(abs(_lean(before, 0, 3)), abs(_lean(before, 1, 2))) > SQUARE * np.ptp(before):
            continue
        yield Crooked(number, _lean(after, 0, 3), _lean(after, 1, 2), _rise(after, 1, 2) - _rise(after, 0, 3))


def _lean(ring: Array, foot: int, top: int) -> float:
    """Return how far along the eave a side's top is from over its foot, inches."""
    along = ring[1] - ring[0]
    return float((ring[top] - ring[foot]) @ along / np.linalg.norm(along))


def _rise(ring: Array, foot: int, top: int) -> float:
    """Return how far from the eave's line a side's top is, inches."""
    along = (ring[1] - ring[0]) / np.linalg.norm(ring[1] - ring[0])
    side = ring[top] - ring[foot]
    return float(np.linalg.norm(side - (side @ along) * along))
