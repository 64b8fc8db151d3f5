"""Columns: a face of any outline, openings included, cut along its seams into the parts that panels cover."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

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
        borders: Which borders of the face it lies on, the one that it shares the most with first; none along a seam.
            There are several where edges in one line meet within it, as rakes do where another roof's corner touches.
    """

    start: Array
    end: Array
    borders: tuple[Border, ...]

    @property
    def border(self) -> Border | None:
        """The one that says how it is made; None along a seam."""
        return self.borders[0] if self.borders else None

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
    def sides(self) -> tuple[Side, ...]:
        """All of them."""
        return self.left, self.right, *self.low, *self.high

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
    left, _, right, _ = area.bounds
    lines = _lines(borders)
    inner = [x for x in seams if left + POINT < x < right - POINT]
    bounds = np.array([left, *inner, right])
    sides = _sides(area)
    walls = _walls(sides)
    straight = _straight(sides, bounds, walls, lines)
    found = [(number, ring_low, column) for number, (ring_low, column) in straight.items()]
    others = np.array([number for number in range(len(bounds) - 1) if number not in straight], dtype=np.int64)
    found += _others(area, bounds, others, walls, lines)
    return [column for _, _, column in sorted(found, key=lambda one: one[:2])]


def hooked_corners(area: shapely.Geometry, borders: Sequence[Border]) -> list[float]:
    """Return where along the face a side begins or ends that panels hook, inches from the left.

    Args:
        area: What is to be covered.
        borders: The sides of the face.
    """
    found, lines = [], _lines(borders)
    for ring in shapely.get_rings(shapely.get_parts(area)):
        points = shapely.get_coordinates(ring)
        sides = [_side(start, end, lines) for start, end in pairwise(points)]
        hooked = [side.border is not None and side.border.ending == "hooked" for side in sides]
        found += [float(points[k, 0]) for k in range(len(sides)) if hooked[k - 1] or hooked[k]]
    return found


def _lines(borders: Sequence[Border]) -> list[_Line]:
    return [_Line.of(border) for border in borders]


def _sides(area: shapely.Geometry) -> Array:
    """Return the sides of an area, its openings' too, ``(n, 2, 2) float, inches``: from where to where."""
    rings = [shapely.get_coordinates(ring) for ring in shapely.get_rings(shapely.get_parts(area))]
    return np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])


def _walls(sides: Array) -> Array:
    """Return those of some sides that go straight up, ``(n, 3) float, inches``: where, from and to what height."""
    upright = sides[np.abs(sides[:, 1, 0] - sides[:, 0, 0]) <= POINT]
    return np.column_stack([upright[:, 0, 0], np.sort(upright[:, :, 1], axis=1)])


def _straight(
    sides: Array, bounds: Array, walls: Array, lines: Sequence[_Line]
) -> dict[int, tuple[float, Column]]:
    """Return, by number, the columns that lie between two straight sides of the area, and how low each begins.

    Args:
        sides: Of what is to be covered.
        bounds: ``(n + 1,) float, inches``: where the columns begin and end, from left to right.
        walls: Those of the sides that go straight up.
        lines: The borders.
    """
    starts, ends = sides[:, 0], sides[:, 1]
    turned = starts[:, 0] > ends[:, 0]
    first, last = np.where(turned[:, None], ends, starts), np.where(turned[:, None], starts, ends)
    left, right = bounds[:-1], bounds[1:]
    corners = starts[:, 0]
    inside = ((corners > left[:, None] + POINT) & (corners < right[:, None] - POINT)).any(axis=1)
    over = (first[:, 0] <= left[:, None] + POINT) & (last[:, 0] >= right[:, None] - POINT)
    over &= last[:, 0] - first[:, 0] > POINT
    alone = ~inside & (over.sum(axis=1) == 2)
    width = np.maximum(last[:, 0] - first[:, 0], POINT)
    rise = (last[:, 1] - first[:, 1]) / width
    beside = [_side(start, end, lines).borders for start, end in zip(first, last, strict=True)]
    found = {}
    for number in np.flatnonzero(alone).tolist():
        one, other = np.flatnonzero(over[number]).tolist()
        xs = bounds[number : number + 2]
        low, high = (np.stack([xs, first[k, 1] + (xs - first[k, 0]) * rise[k]], axis=1) for k in (one, other))
        if low[:, 1].sum() > high[:, 1].sum():
            low, high, one, other = high, low, other, one
        if (high - low)[:, 1].sum() / 2 * (xs[1] - xs[0]) <= LEAST:
            continue
        across = Side(low[0], low[1], beside[one]), Side(high[0], high[1], beside[other])
        found[number] = float(low[:, 1].min()), _between(number, across[:1], across[1:], walls, lines)
    return found


def _others(
    area: shapely.Geometry,
    bounds: Array,
    numbers: NDArray[np.int64],
    walls: Array,
    lines: Sequence[_Line],
) -> Iterator[tuple[int, float, Column]]:
    """Yield the columns of some numbers, cut out of the area whatever its shape, and how low each begins."""
    if not len(numbers):
        return
    _, low, _, high = area.bounds
    begin, end = bounds[numbers], bounds[numbers + 1]
    boxes = shapely.box(begin, low - 1, end, high + 1)
    parts, which = shapely.get_parts(shapely.intersection(area, boxes), return_index=True)
    kept = (shapely.get_type_id(parts) == POLYGON) & (shapely.area(parts) > LEAST)
    for part, at in zip(shapely.orient_polygons(parts[kept]).tolist(), which[kept].tolist(), strict=True):
        number = int(numbers[at])
        for ring in _upright(part):
            yield number, float(part.bounds[1]), _column(number, ring, walls, lines)


@dataclass(frozen=True, slots=True, eq=False)
class _Line:
    """Where a border's panels end: ``x * right + y * up = pan``, inches.

    Its edge reaches from ``first`` to ``last`` along it, as ``y * right - x * up`` tells, inches.
    """

    right: float
    up: float
    pan: float
    first: float
    last: float
    border: Border

    @staticmethod
    def of(border: Border) -> _Line:
        """Return the line of a border."""
        right, up = border.normal.tolist()
        first = float(border.along @ border.start)
        return _Line(right, up, border.pan, first, first + border.edge.length, border)

    def shared(self, *ends: tuple[float, float]) -> float:
        """Return how much of a stretch of the line is beside the edge, inches; less than 0 how far it is past it."""
        low, high = sorted(y * self.right - x * self.up for x, y in ends)
        return min(high, self.last) - max(low, self.first)


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


def _column(number: int, ring: Array, walls: Array, lines: Sequence[_Line]) -> Column:
    low, high = (tuple(_side(a, b, lines) for a, b in pairwise(chain)) for chain in _chains(ring)[:2])
    return _between(number, low, high, walls, lines)


def _between(
    number: int, low: tuple[Side, ...], high: tuple[Side, ...], walls: Array, lines: Sequence[_Line]
) -> Column:
    """Return the column between its lower and its upper sides.

    Where a seam stands on the line of a short side, as of a porch's rake, only what lies along that side is the
    border's: the column begins or ends with it, as where the seam stands beside it, and past it the seam locks.
    """
    left, right = (
        _parted(*ends, walls, lines) for ends in ((low[0].start, high[0].start), (low[-1].end, high[-1].end))
    )
    first, last = [_turned(side) for side in left[0]], [_turned(side) for side in right[2]]
    return Column(number, left[1], right[1], (*first, *low, *right[0]), (*left[2], *high, *last))


def _turned(side: Side) -> Side:
    return Side(side.end, side.start, side.borders)


def _parted(
    low: Array, high: Array, walls: Array, lines: Sequence[_Line]
) -> tuple[tuple[Side, ...], Side, tuple[Side, ...]]:
    """Return the long side of a column, and what of the face's own side lies in its line below and above it."""
    beside = np.clip(walls[np.abs(walls[:, 0] - low[0]) <= POINT, 1:], low[1], high[1])
    own = sorted(beside[beside[:, 1] - beside[:, 0] > POINT].tolist())
    if not own:
        return (), Side(low, high, ()), ()
    first, last = float(low[1]), float(high[1])
    for begin, end in own:
        first = end if begin <= first + POINT else first
    for begin, end in reversed(own):
        last = begin if end >= last - POINT else last
    if first >= last - POINT or any(first + POINT < end and begin < last - POINT for begin, end in own):
        return (), _side(low, high, lines), ()
    foot, top = (np.array([low[0], height]) for height in (first, last))
    below = (_side(low, foot, lines),) if first > low[1] + POINT else ()
    above = (_side(top, high, lines),) if last < high[1] - POINT else ()
    return below, Side(foot, top, ()), above


def _side(start: Array, end: Array, lines: Sequence[_Line]) -> Side:
    """Return a side, on the borders that it lies on: of those in one line, the ones whose edges it lies along."""
    (x0, y0), (x1, y1) = start.tolist(), end.tolist()
    x, y, across, up = (x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0
    length = math.hypot(across, up)
    if length <= POINT:
        return Side(start, end, ())
    lying = [
        line
        for line in lines
        if abs(line.right * x + line.up * y - line.pan) <= 1e-5
        and abs(across * line.right + up * line.up) <= 1e-5 * max(length, 1.0)
    ]
    shared = {line: line.shared((x0, y0), (x1, y1)) for line in lying}
    lying.sort(key=lambda line: -shared[line])
    # Where lips meet at a corner a short side may lie past the end of its edge: the nearest is its.
    own = [line for line in lying if shared[line] > POINT] or lying[:1]
    return Side(start, end, tuple(line.border for line in own))
