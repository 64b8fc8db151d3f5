"""The finished roof drawn over a photograph, from where the camera stood."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import message

from ..display.body import Kind
from ..display.camera import Shot
from ..display.daylight import FAIR, daylight_at
from ..display.stage import Stage
from ..display.view import METAL, PANELS, ViewPoint
from .light import Weather, lights_on, lit
from .meshes import middle_and_radius, pieces_of
from .picture import SUN, height_of
from .surface import ColoredMesh, surface_of
from .visible import see

Bytes = NDArray[np.uint8]

SOFT = 0.25
"""How dark edges are drawn on a photograph: it has no ink."""


def roof_over(
    photo: Bytes,
    stage: Stage,
    eye: Array,
    turn: Array,
    focal: float,
    sun: tuple[float, float] | None = None,
    front: Bytes | None = None,
) -> Bytes:
    """Return a photograph with the finished roof drawn into it; the house's own walls stay as they are.

    Args:
        photo: ``(h, w, 3)``, of a lens without distortion whose axis goes through the middle.
        stage: The roof.
        eye: ``(3,) float, inches, scene frame``: where the camera stood.
        turn: ``(3, 3)`` rotation into the camera's frame: to the right, down, away from the eye.
        focal: Focal length, pixels.
        sun: Bearing and height of the sun, degrees; from over the viewer's shoulder when left out.
        front: ``(h, w)`` white where something stands before the roof.
    """
    height, width = photo.shape[:2]
    roof = _pieces(stage, PANELS | METAL | frozenset({"deck", "fascia"}))
    walls = [piece for piece in _pieces(stage, frozenset({"wall"})) if piece.shades]  # screws are the roof's
    surface = surface_of([*walls, *roof])  # in this order: what throws no shadow comes last in a surface
    middle, radius = middle_and_radius([*walls, *roof])
    away = float(np.linalg.norm(middle - eye))
    shot = Shot(eye, eye + turn[2] * away, -turn[1], 1e-6, height / focal * away)
    seen = see(surface, shot, (width, height))
    toward = _toward(sun, turn)
    weather = Weather(toward, *FAIR, day=daylight_at(height_of(toward)))
    lights = lights_on(surface, weather, middle, radius)
    drawn = lit(seen, lights, photo.copy(), SOFT)
    first = sum(len(piece.faces) for piece in walls)
    shows = (seen.shown >= first).reshape(height, 2, width, 2).any(axis=(1, 3))
    share = shows * (1 - (front if front is not None else np.zeros_like(shows)) / 255)
    return np.round(photo + (drawn.astype(float) - photo) * share[..., None]).astype(np.uint8)


def _pieces(stage: Stage, shows: frozenset[Kind]) -> list[ColoredMesh]:
    view = ViewPoint("photo", message("The finished roof"), (), shows, "finish", outdoors=True)
    return pieces_of(stage, view)


def _toward(sun: tuple[float, float] | None, turn: Array) -> Array:
    """Return the unit vector toward the sun."""
    if sun is None:
        behind = math.atan2(-turn[2][0], -turn[2][1])
        bearing, rise = behind + math.radians(35), math.asin(SUN[2])
    else:
        bearing, rise = math.radians(sun[0]), math.radians(sun[1])
    return np.array([math.sin(bearing) * math.cos(rise), math.cos(bearing) * math.cos(rise), math.sin(rise)])
