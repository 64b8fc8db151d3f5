"""Shadow: what the light from a direction reaches, read off a map of the heights of all that stands in its way."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from trimwright.model.geometry.arrays import Array

from ..display.camera import axes_of
from .light_kernels import Lamps
from .raster_kernels import fill
from .surface import Surface
from .workers import at_once

AIR = -1e30
"""The height at which a map holds nothing."""


def lamps(surface: Surface, ways: Sequence[Array], middle: Array, radius: float, size: int) -> Lamps:
    """Return lights far away, each with its map.

    Args:
        surface: What throws shadows.
        ways: ``(3,)`` unit vectors toward each light.
        middle: ``(3,)`` middle of what is lit, inches.
        radius: How far round it shadows are followed, inches.
        size: Pixels along a side of a map.
    """
    texel = 2 * radius / size
    views = np.stack([_view(way, middle, texel, size) for way in ways])
    maps = np.full((len(ways), size, size), AIR, dtype=np.float32)
    faces = surface.faces[: surface.shades]
    corners = np.ascontiguousarray(surface.vertices[: faces.max() + 1 if len(faces) else 0].T)
    normals = np.ascontiguousarray(surface.normals[: surface.shades].T)
    offsets = np.einsum("ij,ij->j", normals, corners[:, faces[:, 0]])
    unnamed = np.empty((0, 0), dtype=np.int32)

    def draw(lamp: int) -> None:
        turn, shift = views[lamp, :, :3], views[lamp, :, 3]
        spots = turn @ corners + shift[:, None]
        spots[2] = 1
        slopes = np.linalg.inv(turn).T @ normals
        edge_on = np.abs(slopes[2]) < 1e-9
        steep = np.where(edge_on, 1.0, slopes[2])
        planes = -slopes / steep
        planes[2] = np.where(edge_on, AIR, (offsets + shift @ slopes) / steep)
        fill(spots, faces, planes, np.inf, 0, size, 0.0, unnamed, maps[lamp])

    at_once(draw, range(len(ways)))
    return Lamps(np.stack(ways), views, maps, texel)


def _view(way: Array, middle: Array, texel: float, size: int) -> Array:
    """Return what takes a point to its pixel across and down in a map, and its height toward the light: ``(3, 4)``."""
    up = np.array([0.0, 0.0, 1.0]) if abs(way[2]) < 0.95 else np.array([1.0, 0.0, 0.0])
    right, up, back = axes_of(up, way)
    turn = np.array([right / texel, -up / texel, back])
    return np.column_stack([turn, [size / 2, size / 2, 0.0] - turn @ middle])
