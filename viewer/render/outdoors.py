"""Outdoors: what is seen behind a house: the sky, hills far off, and the meadow before them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..display.camera import Shot
from ..display.daylight import Daylight, Light
from ..display.landscape import BLUER, CLEARER, NEARER, TALL, WAVES
from .outdoors_kernels import Land, landscape
from .workers import in_bands

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


def behind(shot: Shot, size: tuple[int, int], day: Daylight) -> Bytes:
    """Return ``(h, w, 3)``: what a camera sees behind everything that stands on the ground.

    Args:
        shot: The camera.
        size: Width and height, pixels.
        day: The daylight.
    """
    wide, high = size
    right, up, back = shot.axes
    scale = 2 * math.tan(shot.angle(wide / high) / 2) / high
    rays = np.column_stack([right * scale, -up * scale, (up * high - right * wide) * scale / 2 - back])
    picture = np.empty((high, wide, 3), dtype=np.uint8)
    seen = (day.overhead, day.low_sky, day.haze, day.crest, day.foot, day.far, day.near)
    land = Land(*seen, TALL, np.array(WAVES), BLUER, CLEARER, NEARER)
    in_bands(lambda top, bottom: landscape(rays, land, top, bottom, picture), high)
    return picture


def _mixed(one: Light, other: Light, share: Floats) -> Floats:
    """Return colors from ``one`` to ``other`` by a share for each."""
    start = np.array(one, dtype=np.float32)
    return np.asarray(start + share[..., None] * (np.array(other, dtype=np.float32) - start))
