"""Holes: how dark perforated sheet is at each pixel of a lit picture."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from .compiled import inlined, kernel

Floats = NDArray[np.float32]
Bytes = NDArray[np.uint8]


class Perforation(NamedTuple):
    """How holes are drawn: how much of the light comes back out of one, how far rows are apart in distances, the share
    that is open of diameter by distance squared, and at which pixels, in distances, they begin and end to blur."""

    shows: float
    rows: float
    open: float
    clear: float
    blurred: float


@inlined
def through(point: Any, normal: Any, hole: float, apart: float, pixel: float, pattern: Perforation) -> float:
    """Return what share of its light a point of perforated sheet sends back.

    Args:
        point: Inches.
        normal: Unit vector.
        hole: Diameter of the holes, inches.
        apart: Distance of their middles, inches.
        pixel: How wide a pixel is there, inches.
        pattern: How holes are drawn.
    """
    level = math.sqrt(normal[0] * normal[0] + normal[1] * normal[1])
    x, y = (-normal[1] / level, normal[0] / level) if level > 1e-3 else (1.0, 0.0)
    along = point[0] * x + point[1] * y
    up = normal[2] * (point[1] * x - point[0] * y) + point[2] * (normal[0] * y - normal[1] * x)
    step = apart * pattern.rows
    row = math.floor(up / step + 0.5)
    place = along / apart + 0.5 * (row - 2 * math.floor(row / 2))
    off = (place - math.floor(place + 0.5)) * apart
    far = math.sqrt(off * off + (up - row * step) ** 2)
    crisp = min(1.0, max(0.0, (hole / 2 - far) / pixel + 0.5))
    blur = min(1.0, max(0.0, (pixel / apart - pattern.clear) / (pattern.blurred - pattern.clear)))
    cover = crisp * (1 - blur) + pattern.open * (hole / apart) ** 2 * blur
    return 1 - (1 - pattern.shows) * cover


@kernel
def pierce(
    view: Any,
    normals: Array,
    holes: Floats,
    pattern: Perforation,
    scale: Any,
    top: int,
    bottom: int,
    picture: Bytes,
) -> None:
    """Darken the holes in some rows of a lit picture.

    Args:
        view: What is seen, in twice as many rows and columns.
        normals: ``(m, 3)`` of each face.
        holes: ``(m, 2)`` diameter and distance of each face's holes, inches; 0 for none.
        pattern: How holes are drawn.
        scale: The steps of a picture's color.
        top: First row.
        bottom: The row after the last.
        picture: ``(h, w, 3)``, to be changed.
    """
    rays, place, skew = view.eye.rays, view.eye.place, view.eye.skew
    wide = math.sqrt(rays[0, 0] ** 2 + rays[1, 0] ** 2 + rays[2, 0] ** 2)
    for row in range(top, bottom):
        for column in range(picture.shape[1]):
            share = 0.0
            for part in range(4):
                v, u = 2 * row + part // 2, 2 * column + part % 2
                face = view.shown[v, u]
                if face < 0 or holes[face, 0] == 0:
                    share += 0.25
                    continue
                x, y, far = u + 0.5 + (skew if v % 2 == 0 else -skew), v + 0.5, 1 / view.nearness[v, u]
                point = (
                    place[0] + far * (rays[0, 0] * x + rays[0, 1] * y + rays[0, 2]),
                    place[1] + far * (rays[1, 0] * x + rays[1, 1] * y + rays[1, 2]),
                    place[2] + far * (rays[2, 0] * x + rays[2, 1] * y + rays[2, 2]),
                )
                normal = (normals[face, 0], normals[face, 1], normals[face, 2])
                share += 0.25 * through(point, normal, holes[face, 0], holes[face, 1], wide * far, pattern)
            if share < 1:
                for band in range(3):
                    root = math.sqrt(share * scale.linear[picture[row, column, band]])
                    picture[row, column, band] = scale.steps[int(root * (scale.steps.shape[0] - 1) + 0.5)]
