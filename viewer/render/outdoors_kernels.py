"""Outdoors: what each pixel shows of the sky, the hills and the meadow behind a house.

The kernel works on some rows of a picture and lets others work beside it.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from .compiled import inlined, kernel

Bytes = NDArray[np.uint8]


class Land(NamedTuple):
    """A landscape: colors of the screen from 0 to 1; the hills' height over the horizon and ``(k, 3)`` waves; how fast
    the sky turns blue, the haze ends and the meadow comes near."""

    overhead: tuple[float, float, float]
    low_sky: tuple[float, float, float]
    haze: tuple[float, float, float]
    crest: tuple[float, float, float]
    foot: tuple[float, float, float]
    far: tuple[float, float, float]
    near: tuple[float, float, float]
    tall: float
    waves: Array
    bluer: float
    clearer: float
    nearer: float


@kernel
def landscape(rays: Array, land: Land, top: int, bottom: int, picture: Bytes) -> None:
    """Paint some rows of a picture with what is seen behind everything that stands on the ground.

    Args:
        rays: ``(3, 3)``: the line of sight of a pixel is ``rays @ (x, y, 1)``; a pixel is as wide as its first column.
        land: What is there.
        top: First row.
        bottom: The row after the last.
        picture: ``(h, w, 3)``, to be changed.
    """
    pixel = math.sqrt(rays[0, 0] ** 2 + rays[1, 0] ** 2 + rays[2, 0] ** 2)
    for row in range(top, bottom):
        for column in range(picture.shape[1]):
            x, y = column + 0.5, row + 0.5
            east = rays[0, 0] * x + rays[0, 1] * y + rays[0, 2]
            north = rays[1, 0] * x + rays[1, 1] * y + rays[1, 2]
            up = rays[2, 0] * x + rays[2, 1] * y + rays[2, 2]
            rise = up / math.sqrt(east * east + north * north)
            if rise < 0:
                color = _between(land.far, land.near, 1 - math.exp(land.nearer * rise))
            else:
                color = _sky(land, rise)
                if rise < 2 * land.tall:
                    tops = _crest(land, math.atan2(east, north))
                    cover = min(max((tops - rise) / pixel + 0.5, 0.0), 1.0)
                    color = _between(color, _between(land.foot, land.crest, min(rise / tops, 1.0)), cover)
            for band in range(3):
                picture[row, column, band] = int(255 * color[band] + 0.5)


@inlined
def _sky(land: Land, rise: float) -> Any:
    """Return the sky where a line of sight rises so."""
    clear = _between(land.low_sky, land.overhead, 1 - math.exp(-land.bluer * rise))
    return _between(clear, land.haze, math.exp(-land.clearer * rise))


@inlined
def _crest(land: Land, bearing: float) -> float:
    """Return how high the hills stand in a direction."""
    tops = land.tall
    for wave in range(land.waves.shape[0]):
        times, deep, first = land.waves[wave, 0], land.waves[wave, 1], land.waves[wave, 2]
        tops += land.tall * deep * math.sin(times * bearing + first)
    return tops


@inlined
def _between(one: Any, other: Any, share: float) -> Any:
    """Return the color that has a share of the other in it."""
    return (
        one[0] + share * (other[0] - one[0]),
        one[1] + share * (other[1] - one[1]),
        one[2] + share * (other[2] - one[2]),
    )
