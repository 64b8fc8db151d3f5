"""Holes: how dark perforated sheet is at each pixel."""

from __future__ import annotations

import math
from typing import Any

from trimwright.model.geometry.arrays import Array

from ..display.perforated import FINE, OPEN, ROWS, SHOWS
from .compiled import inlined


@inlined
def through(point: Any, normal: Any, hole: float, apart: float, pixel: float) -> float:
    """Return what share of its light a point of perforated sheet sends back.

    Args:
        point: Inches.
        normal: Unit vector.
        hole: Diameter of the holes, inches.
        apart: Distance of their middles, inches.
        pixel: How wide a pixel is there, inches.
    """
    level = math.sqrt(normal[0] * normal[0] + normal[1] * normal[1])
    x, y = (-normal[1] / level, normal[0] / level) if level > 1e-3 else (1.0, 0.0)
    along = point[0] * x + point[1] * y
    up = normal[2] * (point[1] * x - point[0] * y) + point[2] * (normal[0] * y - normal[1] * x)
    row = math.floor(up / (apart * ROWS) + 0.5)
    place = along / apart + 0.5 * (row - 2 * math.floor(row / 2))
    off = (place - math.floor(place + 0.5)) * apart
    far = math.sqrt(off * off + (up - row * apart * ROWS) ** 2)
    crisp = min(1.0, max(0.0, (hole / 2 - far) / pixel + 0.5))
    blur = min(1.0, max(0.0, (pixel / apart - FINE[0]) / (FINE[1] - FINE[0])))
    cover = crisp * (1 - blur) + OPEN * (hole / apart) ** 2 * blur
    return 1 - (1 - SHOWS) * cover


@inlined
def pixel_at(rays: Array, near: float) -> float:
    """Return how wide a pixel is at a nearness, inches: it has two by two parts, each as wide as rays tell."""
    wide = math.sqrt(rays[0, 0] ** 2 + rays[1, 0] ** 2 + rays[2, 0] ** 2)
    return 2 * wide / near
