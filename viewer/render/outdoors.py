"""Outdoors: what is seen behind a house: the sky, hills far off, and the meadow before them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from ..display.daylight import Light
from ..display.landscape import (
    BLUER,
    CLEARER,
    CREST,
    FAR,
    FOOT,
    HAZE,
    LOW_SKY,
    NEAR,
    NEARER,
    OVERHEAD,
    TALL,
    WAVES,
)

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float32]

GRASS: Floats = np.array([0.548, 0.585, 0.442], dtype=np.float32)
"""The ground under a finished house."""

YARD: Floats = np.array([0.60, 0.625, 0.56], dtype=np.float32)
"""The ground where pieces are told apart: no color of its own."""


def yard_air(size: tuple[int, int]) -> Bytes:
    """Return ``(h, w, 3)``: plain air, from the top of a picture to its foot."""
    share = np.linspace(0, 1, size[1], dtype=np.float32)[:, None] ** np.float32(0.9)
    air = _mixed((0.70, 0.80, 0.88), (0.955, 0.957, 0.945), share)
    return np.round(255 * np.broadcast_to(air, (size[1], size[0], 3))).astype(np.uint8)


def behind(shot: Shot, size: tuple[int, int]) -> Bytes:
    """Return ``(h, w, 3)``: what a camera sees behind everything that stands on the ground.

    Args:
        shot: The camera.
        size: Width and height, pixels.
    """
    wide, high = size
    right, up, back = (axis.astype(np.float32) for axis in shot.axes)
    scale = np.float32(2 * math.tan(shot.angle(wide / high) / 2) / high)
    x = ((np.arange(wide, dtype=np.float32) + 0.5) - wide / 2)[None, :, None] * scale
    y = (high / 2 - (np.arange(high, dtype=np.float32) + 0.5))[:, None, None] * scale
    ways = x * right + y * up - back
    rise = ways[..., 2] / np.hypot(ways[..., 0], ways[..., 1])
    picture = _sky(rise)
    if rise.min() < 4 * TALL and rise.max() > 0:
        _raise_hills(picture, rise, np.arctan2(ways[..., 0], ways[..., 1]), scale)
    below = rise < 0
    picture[below] = _mixed(FAR, NEAR, 1 - np.exp(NEARER * rise[below]))
    return np.round(255 * picture).astype(np.uint8)


def _mixed(one: Light, other: Light, share: Floats) -> Floats:
    """Return colors from ``one`` to ``other`` by a share for each."""
    start = np.array(one, dtype=np.float32)
    return np.asarray(start + share[..., None] * (np.array(other, dtype=np.float32) - start))


def _sky(rise: Floats) -> Floats:
    """Return the sky where a line of sight rises so."""
    up = np.clip(rise, 0, None)
    share = 1 - np.exp(-BLUER * up)
    air = np.exp(-CLEARER * up)
    clear = _mixed(LOW_SKY, OVERHEAD, share)
    return np.asarray(clear + air[..., None] * (np.array(HAZE, np.float32) - clear))


def _raise_hills(picture: Floats, rise: Floats, bearing: Floats, pixel: np.float32) -> None:
    """Draw the hills into the sky."""
    tops = np.full_like(bearing, TALL)
    for times, deep, first in WAVES:
        tops += TALL * deep * np.sin(times * bearing + np.float32(first))
    cover = np.clip((tops - rise) / pixel + 0.5, 0, 1)
    seen = (cover > 0) & (rise > -0.01)
    hill = _mixed(FOOT, CREST, np.clip(rise[seen] / tops[seen], 0, 1))
    picture[seen] += (hill - picture[seen]) * cover[seen][:, None]
