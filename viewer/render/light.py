"""Light: sun, sky and the ground's reflection on what is seen."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.daylight import DAY, Daylight, Light
from ..display.perforated import FINE, OPEN, ROWS, SHOWS
from .hole_kernels import Perforation, pierce
from .light_kernels import Faces, Lamps, Lawn, Mood, Scale, View, light, open_sky
from .shadow import lamps
from .surface import GAMMA, LINEAR, Surface
from .visible import Seen
from .workers import in_bands

Floats = NDArray[np.float32]
Bytes = NDArray[np.uint8]

INK = (38, 44, 48)
"""Color of the lines, from 0 to 255."""

SCALE = Scale(LINEAR, np.round(255 * np.linspace(0, 1, 4096) ** (2 / GAMMA)).astype(np.uint8))
"""The steps of a picture's color: even ones for the eye."""


PATTERN = Perforation(SHOWS, ROWS, OPEN, *FINE)
"""How holes are drawn."""


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """How a scene is lit.

    Attributes:
        toward: ``(3,)`` unit vector toward the sun.
        sun: Its strength.
        sky: Strength of the sky.
        bounce: Strength of the light that comes up from below.
        mirror: Strength of what is mirrored.
        rays: How many directions of the sky are followed; a multiple of four.
        sun_map: Pixels along a side of the sun's map.
        sky_map: The same for each direction of the sky.
        far: How much farther the sun's shadows are followed than the sky's.
        day: The colors of all this.
    """

    toward: Array
    sun: float
    sky: float
    bounce: float
    mirror: float = 1.0
    rays: int = 36
    sun_map: int = 2048
    sky_map: int = 400
    far: float = 1.0
    day: Daylight = DAY


@dataclass(frozen=True, slots=True, eq=False)
class Lights:
    """The sun and the directions of the sky, each with the map of what it reaches."""

    weather: Weather
    sun: Lamps
    sky: Lamps


def lights_on(surface: Surface, weather: Weather, middle: Array, radius: float) -> Lights:
    """Return the lights with the shadows that a surface throws.

    Args:
        surface: What throws shadows.
        weather: The light.
        middle: ``(3,)`` middle of what can throw a shadow that is seen, inches.
        radius: How far it reaches, inches; the sun's shadows are followed farther.
    """
    ways = []
    for k in range(weather.rays):
        turn, rise = k * math.pi * (3 - math.sqrt(5)), (k + 0.5) / weather.rays
        flat = math.sqrt(1 - rise**2)
        ways.append(np.array([math.cos(turn) * flat, math.sin(turn) * flat, rise]))
    sun = lamps(surface, [weather.toward], middle, radius * weather.far, weather.sun_map)
    return Lights(weather, sun, lamps(surface, ways, middle, radius, weather.sky_map))


def lit(seen: Seen, lights: Lights, backdrop: Bytes, strength: float = 1.0) -> Bytes:
    """Return the lit picture, half as wide and high as what is seen: ``(h, w, 3)`` from 0 to 255.

    Args:
        seen: What the camera sees.
        lights: What falls on it.
        backdrop: ``(h, w, 3)``: what is seen behind everything.
        strength: How much lines hide what is behind them, from 0 to 1.
    """
    surface, weather, ground = seen.surface, lights.weather, seen.surface.ground
    faces = Faces(surface.normals, surface.paint, surface.bodies)
    lawn = Lawn(0.0, 0.0, 1.0)
    if ground is not None:
        lawn = Lawn(float(ground.middle[0]), float(ground.middle[1]), ground.reach)
    red, green, blue = LINEAR[list(INK)].tolist()
    mood = _mood(weather, strength, (red, green, blue))
    picture = backdrop.copy()
    got = np.zeros((2, -(-len(picture) // 2), -(-picture.shape[1] // 2)), dtype=np.float32)
    in_bands(
        lambda top, bottom: open_sky(
            seen.eye, seen.shown, seen.nearness, surface.normals, lights.sky, top, bottom, got
        ),
        got.shape[1],
    )
    share = _share(got)
    view = View(seen.eye, seen.shown, seen.nearness, seen.ink)
    in_bands(
        lambda top, bottom: light(view, faces, lawn, share, lights.sun, mood, SCALE, top, bottom, picture),
        len(picture),
    )
    holes = np.ascontiguousarray(surface.paint[:, 5:])
    if holes.any():
        in_bands(
            lambda top, bottom: pierce(view, surface.normals, holes, PATTERN, SCALE, top, bottom, picture),
            len(picture),
        )
    return picture


def _mood(weather: Weather, strength: float, ink: Light) -> Mood:
    """Return how the light of a weather falls."""
    day = weather.day
    lights = ((weather.sun, day.sun), (weather.sky, day.sky), (weather.bounce, day.earth))
    warm, cool, earth = ((much * red, much * green, much * blue) for much, (red, green, blue) in lights)
    return Mood(warm, cool, earth, weather.mirror, strength, ink, (day.zenith, day.horizon, day.ground))


def _share(got: Floats) -> Floats:
    """Return what share of the sky is open, from 0 to 1, out of what reaches each pixel and what could.

    Weights of 1, 2, 1 each way give the four pixels that followed different directions the same weight.
    """
    light, most = _blurred(got, 2.0)
    share = np.divide(light, most, out=np.ones_like(most), where=most > 0)
    return _blurred(share, 1.0)


def _blurred(images: Floats, middle: float) -> Floats:
    """Return the mean of each pixel of images ``(…, h, w)`` and its neighbors; ``middle`` is its own row's weight."""
    for axis in (-1, -2):
        edge = [(0, 0)] * images.ndim
        edge[axis] = (1, 1)
        wide = np.moveaxis(np.pad(images, edge, mode="edge"), axis, 0)
        images = np.moveaxis(
            (wide[:-2] + np.float32(middle) * wide[1:-1] + wide[2:]) / np.float32(middle + 2), 0, axis
        )
    return np.ascontiguousarray(images)
