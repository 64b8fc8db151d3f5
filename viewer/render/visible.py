"""Seen: which face a camera sees at each pixel, how near it is, and where lines are drawn over it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.camera import Shot
from ..display.coats import DULL
from .light_kernels import Eye
from .raster_kernels import fill, rule
from .surface import Surface
from .workers import in_bands

Floats = NDArray[np.float32]
Bytes = NDArray[np.uint8]

NEAREST, AT_FEET = 0.35, 0.02
"""What is nearer to the eye than this share of the way to the target is left off; outdoors the ground is seen to the
viewer's feet, and nothing else is so near."""

WIDTH = 2.0
"""Of a line, in pixels of what is seen: every picture is drawn twice as wide and high as it comes out."""

SKEW = 0.25
"""How far beside its middle a pixel is looked at, to the right in one row and to the left in the next: what runs down
the picture and is finer than a pixel, as a seam far off, then falls on one of four places across, not of two."""


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What a camera sees, twice as wide and high as the picture that is made of it.

    Attributes:
        surface: Of what.
        eye: The camera.
        shown: ``(h, w)`` the face that each pixel shows; -1 for none.
        nearness: ``(h, w)`` one over the distance along the line of sight, inches; 0 where nothing is.
        ink: ``(h, w)`` how much the lines cover, from 0 to 255.
    """

    surface: Surface
    eye: Eye
    shown: NDArray[np.int32]
    nearness: Floats
    ink: Bytes

    @property
    def depth(self) -> Floats:
        """``(h / 2, w / 2)`` inches along the line of sight; infinite where no body is seen."""
        near, shown = self.nearness[::2, ::2], self.shown[::2, ::2]
        body = (shown >= 0) & (shown < self.surface.bodies)
        return np.divide(1, near, out=np.full(near.shape, np.inf, dtype=np.float32), where=body)

    @property
    def metal(self) -> NDArray[np.bool_]:
        """``(h / 2, w / 2)`` whether metal is seen."""
        shown = self.shown[::2, ::2]
        return np.asarray((shown >= 0) & (self.surface.paint[shown, 4] < DULL.rough))


def see(surface: Surface, shot: Shot, size: tuple[int, int], before: Floats | None = None) -> Seen:
    """Return what a camera sees in a picture of ``size`` pixels, width by height.

    Args:
        surface: What is there to be seen.
        shot: The camera.
        size: Of the picture.
        before: ``(2 h, 2 w)`` nearness of something that is seen already: only what is nearer is added.
    """
    wide, high = 2 * size[0], 2 * size[1]
    to_pixels = _to_pixels(shot, wide, high)
    eye = Eye(shot.eye, np.asarray(np.linalg.inv(to_pixels), dtype=np.float64), SKEW)
    spots = to_pixels @ (surface.vertices - shot.eye).T
    spots[2, spots[2] == 0] = -1e-9
    spots[:2] /= spots[2]
    off = surface.vertices[surface.faces[:, 0]] - shot.eye
    away = np.einsum("ij,ij->i", surface.normals, off)
    edge_on = np.abs(away) < 1e-9
    planes = np.where(edge_on, 0.0, eye.rays.T @ surface.normals.T / np.where(edge_on, 1.0, away))
    limit = 1 / ((NEAREST if surface.ground is None else AT_FEET) * shot.distance)
    shown = np.full((high, wide), -1, dtype=np.int32)
    nearness = np.zeros((high, wide), dtype=np.float32) if before is None else before.copy()
    ink = np.zeros((high, wide), dtype=np.uint8)
    ends = _ends(surface, spots, limit)

    def draw(top: int, bottom: int) -> None:
        fill(spots, surface.faces, planes, limit, top, bottom, SKEW, shown, nearness)
        rule(ends, planes, WIDTH, top, bottom, shown, nearness, ink)

    in_bands(draw, high)
    return Seen(surface, eye, shown, nearness, ink)


def _to_pixels(shot: Shot, wide: int, high: int) -> Array:
    """Return what takes a point's way from the eye to pixels across and down, each times its distance, and that."""
    scale = high / 2 / math.tan(shot.angle(wide / high) / 2)
    right, up, back = shot.axes
    return np.array([scale * right - wide / 2 * back, -scale * up - high / 2 * back, -back])


def _ends(surface: Surface, spots: Array, limit: float) -> Array:
    """Return where edges begin and end, ``(k, 2, 3)``: pixel across and down, nearness; those too near are left off."""
    ends = spots.T[surface.edges]
    ends = ends[(ends[:, :, 2] * limit > 1).all(axis=1)]
    ends[:, :, 2] = 1 / ends[:, :, 2]
    return ends
