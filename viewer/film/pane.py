"""A pane: one still camera, what it has seen so far, and a piece on its way before it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from ..display.placing import Box
from ..render.buffers import Canvas, Piece
from ..render.light import Weather, lit
from ..render.meshes import middle_and_radius
from ..render.picture import BACK_SUN, FAIR, GRASS, SUN, WORKSHOP
from ..render.samples import Ground

Floats = NDArray[np.float32]
Array = NDArray[np.float64]

TOP, FOOT = (0.70, 0.80, 0.88), (0.955, 0.957, 0.945)
"""Colors of the sky, from the top of a pane to its foot."""

STANDING = (16, 1100, 240)
"""Directions of the sky that are followed, and pixels of the maps of sun and sky: a film is smaller than a still."""

MOVING = (4, 240, 60)
"""The same for what moves: it is seen for a moment."""

FEW = 2e-4
"""Share of the pixels that may differ where nothing has changed: thin lines fall a little otherwise each time."""

REACH = 4.2
"""How far the ground is seen, in radii of the house."""


@dataclass(frozen=True, slots=True, eq=False)
class Still:
    """What a camera sees while nothing moves.

    Attributes:
        picture: ``(h, w, 3)`` from 0 to 1.
        color: ``(2 h, 2 w, 3)`` before any light.
        depth: ``(2 h, 2 w)`` inches along the line of sight; infinite where nothing is.
    """

    picture: Floats
    color: NDArray[np.generic]
    depth: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Pane:
    """One camera and its part of the picture.

    Attributes:
        title: From where it looks.
        shot: The camera.
        box: Where it lies in the picture, pixels.
        floor: Height of the ground, inches.
    """

    title: str
    shot: Shot
    box: Box
    floor: float

    @property
    def size(self) -> tuple[int, int]:
        """Width and height, pixels."""
        return round(self.box.right - self.box.left), round(self.box.bottom - self.box.top)

    @property
    def sun(self) -> Array:
        """The way toward the sun, ``(3,)``: behind the eye's left shoulder."""
        return np.asarray(SUN if (self.shot.eye - self.shot.target)[1] <= 0 else BACK_SUN)

    def still(self, pieces: list[Piece], finish: bool, last: Still | None = None) -> Still:
        """Return what is seen of ``pieces``; ``last`` itself when nothing has changed since.

        Args:
            pieces: All that stands there.
            finish: Whether it is the finished look, in sunlight.
            last: What was seen before, of the same look.
        """
        wide, high = self.size
        middle, radius = middle_and_radius(pieces)
        with Canvas(pieces) as canvas:
            buffers = canvas.draw(self.shot, (wide * 2, high * 2))
            if last is not None and _alike(buffers.color, last.color):
                return last
            share = np.linspace(0, 1, high, dtype=np.float32)[:, None, None]
            top, foot = (np.array(end, dtype=np.float32) for end in (TOP, FOOT))
            sky = top + (foot - top) * share
            ground = Ground(self.floor, GRASS, middle[:2], radius * REACH)
            weather = Weather(self.sun, *(FAIR if finish else WORKSHOP), *STANDING)
            backdrop = np.ascontiguousarray(np.broadcast_to(sky, (high, wide, 3)))
            picture = lit(canvas, buffers, self.shot, weather, backdrop, ground, middle, radius)
        return Still(picture, buffers.color, buffers.depth)

    def moving(self, still: Still, pieces: list[Piece], canvas: Canvas, shift: Array) -> Floats:
        """Return a still with some pieces moved by ``shift`` inches, before or behind what stands there.

        Args:
            still: What stands there.
            pieces: What moves; it throws no shadow on what stands.
            canvas: The same, to be drawn.
            shift: ``(3,) float, inches``.
        """
        shot, (wide, high) = self.shot, self.size
        moved = replace(shot, eye=shot.eye - shift, target=shot.target - shift)
        buffers = canvas.draw(moved, (wide * 2, high * 2))
        ahead = buffers.depth < still.depth
        rows = np.flatnonzero(ahead.any(axis=1))
        if not len(rows):
            return still.picture
        buffers = replace(buffers, depth=np.where(ahead, buffers.depth, np.float32(np.inf)))
        middle, radius = middle_and_radius(pieces)
        weather = Weather(self.sun, *WORKSHOP, *MOVING)
        return lit(canvas, buffers, moved, weather, still.picture, None, middle, radius)


def _alike(color: NDArray[np.generic], other: NDArray[np.generic]) -> bool:
    """Return whether two pictures show the same but for a few pixels along its edges."""
    return float((color != other).any(axis=2).mean()) <= FEW
