"""Columns: a face of any outline, openings included, cut along its seams into the parts that panels cover."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..tolerances import POINT
from .flat import Border

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
        return float(np.linalg.norm(self.end - self.start))


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
        kept = [corner for i, corner in enumerate(ring) if np.abs(corner - ring[i - 1]).max() > POINT]
        return np.array(kept)


def cut_columns(area: shapely.Geometry, seams: Sequence[float], borders: Sequence[Border]) -> list[Column]:
    """Return the parts of an area between its seams, column by column, the lowest part first.

    A part whose lower or upper edge turns back under itself is cut once more, at the corner where it does.
    """
    if area.is_empty:
        return []
    left, low, right, high = area.bounds
    bounds = [left - 1, *(x for x in seams if left + POINT < x < right - POINT), right + 1]
    boxes = shapely.box(np.array(bounds[:-1]), low - 1, np.array(bounds[1:]), high + 1)
    columns = []
    for number, cut in enumerate(shapely.intersection(area, boxes).tolist()):
        parts = [part for part in _polygons(cut) if part.area > LEAST]
        parts.sort(key=lambda part: part.bounds[1])
        columns += [_column(number, ring, borders) for part in parts for ring in _upright(part)]
    return columns


def _polygons(geometry: shapely.Geometry) -> list[shapely.Polygon]:
    return [part for part in shapely.get_parts(geometry) if part.geom_type == "Polygon"]


def _upright(part: shapely.Polygon) -> Iterator[Array]:
    """Yield ``(n, 2)`` rings, counter-clockwise, whose lower and upper edges never turn back."""
    if part.interiors:
        x = (part.interiors[0].bounds[0] + part.interiors[0].bounds[2]) / 2
        yield from _split(part, x)
        return
    ring = shapely.get_coordinates(shapely.orient_polygons(part))[:-1]
    ring = ring[np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) > POINT]
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
                yield from _upright(half)


def _chains(ring: Array) -> tuple[Array, Array, Array, Array]:
    """Return the lower and the upper edge of a ring, from left to right, and what joins them left and right."""
    x, y = ring.T
    lefts, rights = np.flatnonzero(x <= x.min() + POINT), np.flatnonzero(x >= x.max() - POINT)
    at = {
        "left low": lefts[y[lefts].argmin()],
        "left high": lefts[y[lefts].argmax()],
        "right low": rights[y[rights].argmin()],
        "right high": rights[y[rights].argmax()],
    }
    return (
        _walk(ring, at["left low"], at["right low"]),
        _walk(ring, at["right high"], at["left high"])[::-1],
        _walk(ring, at["left high"], at["left low"]),
        _walk(ring, at["right low"], at["right high"]),
    )


def _walk(ring: Array, first: int, last: int) -> Array:
    """Return the corners from ``first`` to ``last``, counter-clockwise."""
    count = (last - first) % len(ring) + 1
    return ring[(first + np.arange(count)) % len(ring)]


def _column(number: int, ring: Array, borders: Sequence[Border]) -> Column:
    low, high, _, _ = _chains(ring)
    return Column(
        number,
        _side(low[0], high[0], borders),
        _side(low[-1], high[-1], borders),
        tuple(_side(a, b, borders) for a, b in pairwise(low)),
        tuple(_side(a, b, borders) for a, b in pairwise(high)),
    )


def _side(start: Array, end: Array, borders: Sequence[Border]) -> Side:
    """Return a side, on the border that it lies on."""
    middle, way = (start + end) / 2, end - start
    length = float(np.linalg.norm(way))
    for border in borders:
        on = abs(border.normal @ middle - border.pan) <= 1e-5
        if on and length > POINT and abs(way @ border.normal) <= 1e-5 * max(length, 1.0):
            return Side(start, end, border)
    return Side(start, end, None)
