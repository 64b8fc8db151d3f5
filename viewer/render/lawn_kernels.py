"""The ground before the house: how far it is seen, and that it is not all alike."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from .compiled import inlined, kernel

MOTTLE = (9.0, 46.0)
"""Sizes of the patches of the ground, inches."""


class Lawn(NamedTuple):
    """Where the ground is seen: its middle, and how far out it fades away, inches."""

    x: float
    y: float
    reach: float


@kernel
def faded(lawn: Lawn, point: Any) -> float:
    """Return how much of the ground is seen at a point, from 1 in the middle to 0."""
    x, y = point[0] - lawn.x, point[1] - lawn.y
    share = max(0.0, 1 - math.sqrt(x * x + y * y) / lawn.reach)
    return share * share * (3 - 2 * share)


@kernel
def mottled(point: Any) -> float:
    """Return how light the ground is at a point, about 1: it is not all alike."""
    tone = 1.0
    for size, deep in ((MOTTLE[0], 0.055), (MOTTLE[1], 0.06)):
        x, y = point[0] / size, point[1] / size
        left, low = math.floor(x), math.floor(y)
        u, v = x - left, y - low
        u, v = u * u * (3 - 2 * u), v * v * (3 - 2 * v)
        a = _chance(left, low) * (1 - u) + _chance(left + 1, low) * u
        b = _chance(left, low + 1) * (1 - u) + _chance(left + 1, low + 1) * u
        tone += deep * (2 * (a * (1 - v) + b * v) - 1)
    return tone


@inlined
def _chance(x: float, y: float) -> float:
    """Return a number from 0 to 1 that goes with a place, as if by chance."""
    wave = math.sin(x * 12.9898 + y * 78.233) * 43758.5453
    return float(wave - math.floor(wave))
