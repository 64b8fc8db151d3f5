"""Light: sun, sky and the ground's reflection, laid over what the buffers hold.

Every picture is drawn twice as wide and high as it comes out. A block of four pixels that lie on one flat surface is
lit once; where a block holds an edge, each of its pixels is lit.
"""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from .buffers import GAMMA, Buffers, Canvas
from .samples import Ground, Samples, sampled
from .shadow import Lamp, lamp

Floats = NDArray[np.float32]
Array = NDArray[np.float64]

WARM = np.array([1.0, 0.96, 0.88], dtype=np.float32)
COOL = np.array([0.84, 0.92, 1.0], dtype=np.float32)
EARTH = np.array([0.54, 0.51, 0.46], dtype=np.float32)

BAND = 16
"""Rows of the finished picture that are lit at a time: what they need stays in the processor's own memory."""


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """How a scene is lit.

    Attributes:
        toward: ``(3,)`` unit vector toward the sun.
        sun: Its strength.
        sky: Strength of the sky.
        bounce: Strength of the light that comes up from below.
        rays: How many directions of the sky are followed.
        sun_map: Pixels along a side of the sun's map.
        sky_map: The same for each direction of the sky.
        far: How much farther the sun's shadows are followed than the sky's.
    """

    toward: Array
    sun: float
    sky: float
    bounce: float
    rays: int = 36
    sun_map: int = 2600
    sky_map: int = 560
    far: float = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class _Lights:
    """The sun and the directions of the sky, each with the map of what it reaches."""

    weather: Weather
    sun: Lamp
    sky: tuple[tuple[Floats, Lamp], ...]


def lit(
    canvas: Canvas, buffers: Buffers, shot: Shot, weather: Weather, backdrop: Floats, ground: Ground | None,
    middle: Array, radius: float,
) -> Floats:  # fmt: skip
    """Return the lit picture, half as wide and high as the buffers: ``(h, w, 3)`` from 0 to 1.

    Args:
        canvas: Throws the shadows.
        buffers: What is seen.
        shot: From where.
        weather: The light.
        backdrop: ``(h, w, 3)``: what is seen behind everything, from 0 to 1.
        ground: The ground; None for a close-up.
        middle: ``(3,)`` middle of what can throw a shadow that is seen, inches.
        radius: How far it reaches, inches; the sun's shadows are followed farther.
    """
    lights = _lights(canvas, weather, middle, radius)
    high = len(backdrop)
    take = partial(sampled, buffers, shot, ground)
    eye = shot.eye.astype(np.float32)
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 1) as workers:
        tops = range(0, high, 4 * BAND)
        sky = np.concatenate(
            list(workers.map(lambda top: _open_sky(take, eye, lights, top, min(top + 4 * BAND, high)), tops))
        )
        smooth = _smoothed(_smoothed(sky.reshape(-1, math.ceil(backdrop.shape[1] / 2))))
        bands = workers.map(
            lambda top: _band(take, eye, lights, smooth, backdrop[top : top + BAND], top),
            range(0, high, BAND),
        )
        return np.concatenate(list(bands))


def _lights(canvas: Canvas, weather: Weather, middle: Array, radius: float) -> _Lights:
    """Draw the maps of what the sun and the sky reach."""
    sky = []
    for k in range(weather.rays):
        turn, rise = k * math.pi * (3 - math.sqrt(5)), (k + 0.5) / weather.rays
        flat = math.sqrt(1 - rise**2)
        way = np.array([math.cos(turn) * flat, math.sin(turn) * flat, rise])
        sky.append((way.astype(np.float32), lamp(canvas, way, middle, radius, weather.sky_map)))
    return _Lights(
        weather, lamp(canvas, weather.toward, middle, radius * weather.far, weather.sun_map), tuple(sky)
    )


def _open_sky(take: partial[Samples], eye: Floats, lights: _Lights, top: int, bottom: int) -> Floats:
    """Return what share of the sky that a surface faces reaches it, for every second block of some rows."""
    samples = take(slice(top * 2, bottom * 2, 4), slice(0, None, 4))
    share = np.ones(len(samples.depth), dtype=np.float32)
    seen = np.isfinite(samples.depth)
    points = eye + samples.ray[seen] * samples.depth[seen, None]
    normal = samples.normal[seen]
    got = np.zeros(len(points), dtype=np.float32)
    most = np.full(len(points), 1e-6, dtype=np.float32)
    for way, reach in lights.sky:
        slant = np.clip(normal @ way, 0, None)
        got += slant * reach.reaches(points, normal, soft=False)
        most += slant
    share[seen] = got / most
    return share


def _smoothed(image: Floats) -> Floats:
    """Return an image with each pixel the mean of itself and its neighbours."""
    high, wide = image.shape
    padded = np.pad(image, 1, mode="edge")
    return _mean([padded[dy : dy + high, dx : dx + wide] for dy in range(3) for dx in range(3)])


def _band(
    take: partial[Samples], eye: Floats, lights: _Lights, sky: Floats, backdrop: Floats, top: int
) -> Floats:
    """Return some rows of the picture, lit."""
    rows, wide = backdrop.shape[:2]
    bottom = (top + rows) * 2
    blocks = [take(slice(top * 2 + dy, bottom, 2), slice(dx, None, 2)) for dy in (0, 1) for dx in (0, 1)]
    first = blocks[0]
    mixed = np.zeros(len(first.depth), dtype=bool)
    for other in blocks[1:]:
        mixed |= first.unlike(other)
    near = sky[np.ix_(np.arange(top, top + rows) // 2, np.arange(wide) // 2)].ravel()
    behind = backdrop.reshape(-1, 3) ** np.float32(GAMMA)
    even = Samples(
        _mean([one.color for one in blocks]), first.normal, first.gloss, first.ray, first.depth,
        _mean([one.cover for one in blocks]),
    )  # fmt: skip
    result = np.empty((rows * wide, 3), dtype=np.float32)
    result[~mixed] = _shade(even.take(~mixed), eye, near[~mixed], behind[~mixed], lights)
    shades = [_shade(block.take(mixed), eye, near[mixed], behind[mixed], lights) for block in blocks]
    result[mixed] = _mean(shades)
    shown = np.clip(result, 0, 1) ** np.float32(1 / GAMMA)
    return np.asarray(shown.reshape(rows, wide, 3))


def _mean(images: Sequence[Floats]) -> Floats:
    """Return the mean of several images."""
    total = images[0].copy()
    for image in images[1:]:
        total += image
    return np.asarray(total / np.float32(len(images)), dtype=np.float32)


def _shade(samples: Samples, eye: Floats, open_sky: Floats, behind: Floats, lights: _Lights) -> Floats:
    """Return the linear color of each sample, over what is behind it."""
    result = behind.copy()
    seen = np.isfinite(samples.depth)
    if not seen.any():
        return result
    weather = lights.weather
    one, sky = samples.take(seen), open_sky[seen]
    points = eye + one.ray * one.depth[:, None]
    toward_eye = -one.ray / np.linalg.norm(one.ray, axis=1, keepdims=True)
    normal = one.normal
    sun = weather.toward.astype(np.float32)
    direct = np.clip(normal @ sun, 0, None) * lights.sun.reaches(points, normal, soft=True)
    above = (0.5 + 0.5 * normal[:, 2]) * sky
    below = (0.5 - 0.5 * normal[:, 2]) * (0.3 + 0.7 * sky)
    light = np.float32(weather.sun) * direct[:, None] * WARM
    light += np.float32(weather.sky) * above[:, None] * COOL
    light += np.float32(weather.bounce) * below[:, None] * EARTH
    color = one.color * light
    facing = np.abs(np.einsum("ij,ij->i", normal, toward_eye))
    mirrored = 2 * facing[:, None] * normal - toward_eye
    horizon = np.clip(0.45 + 0.75 * mirrored[:, 2], 0, 1)
    sheen = one.gloss * sky * horizon * (0.05 + 0.4 * (1 - facing) ** 5)
    glint = one.gloss * direct * np.clip(mirrored @ sun, 0, 1) ** 24 * np.float32(0.3)
    color += sheen[:, None] * COOL * (0.5 + one.color) + glint[:, None] * WARM * (0.3 + one.color)
    color = color * np.float32(1.25) / (1 + np.float32(0.2) * color)
    result[seen] += (color - result[seen]) * one.cover[:, None]
    return result
