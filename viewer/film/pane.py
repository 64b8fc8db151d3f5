"""A pane: one still camera, what it has seen so far, and a piece on its way before it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.camera import Shot
from ..display.daylight import DAY, FAIR, daylight_at
from ..display.placing import Box
from ..render.light import Lights, Weather, lights_on, lit
from ..render.meshes import middle_and_radius
from ..render.outdoors import GRASS, YARD, behind, yard_air
from ..render.picture import REACH, SOFT, WORKSHOP, height_of
from ..render.surface import ColoredMesh, Ground, Surface, surface_of
from ..render.visible import see

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float32]

STANDING = (16, 1100, 240)
"""Directions of the sky that are followed, and pixels of the maps of sun and sky: a film is smaller than a still."""

MOVING = (4, 240, 60)
"""The same for what moves: it is seen for a moment."""


@dataclass(frozen=True, slots=True, eq=False)
class Still:
    """What a camera sees while nothing moves.

    Attributes:
        picture: ``(h, w, 3)`` from 0 to 255.
        nearness: ``(2 h, 2 w)`` one over the distance along the line of sight, inches; 0 where nothing is.
        depth: ``(h, w)`` inches along the line of sight; infinite where no body is seen.
    """

    picture: Bytes
    nearness: Floats
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

    def still(self, pieces: list[ColoredMesh], sun: Array, finish: bool, last: Still | None = None) -> Still:
        """Return what is seen of ``pieces``; ``last`` itself when nothing has changed since.

        Args:
            pieces: All that stands there.
            sun: ``(3,)`` unit vector toward the sun.
            finish: Whether it is the finished look, in sunlight.
            last: What was seen before, of the same look.
        """
        wide, high = self.size
        middle, radius = middle_and_radius(pieces)
        above = self.shot.eye[2] > self.floor
        ground = Ground(self.floor, GRASS if finish else YARD, middle[:2], radius * REACH) if above else None
        surface = surface_of(pieces, ground)
        seen = see(surface, self.shot, (wide, high))
        if last is not None and np.array_equal(seen.nearness, last.nearness):
            return last
        day = daylight_at(height_of(sun)) if finish else DAY
        air = behind(self.shot, (wide, high), day) if finish else yard_air((wide, high))
        weather = Weather(sun, *(FAIR if finish else WORKSHOP), 1.0, *STANDING, day=day)
        picture = lit(seen, lights_on(surface, weather, middle, radius), air, SOFT if finish else 1.0)
        return Still(picture, seen.nearness, seen.depth)

    def lights_of(self, pieces: list[ColoredMesh], sun: Array, surface: Surface) -> Lights:
        """Return what falls on pieces that move: they shade each other only."""
        return lights_on(surface, Weather(sun, *WORKSHOP, 1.0, *MOVING), *middle_and_radius(pieces))

    def moving(self, still: Still, surface: Surface, lights: Lights, shift: Array) -> Bytes:
        """Return a still with something moved by ``shift`` inches, before or behind what stands there.

        Args:
            still: What stands there.
            surface: What moves; it throws no shadow on what stands.
            lights: What falls on it.
            shift: ``(3,) float, inches``.
        """
        moved = replace(self.shot, eye=self.shot.eye - shift, target=self.shot.target - shift)
        return lit(see(surface, moved, self.size, still.nearness), lights, still.picture)
