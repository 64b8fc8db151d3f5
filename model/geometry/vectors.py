"""Single vectors: what numpy's own functions, made for long rows, take many times as long for, and what they lack."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from .arrays import Array


def cross(first: Iterable[float], second: Iterable[float]) -> Array:
    """Return the vector product of two ``(3,)`` vectors."""
    a, b, c = first
    d, e, f = second
    return np.array([b * f - c * e, c * d - a * f, a * e - b * d])


def level_square(along: Array, toward: Array) -> Array:
    """Return the level unit vector square to a ``(3,)`` way in plan, to the side that another vector points to."""
    square = np.array([along[1], -along[0], 0.0]) / np.hypot(along[0], along[1])
    return np.asarray(square if square @ toward > 0 else -square)
