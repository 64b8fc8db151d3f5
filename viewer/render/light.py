"""Light: sun, sky and the ground's reflection, laid over what the buffers hold.

Every picture is drawn twice as wide and high as it comes out. A block of four pixels that lie on one flat surface is
lit once; where a block holds an edge, each of its pixels is lit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from .buffers import GAMMA, Buffers, Canvas
from .shadow import lamp

Floats = NDArray[np.float32]
Array = NDArray[np.float64]

WARM = np.array([1.0, 0.96, 0.88], dtype=np.float32)
COOL = np.array([0.84, 0.92, 1.0], dtype=np.float32)
EARTH = np.array([0.54, 0.51, 0.46], dtype=np.float32)
CORNERS = ((0, 0), (0, 1), (1, 0), (1, 1))


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
    """

    toward: Array
    sun: float = 0.95
    sky: float = 0.5
    bounce: float = 0.4
    rays: int = 24
    sun_map: int = 1800
    sky_map: int = 360


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """The level ground under a house.

    Attributes:
        height: Inches.
        color: ``(3,)`` from 0 to 1.
        middle: ``(2,)`` where the house stands.
        reach: How far out it is seen, inches; it fades away toward there.
    """

    height: float
    color: Floats
    middle: Array
    reach: float


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Pixels as a list.

    Attributes:
        color: ``(n, 3)`` linear, from 0 to 1, before any light.
        normal: ``(n, 3)`` unit vectors.
        gloss: ``(n,)`` from 0 to 1.
        depth: ``(n,)`` inches along the line of sight; infinite where nothing is.
        cover: ``(n,)`` how much hides the backdrop, from 0 to 1.
    """

    color: Floats
    normal: Floats
    gloss: Floats
    depth: Floats
    cover: Floats

    def take(self, which: NDArray[np.bool_]) -> Samples:
        """Return some of them."""
        return Samples(
            self.color[which], self.normal[which], self.gloss[which], self.depth[which], self.cover[which]
        )


def lit(
    canvas: Canvas,
    buffers: Buffers,
    shot: Shot,
    weather: Weather,
    backdrop: Floats,
    ground: Ground | None,
    middle: Array,
    radius: float,
) -> Floats:
    """Return the lit picture, half as wide and high as the buffers: ``(h, w, 3)`` from 0 to 1.

    Args:
        canvas: Throws the shadows.
        buffers: What is seen.
        shot: From where.
        weather: The light.
        backdrop: ``(h, w, 3)``: what is seen behind everything, from 0 to 1.
        ground: The ground; None for a close-up.
        middle: ``(3,)`` middle of what can throw a shadow that is seen, inches.
        radius: How far it reaches, inches.
    """
    high, wide = backdrop.shape[:2]
    rays = _rays(shot, wide * 2, high * 2)
    blocks = [_samples(buffers, rays, corner, shot, ground) for corner in CORNERS]
    first = blocks[0]
    mixed = np.zeros(high * wide, dtype=bool)
    for other in blocks[1:]:
        mixed |= (first.normal * other.normal).sum(axis=1) < 0.995
        with np.errstate(invalid="ignore"):
            far = np.abs(first.depth - other.depth) > 0.004 * first.depth
        mixed |= far | (np.isfinite(first.depth) != np.isfinite(other.depth))
    lamps = _Lamps(canvas, weather, middle, radius)
    eye = shot.eye.astype(np.float32)
    grid = [np.ascontiguousarray(rays[dy::2, dx::2].reshape(-1, 3)) for dy, dx in CORNERS]
    open_sky = _open_sky(lamps, first, grid[0], eye, (high, wide))
    even = Samples(
        np.mean([one.color for one in blocks], axis=0), first.normal, first.gloss, first.depth,
        np.mean([one.cover for one in blocks], axis=0),
    )  # fmt: skip
    behind = backdrop.reshape(-1, 3) ** GAMMA
    result = np.empty((high * wide, 3), dtype=np.float32)
    result[~mixed] = _shade(
        even.take(~mixed), grid[0][~mixed], eye, open_sky[~mixed], behind[~mixed], lamps, weather
    )
    edge = np.zeros((int(mixed.sum()), 3), dtype=np.float32)
    for block, ray in zip(blocks, grid, strict=True):
        shade = _shade(block.take(mixed), ray[mixed], eye, open_sky[mixed], behind[mixed], lamps, weather)
        edge += shade / len(blocks)
    result[mixed] = edge
    return np.asarray(np.clip(result, 0, 1) ** (1 / GAMMA)).reshape(high, wide, 3)


class _Lamps:
    """The sun and the directions of the sky, each with its map."""

    def __init__(self, canvas: Canvas, weather: Weather, middle: Array, radius: float) -> None:
        self.sun = lamp(canvas, weather.toward, middle, radius, weather.sun_map)
        self.ways = []
        for k in range(weather.rays):
            turn, rise = k * math.pi * (3 - math.sqrt(5)), (k + 0.5) / weather.rays
            flat = math.sqrt(1 - rise**2)
            self.ways.append(np.array([math.cos(turn) * flat, math.sin(turn) * flat, rise]))
        self.sky = [lamp(canvas, way, middle, radius, weather.sky_map) for way in self.ways]


def _rays(shot: Shot, wide: int, high: int) -> Floats:
    """Return the line of sight of each pixel, ``(h, w, 3)``; one inch of depth long."""
    tall = math.tan(shot.angle(wide / high) / 2)
    x = ((np.arange(wide, dtype=np.float32) + 0.5) / wide * 2 - 1) * np.float32(tall * wide / high)
    y = (1 - (np.arange(high, dtype=np.float32) + 0.5) / high * 2) * np.float32(tall)
    right, up, back = shot.axes.astype(np.float32)
    return np.asarray(x[None, :, None] * right + y[:, None, None] * up - back)


def _samples(
    buffers: Buffers, rays: Floats, corner: tuple[int, int], shot: Shot, ground: Ground | None
) -> Samples:
    """Return one pixel of each block, with the ground where nothing stands before it."""
    dy, dx = corner
    color = buffers.color[dy::2, dx::2].reshape(-1, 3)
    normal = buffers.normal[dy::2, dx::2].reshape(-1, 3)
    gloss, depth = buffers.gloss[dy::2, dx::2].ravel(), buffers.depth[dy::2, dx::2].ravel()
    cover = np.isfinite(depth).astype(np.float32)
    if ground is None:
        return Samples(color, normal, gloss, depth, cover)
    ray = rays[dy::2, dx::2].reshape(-1, 3)
    drop = np.float32(ground.height - shot.eye[2])
    far = np.where(ray[:, 2] < -1e-5, drop / np.minimum(ray[:, 2], -1e-5), np.inf).astype(np.float32)
    bare = (depth > far) & (far < 1e6)
    place = shot.eye[:2].astype(np.float32) + ray[bare, :2] * far[bare, None]
    out = np.linalg.norm(place - ground.middle.astype(np.float32), axis=1)
    share = np.clip(1 - out / np.float32(ground.reach), 0, 1)
    color, normal, depth, gloss = color.copy(), normal.copy(), depth.copy(), gloss.copy()
    color[bare] = ground.color**GAMMA
    normal[bare] = (0, 0, 1)
    gloss[bare] = 0
    depth[bare] = np.where(share > 0, far[bare], np.inf)
    cover[bare] = share * share * (3 - 2 * share)
    return Samples(color, normal, gloss, depth, cover)


def _open_sky(lamps: _Lamps, first: Samples, rays: Floats, eye: Floats, shape: tuple[int, int]) -> Floats:
    """Return what share of the sky that a surface faces reaches it; worked out for every second block."""
    pick = np.zeros(shape, dtype=bool)
    pick[::2, ::2] = True
    small = pick[::2, ::2].shape
    chosen = first.take(pick.ravel())
    ray = rays[pick.ravel()]
    seen = np.isfinite(chosen.depth)
    points = eye + ray[seen] * chosen.depth[seen, None]
    normal = _facing(chosen.normal[seen], ray[seen])
    got = np.zeros(len(points), dtype=np.float32)
    most = np.full(len(points), 1e-6, dtype=np.float32)
    for way, map_ in zip(lamps.ways, lamps.sky, strict=True):
        slant = np.clip(normal @ way.astype(np.float32), 0, None)
        got += slant * map_.reaches(points, normal, soft=False)
        most += slant
    share = np.ones(small, dtype=np.float32).ravel()
    share[seen] = got / most
    image = share.reshape(small)
    padded = np.pad(image, 1, mode="edge")
    image = sum(
        padded[dy : dy + small[0], dx : dx + small[1]] for dy in range(3) for dx in range(3)
    ) / np.float32(9)
    return np.repeat(np.repeat(image, 2, axis=0), 2, axis=1)[: shape[0], : shape[1]].ravel()


def _facing(normal: Floats, ray: Floats) -> Floats:
    """Return normals turned to the eye: a thin sheet is seen from both sides."""
    away = (normal * ray).sum(axis=1) > 0
    return np.asarray(np.where(away[:, None], -normal, normal))


def _shade(
    samples: Samples,
    rays: Floats,
    eye: Floats,
    open_sky: Floats,
    behind: Floats,
    lamps: _Lamps,
    weather: Weather,
) -> Floats:
    """Return the linear color of each sample, over what is behind it."""
    result = behind.copy()
    seen = np.isfinite(samples.depth)
    if not seen.any():
        return result
    one, ray, sky = samples.take(seen), rays[seen], open_sky[seen]
    points = eye + ray * one.depth[:, None]
    toward_eye = -ray / np.linalg.norm(ray, axis=1, keepdims=True)
    normal = _facing(one.normal, ray)
    sun = weather.toward.astype(np.float32)
    direct = np.clip(normal @ sun, 0, None) * lamps.sun.reaches(points, normal, soft=True)
    up = normal[:, 2]
    above = (0.5 + 0.5 * up) * sky
    below = (0.5 - 0.5 * up) * (0.3 + 0.7 * sky)
    light = (
        np.float32(weather.sun) * direct[:, None] * WARM
        + np.float32(weather.sky) * above[:, None] * COOL
        + np.float32(weather.bounce) * below[:, None] * EARTH
    )
    color = one.color * light
    facing = np.abs((normal * toward_eye).sum(axis=1))
    mirrored = 2 * facing[:, None] * normal - toward_eye
    glance = (1 - facing) ** 5
    horizon = np.clip(0.45 + 0.75 * mirrored[:, 2], 0, 1)
    sheen = one.gloss * sky * horizon * (0.05 + 0.4 * glance)
    glint = one.gloss * direct * np.clip(mirrored @ sun, 0, 1) ** 24 * np.float32(0.3)
    color += sheen[:, None] * COOL * (0.5 + one.color) + glint[:, None] * WARM * (0.3 + one.color)
    color = color * np.float32(1.2) / (1 + np.float32(0.2) * color)
    result[seen] += (color - result[seen]) * one.cover[:, None]
    return result
