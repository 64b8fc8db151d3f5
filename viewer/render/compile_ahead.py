"""Warm: have all that is compiled ready, by drawing a very small picture."""

from __future__ import annotations

import numpy as np

from ..display.camera import Shot
from ..display.coats import GLASS
from ..display.daylight import DAY
from .light import Weather, lights_on, lit
from .outdoors import behind
from .surface import ColoredMesh, surface_of
from .visible import see


def warm() -> None:
    """Compile the loops that draw, or load them if they are kept from an earlier time."""
    corners = np.array([[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    piece = ColoredMesh(corners, np.array([[0, 1, 2]]), np.zeros((1, 3), dtype=np.uint8), GLASS)
    surface = surface_of([piece])
    shot = Shot(np.array([0.0, 0.0, 9.0]), np.zeros(3), np.array([0.0, 1.0, 0.0]), 2.0, 2.0)
    weather = Weather(np.array([0.0, 0.0, 1.0]), 1.0, 1.0, 1.0, rays=4, sun_map=8, sky_map=8)
    lights = lights_on(surface, weather, np.zeros(3), 4.0)
    lit(see(surface, shot, (4, 4)), lights, behind(shot, (4, 4), DAY))
