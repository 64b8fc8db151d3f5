"""Single vectors: what numpy's own functions, made for long rows, take many times as long for."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from .arrays import Array


def cross(first: Iterable[float], second: Iterable[float]) -> Array:
    """Return the vector product of two ``(3,)`` vectors."""
    a, b, c = first
    d, e, f = second
    return np.array([b * f - c * e, c * d - a * f, a * e - b * d])
