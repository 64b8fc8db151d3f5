"""Shadow: what the light from one direction reaches, read off a map of the scene drawn from there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from .buffers import Canvas

Floats = NDArray[np.float32]
Array = NDArray[np.float64]

SOFT = tuple((dx, dy) for dy in (-1, 0, 1) for dx in (-1, 0, 1))
"""Where the map is read round each point, in pixels of the map, so that a shadow's edge is soft."""

HARD = ((0, 0),)


@dataclass(frozen=True, slots=True, eq=False)
class Lamp:
    """A light far away, with the map of what it reaches.

    Attributes:
        depth: ``(size, size)`` inches from the lamp.
        axes: ``(3, 3)`` rows: right and up in the map, and back toward the lamp.
        eye: ``(3,)`` where the map is drawn from.
        radius: Half the side of what the map covers, inches.
    """

    depth: Floats
    axes: Floats
    eye: Floats
    radius: float

    def reaches(self, points: Floats, normals: Floats, soft: bool) -> Floats:
        """Return how much of the light reaches ``(n, 3)`` points, from 0 to 1; all of it outside the map."""
        size = len(self.depth)
        texel = np.float32(2 * self.radius / size)
        scale = np.float32(1 / texel)
        start = points + normals * (texel * np.float32(1.5))
        start -= self.eye
        x = start @ self.axes[0] * scale + np.float32(size / 2)
        y = np.float32(size / 2) - start @ self.axes[1] * scale
        away = start @ -self.axes[2] - texel * np.float32(0.8)
        inside = (x > 1) & (x < size - 2) & (y > 1) & (y < size - 2)
        pixel = np.clip(y, 1, size - 2).astype(np.int32) * size + np.clip(x, 1, size - 2).astype(np.int32)
        taps = SOFT if soft else HARD
        flat = self.depth.ravel()
        free = np.zeros(len(points), dtype=np.float32)
        for dx, dy in taps:
            free += flat.take(pixel + (dy * size + dx)) >= away
        return np.asarray(np.where(inside, free / np.float32(len(taps)), np.float32(1)), dtype=np.float32)


def lamp(canvas: Canvas, way: Array, middle: Array, radius: float, size: int) -> Lamp:
    """Return the light from the direction ``way``.

    Args:
        canvas: What throws shadows.
        way: ``(3,)`` unit vector toward the light.
        middle: ``(3,)`` middle of what is lit, inches.
        radius: How far round it shadows are followed, inches.
        size: Pixels along a side of the map.
    """
    up = np.array([0.0, 0.0, 1.0]) if abs(way[2]) < 0.95 else np.array([1.0, 0.0, 0.0])
    shot = Shot(middle + way * radius * 8, middle, up, 2 * radius, 2 * radius)
    depth = canvas.depth(shot, (size, size))
    return Lamp(
        np.ascontiguousarray(depth), shot.axes.astype(np.float32), shot.eye.astype(np.float32), radius
    )
