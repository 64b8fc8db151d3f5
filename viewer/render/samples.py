"""Samples: some of a picture's pixels as a list, with the ground where nothing stands before it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from .buffers import GAMMA, LINEAR, STEPS, Buffers

Floats = NDArray[np.float32]
Array = NDArray[np.float64]

FARTHEST = 1e6
"""Inches; ground beyond is not seen."""


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
        normal: ``(n, 3)`` unit vectors, turned to the eye: a thin sheet is seen from both sides.
        gloss: ``(n,)`` from 0 to 1.
        ray: ``(n, 3)`` line of sight, an inch of depth long.
        depth: ``(n,)`` inches along the line of sight; infinite where nothing is.
        cover: ``(n,)`` how much hides the backdrop, from 0 to 1.
    """

    color: Floats
    normal: Floats
    gloss: Floats
    ray: Floats
    depth: Floats
    cover: Floats

    def take(self, which: NDArray[np.bool_]) -> Samples:
        """Return some of them."""
        return Samples(
            self.color[which], self.normal[which], self.gloss[which],
            self.ray[which], self.depth[which], self.cover[which],
        )  # fmt: skip

    def unlike(self, other: Samples) -> NDArray[np.bool_]:
        """Return where two lie on different surfaces."""
        turned = np.einsum("ij,ij->i", self.normal, other.normal) < 0.995
        with np.errstate(invalid="ignore"):
            apart = np.abs(self.depth - other.depth) > 0.004 * self.depth
        return np.asarray(turned | apart | (np.isfinite(self.depth) != np.isfinite(other.depth)))


def sampled(buffers: Buffers, shot: Shot, ground: Ground | None, rows: slice, columns: slice) -> Samples:
    """Return the pixels in some rows and columns."""
    color = LINEAR[buffers.color[rows, columns].reshape(-1, 3)]
    turned = STEPS[buffers.told[rows, columns].reshape(-1, 3)]
    length = np.sqrt(np.einsum("ij,ij->i", turned, turned))
    normal: Floats = np.asarray(turned / np.maximum(length, 1e-6)[:, None], dtype=np.float32)
    gloss = np.clip(length * 2 - 1, 0, 1)
    depth = buffers.depth[rows, columns].ravel()
    ray = _rays(shot, buffers.depth.shape, rows, columns)
    away = np.einsum("ij,ij->i", normal, ray) > 0
    normal[away] *= -1
    cover = np.isfinite(depth).astype(np.float32)
    if ground is not None:
        depth = depth.copy()
        _lay_ground(ground, shot, color, normal, gloss, ray, depth, cover)
    return Samples(color, normal, gloss, ray, depth, cover)


def _rays(shot: Shot, shape: tuple[int, ...], rows: slice, columns: slice) -> Floats:
    """Return the line of sight of some pixels of a picture, ``(n, 3)``."""
    high, wide = shape
    tall = math.tan(shot.angle(wide / high) / 2)
    x = ((np.arange(wide, dtype=np.float32)[columns] + 0.5) / wide * 2 - 1) * np.float32(tall * wide / high)
    y = (1 - (np.arange(high, dtype=np.float32)[rows] + 0.5) / high * 2) * np.float32(tall)
    right, up, back = shot.axes.astype(np.float32)
    rays = x[None, :, None] * right + y[:, None, None] * up - back
    return np.asarray(rays, dtype=np.float32).reshape(-1, 3)


def _lay_ground(
    ground: Ground,
    shot: Shot,
    color: Floats,
    normal: Floats,
    gloss: Floats,
    ray: Floats,
    depth: Floats,
    cover: Floats,
) -> None:
    """Change what is seen where the ground is nearer; an eye below it sees none."""
    drop = np.float32(ground.height - shot.eye[2])
    if drop >= 0:
        return
    down = ray[:, 2] * np.float32(FARTHEST) < drop
    far = np.where(down, drop / np.where(down, ray[:, 2], -1), np.inf).astype(np.float32)
    bare = np.flatnonzero(far < depth)
    far = far[bare]
    place = shot.eye[:2].astype(np.float32) + ray[bare, :2] * far[:, None]
    out = np.linalg.norm(place - ground.middle.astype(np.float32), axis=1)
    share = np.clip(1 - out / np.float32(ground.reach), 0, 1)
    color[bare] = ground.color**GAMMA
    normal[bare] = (0, 0, 1)
    gloss[bare] = 0
    depth[bare] = np.where(share > 0, far, np.inf)
    cover[bare] = share * share * (3 - 2 * share)
