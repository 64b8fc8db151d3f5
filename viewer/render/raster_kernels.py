"""Raster: which face each pixel shows and how near it is, and what lines are drawn before it.

A face is seen as far as its three sides say, in coordinates of the picture times the distance from the eye, so that
nothing need be clipped at the eye. What is compared is *nearness*: one over the distance along the line of sight, or
in parallel lines of sight the height toward the light. Both are linear in the picture: ``plane @ (x, y, 1)``.

Each kernel works on some rows of a picture and lets others work beside it: a pixel comes out the same whoever draws it.

Source: M. Olano and T. Greer, *Triangle Scan Conversion using 2D Homogeneous Coordinates* (1997). From memory.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from .compiled import inlined, kernel

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]
Bytes = NDArray[np.uint8]

SLACK = 1e-4
"""How far beyond its sides a face is drawn, pixels: so that no pixel is missed between two faces that meet."""

BEHIND = 1e-5
"""How much farther a line may be than the face that is seen there, as a share of its distance, to be on that face."""


@kernel
def _side(bx: float, by: float, bw: float, cx: float, cy: float, cw: float, turn: float) -> Any:
    """Return the side of a face across from a corner: ``a x + b y + c`` is not negative inside."""
    a, b, c = (by * cw - bw * cy) * turn, (bw * cx - bx * cw) * turn, (bx * cy - by * cx) * turn
    return a, b, c + SLACK * (abs(a) + abs(b))


@kernel
def _sides(
    ax: float, ay: float, aw: float, bx: float, by: float, bw: float, cx: float, cy: float, cw: float
) -> Any:
    """Return the three sides of a face from its corners ``(x, y)`` and their distances ``w``."""
    ax, ay, bx, by, cx, cy = ax * aw, ay * aw, bx * bw, by * bw, cx * cw, cy * cw
    size = ax * (by * cw - bw * cy) + ay * (bw * cx - bx * cw) + aw * (bx * cy - by * cx)
    turn = 1.0 if size > 0 else -1.0
    return (
        _side(bx, by, bw, cx, cy, cw, turn),
        _side(cx, cy, cw, ax, ay, aw, turn),
        _side(ax, ay, aw, bx, by, bw, turn),
    )


@kernel
def _span(side: Any, y: float, low: float, high: float) -> Any:
    """Return what a side leaves of a row from ``low`` to ``high``; of nothing, the ends lie a pixel past each other.

    A side nearly along the row crosses it farther off than the whole numbers reach that pixels are counted in.
    """
    a, rest = side[0], side[1] * y + side[2]
    if a > 0:
        return max(low, min(-rest / a, high + 1)), high
    if a < 0:
        return low, min(high, max(-rest / a, low - 1))
    return low, (high if rest >= 0 else low - 1)


@kernel
def _about(a: float, b: float, c: float, near: bool, low: int, high: int) -> Any:
    """Return the first and the last but one pixel between three corners, or ``low`` and ``high`` if one is behind."""
    if not near:
        return low, high
    first, last = min(a, b, c) - 1.0 - SLACK, max(a, b, c) + SLACK
    return max(low, math.ceil(max(first, -1.0))), min(high, math.floor(min(last, 1e6)) + 1)


@kernel
def fill(
    spots: Array,
    faces: Ints,
    planes: Array,
    limit: float,
    top: int,
    bottom: int,
    skew: float,
    shown: Ints,
    nearness: Floats,
) -> None:
    """Draw faces into the rows from ``top`` to ``bottom``; the nearest is seen.

    Args:
        spots: ``(3, n)`` corners: pixel across and down, distance from the eye; 1 for parallel lines of sight.
        faces: ``(m, 3)`` corners of each face.
        planes: ``(3, m)`` its nearness.
        limit: What is nearer than this is left off.
        top: First row.
        bottom: The row after the last.
        skew: How far right of its middle a pixel is looked at in an even row, and left of it in an odd one.
        shown: ``(h, w)`` the face that each pixel shows, to be changed; empty when only the nearness is wanted.
        nearness: ``(h, w)`` to be changed.
    """
    for face in range(faces.shape[0]):
        a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
        ax, ay, aw = spots[0, a], spots[1, a], spots[2, a]
        bx, by, bw = spots[0, b], spots[1, b], spots[2, b]
        cx, cy, cw = spots[0, c], spots[1, c], spots[2, c]
        before = aw > 0 and bw > 0 and cw > 0
        if aw <= 0 and bw <= 0 and cw <= 0:
            continue
        first, last = _about(ay, by, cy, before, top, bottom)
        left, right = _about(ax, bx, cx, before, 0, nearness.shape[1])
        if first >= last or left >= right:
            continue
        sides = _sides(ax, ay, aw, bx, by, bw, cx, cy, cw)
        slope = planes[0, face]
        for y in range(first, last):
            at = 0.5 + (skew if y % 2 == 0 else -skew)
            low, high = _span(sides[0], y + 0.5, left + at, right - 1 + at)
            low, high = _span(sides[1], y + 0.5, low, high)
            low, high = _span(sides[2], y + 0.5, low, high)
            value = slope * at + planes[1, face] * (y + 0.5) + planes[2, face]
            for x in range(math.ceil(low - at), math.floor(high - at) + 1):
                near = np.float32(value + slope * x)
                if near > nearness[y, x] and near <= limit:
                    nearness[y, x] = near
                    if shown.shape[0] > 0:
                        shown[y, x] = face


@kernel
def rule(
    ends: Array, planes: Array, width: float, top: int, bottom: int, shown: Ints, nearness: Floats, ink: Bytes
) -> None:
    """Draw lines into the rows from ``top`` to ``bottom`` where no face that is seen lies before them.

    Args:
        ends: ``(k, 2, 3)`` pixel across and down, and nearness, of both ends.
        planes: ``(3, m)`` nearness of the faces.
        width: Of a line, pixels.
        top: First row.
        bottom: The row after the last.
        shown: ``(h, w)`` the face that each pixel shows.
        nearness: ``(h, w)``.
        ink: ``(h, w)`` how much of a pixel is covered, from 0 to 255; to be changed.
    """
    reach = width / 2 + 0.5
    for line in range(ends.shape[0]):
        px, py, pn = ends[line, 0]
        dx, dy, dn = ends[line, 1] - ends[line, 0]
        length = math.hypot(dx, dy)
        if length < 1e-3 or max(py, py + dy) < top - reach or min(py, py + dy) > bottom + reach:
            continue
        steep = abs(dy) > abs(dx)
        along, across = (dy, dx) if steep else (dx, dy)
        start, begin = (py, px) if steep else (px, py)
        aside = reach * length / abs(along)
        lowest, highest = (top, bottom) if steep else (0, shown.shape[1])
        first = max(lowest, math.ceil(min(start, start + along) - reach - 0.5))
        last = min(highest, math.floor(max(start, start + along) + reach - 0.5) + 1)
        lowest, highest = (0, shown.shape[1]) if steep else (top, bottom)
        for i in range(first, last):
            middle = begin + (i + 0.5 - start) / along * across
            for j in range(
                max(lowest, math.ceil(middle - aside - 0.5)),
                min(highest, math.floor(middle + aside - 0.5) + 1),
            ):
                x, y = (j, i) if steep else (i, j)
                share = ((x + 0.5 - px) * dx + (y + 0.5 - py) * dy) / (length * length)
                share = min(max(share, 0.0), 1.0)
                sx, sy = px + share * dx, py + share * dy
                cover = reach - math.hypot(x + 0.5 - sx, y + 0.5 - sy)
                if cover > 0:
                    _cover(x, y, sx, sy, pn + share * dn, min(cover, 1.0), planes, shown, nearness, ink)


@inlined
def _cover(
    x: int,
    y: int,
    sx: float,
    sy: float,
    near: float,
    cover: float,
    planes: Array,
    shown: Ints,
    nearness: Floats,
    ink: Bytes,
) -> None:
    """Cover a pixel with ink if the point of the line nearest to it lies before the face that is seen there."""
    face = shown[y, x]
    if face < 0:
        before = near > nearness[y, x]
    else:
        before = near * (1 + BEHIND) > planes[0, face] * sx + planes[1, face] * sy + planes[2, face]
    if before:
        ink[y, x] = max(ink[y, x], np.uint8(cover * 255 + 0.5))
