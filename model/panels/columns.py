"""Columns: a face of any outline, openings included, cut along its seams into the parts that panels cover."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..tolerances import POINT
from .flat import Border

POLYGON = 3
"""What the geometry library calls a polygon."""

LEAST = 0.05
"""A part with less area than this, square inches, is a sliver of arithmetic and no metal."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """A straight piece of a part's edge.

    Attributes:
        start: ``(2,)``.
        end: ``(2,)``.
        border: Which border of the face it lies on; None along a seam.
    """

    start: Array
    end: Array
    border: Border | None

    @property
    def length(self) -> float:
        """Inches."""
        across, up = (self.end - self.start).tolist()
        return math.hypot(across, up)


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """One panel's part of a face, as it covers it: between seams and folds.

    Attributes:
        number: Which column of the face, from 0 at the left.
        left: Its left side, from low to high; a part that ends in a point has one without length.
        right: The same.
        low: Its lower sides, from left to right.
        high: Its upper sides, from left to right.
    """

    number: int
    left: Side
    right: Side
    low: tuple[Side, ...]
    high: tuple[Side, ...]

    @property
    def ring(self) -> Array:
        """``(n, 2)`` corners, counter-clockwise."""
        ring = [side.start for side in self.low] + [self.low[-1].end]
        ring += [side.end for side in self.high[::-1]] + [self.high[0].start]
        points = np.array(ring)
        before = np.concatenate([points[-1:], points[:-1]])
        return np.asarray(points[np.abs(points - before).max(axis=1) > POINT])


def cut_columns(area: shapely.Geometry, seams: Sequence[float], borders: Sequence[Border]) -> list[Column]:
    """Return the parts of an area between its seams, column by column, the lowest part first.

    A part whose lower or upper edge turns back under itself is cut once more, at the corner where it does.
    """
    if area.is_empty:
        return []
    left, low, right, high = area.bounds
    bounds = [left - 1, *(x for x in seams if left + POINT < x < right - POINT), right + 1]
    boxes = shapely.box(np.array(bounds[:-1]), low - 1, np.array(bounds[1:]), high + 1)
    parts, numbers = shapely.get_parts(shapely.intersection(area, boxes), return_index=True)
    kept = (shapely.get_type_id(parts) == POLYGON) & (shapely.area(parts) > LEAST)
    parts, numbers = shapely.orient_polygons(parts[kept]), numbers[kept]
    order = np.lexsort([shapely.bounds(parts)[:, 1], numbers])
    lines = [
        _Line(float(border.normal[0]), float(border.normal[1]), border.pan, border) for border in borders
    ]
    return [
        _column(number, ring, lines)
        for part, number in zip(parts[order].tolist(), numbers[order].tolist(), strict=True)
        for ring in _upright(part)
    ]


@dataclass(frozen=True, slots=True)
class _Line:
    """Where a border's panels end: ``x * right + y * up = pan``, inches."""

    right: float
    up: float
    pan: float
    border: Border


def _polygons(geometry: shapely.Geometry) -> list[shapely.Polygon]:
    return [part for part in shapely.get_parts(geometry) if part.geom_type == "Polygon"]


def _upright(part: shapely.Polygon) -> Iterator[Array]:
    """Yield ``(n, 2)`` rings, counter-clockwise as the part is, whose lower and upper edges never turn back."""
    if part.interiors:
        x = (part.interiors[0].bounds[0] + part.interiors[0].bounds[2]) / 2
        yield from _split(part, x)
        return
    ring = shapely.get_coordinates(part)[:-1]
    ring = ring[np.hypot(*(ring - np.roll(ring, 1, axis=0)).T) > POINT]
    if len(ring) < 3:
        return
    low, high, left, right = _chains(ring)
    for chain in (low, high):
        back = np.flatnonzero(np.diff(chain[:, 0]) < -POINT)
        if len(back):
            yield from _split(part, float(chain[back[0], 0]))
            return
    for side, notch in ((left, left[:, 0].max()), (right, right[:, 0].min())):
        if abs(notch - side[0, 0]) > POINT:
            yield from _split(part, float(notch))
            return
    yield ring


def _split(part: shapely.Polygon, x: float) -> Iterator[Array]:
    left, low, right, high = part.bounds
    for box in (shapely.box(left - 1, low - 1, x, high + 1), shapely.box(x, low - 1, right + 1, high + 1)):
        for half in _polygons(shapely.intersection(part, box)):
            if half.area > LEAST:
                yield from _upright(shapely.orient_polygons(half))


def _chains(ring: Array) -> tuple[Array, Array, Array, Array]:
    """Return the lower and the upper edge of a ring, from left to right, and what joins them left and right."""
    points = ring.tolist()
    xs = [x for x, _ in points]
    lefts = [k for k, x in enumerate(xs) if x <= min(xs) + POINT]
    rights = [k for k, x in enumerate(xs) if x >= max(xs) - POINT]

    def height(k: int) -> float:
        return float(points[k][1])

    left_low, left_high = min(lefts, key=height), max(lefts, key=height)
    right_low, right_high = min(rights, key=height), max(rights, key=height)
    return (
        _walk(ring, left_low, right_low),
        _walk(ring, right_high, left_high)[::-1],
        _walk(ring, left_high, left_low),
        _walk(ring, right_low, right_high),
    )


def _walk(ring: Array, first: int, last: int) -> Array:
    """Return the corners from ``first`` to ``last``, counter-clockwise."""
    if first <= last:
        return ring[first : last + 1]
    return np.concatenate([ring[first:], ring[: last + 1]])


def _column(number: int, ring: Array, lines: Sequence[_Line]) -> Column:
    low, high, _, _ = _chains(ring)
    return Column(
        number,
        _side(low[0], high[0], lines),
        _side(low[-1], high[-1], lines),
        tuple(_side(a, b, lines) for a, b in pairwise(low)),
        tuple(_side(a, b, lines) for a, b in pairwise(high)),
    )


def _side(start: Array, end: Array, lines: Sequence[_Line]) -> Side:
    """Return a side, on the border that it lies on."""
    (x0, y0), (x1, y1) = start.tolist(), end.tolist()
    x, y, across, up = (x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0
    length = math.hypot(across, up)
    if length > POINT:
        for line in lines:
            on = abs(line.right * x + line.up * y - line.pan) <= 1e-5
            if on and abs(across * line.right + up * line.up) <= 1e-5 * max(length, 1.0):
                return Side(start, end, line.border)
    return Side(start, end, None)
