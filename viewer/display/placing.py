"""Placing: where in a picture each text goes, so that none covers another one or what it speaks of."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

ANGLES = np.arange(24) * (math.pi / 12)
REACHES = np.array([0.6, 1.0, 1.6, 2.4, 3.4, 4.6, 6.0, 7.6, 9.5])
"""Distances from a place to its text's box, in heights of a line."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in the picture, pixels from its upper left corner."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, x: float, y: float) -> bool:
        """Return whether a point is in it."""
        return self.left <= x <= self.right and self.top <= y <= self.bottom

    def overlaps(self, other: Box, gap: float = 0.0) -> bool:
        """Return whether two boxes come closer than ``gap``."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )


@dataclass(frozen=True, slots=True, eq=False)
class Want:
    """A text that wants a place.

    Attributes:
        anchors: ``(k, 2)`` pixels: places that it may point at, the best first; none when all are hidden.
        width: Of its box, pixels.
        height: Of its box.
        priority: The higher, the sooner it is placed.
        on_anchor: It may lie right on its place.
    """

    anchors: Array
    width: float
    height: float
    priority: int
    on_anchor: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a text goes: its box and the place that its leader points at."""

    box: Box
    anchor: tuple[float, float]


def place(
    wants: Sequence[Want],
    size: tuple[float, float],
    line: float,
    taken: Sequence[Box] = (),
    busy: Array | None = None,
) -> list[Spot | None]:
    """Return a spot for each text, or None where none is free.

    Args:
        wants: The texts.
        size: Width and height that they must stay in, pixels.
        line: Height of a line of text, pixels: the measure for all distances.
        taken: Boxes that must stay free.
        busy: ``(h, w)`` from 0 to 1: how much each part of the picture shows; texts keep to quiet parts.
    """
    spots: list[Spot | None] = [None] * len(wants)
    boxes = list(taken)
    total = None if busy is None else _running_sum(busy)
    leaders: list[tuple[Array, Array]] = []
    anchors = np.array([want.anchors[0] for want in wants if len(want.anchors)]).reshape(-1, 2)
    order = sorted(
        range(len(wants)),
        key=lambda i: (-wants[i].priority, wants[i].anchors[0][1] if len(wants[i].anchors) else 0),
    )
    for i in order:
        spot = _best(wants[i], size, line, boxes, total, anchors, leaders)
        if spot is not None:
            spots[i] = spot
            boxes.append(spot.box)
            middle = np.array([(spot.box.left + spot.box.right) / 2, (spot.box.top + spot.box.bottom) / 2])
            leaders.append((np.array(spot.anchor), middle))
    return spots


def _best(
    want: Want,
    size: tuple[float, float],
    line: float,
    boxes: list[Box],
    total: Array | None,
    anchors: Array,
    leaders: list[tuple[Array, Array]],
) -> Spot | None:
    best, least = None, math.inf
    for rank, anchor in enumerate(want.anchors[:4]):
        centers, reach = _around(anchor, want, line)
        left, top = centers[:, 0] - want.width / 2, centers[:, 1] - want.height / 2
        right, bottom = left + want.width, top + want.height
        gap = line * 0.2
        free = (left >= gap) & (top >= gap) & (right <= size[0] - gap) & (bottom <= size[1] - gap)
        for box in boxes:
            free &= (
                (left >= box.right + gap)
                | (right <= box.left - gap)
                | (top >= box.bottom + gap)
                | (bottom <= box.top - gap)
            )
        if not free.any():
            continue
        cost = reach * 1.0 + rank * line * 1.2
        for x, y in anchors:
            if abs(x - anchor[0]) + abs(y - anchor[1]) > 1:
                over = (left < x + gap) & (right > x - gap) & (top < y + gap) & (bottom > y - gap)
                cost = cost + over * line * 8
        for start, end in leaders:
            cost = cost + _crossing(anchor, centers, start, end) * line * 9
            cost = cost + _through(start, end, left, top, right, bottom) * line * 9
        for box in boxes:
            cost = cost + _hits(anchor, centers, box) * line * 9
        if total is not None:
            cost = cost + _covered(total, size, left, top, right, bottom) * line * 12
        cost = np.where(free, cost, np.inf)
        found = int(cost.argmin())
        if cost[found] < least:
            least = float(cost[found])
            box = Box(float(left[found]), float(top[found]), float(right[found]), float(bottom[found]))
            best = Spot(box, (float(anchor[0]), float(anchor[1])))
    return best


def _around(anchor: Array, want: Want, line: float) -> tuple[Array, Array]:
    """Return ``(n, 2)`` middles that the box may have round its place, and how far off each is."""
    ways = np.stack([np.cos(ANGLES), np.sin(ANGLES)], axis=1)
    half = np.array([want.width / 2, want.height / 2])
    with np.errstate(divide="ignore"):
        rim = np.min(half / np.maximum(np.abs(ways), 1e-9), axis=1)
    reaches = REACHES * line
    offs = ways[None] * (rim[None, :, None] + reaches[:, None, None])
    centers = anchor + offs.reshape(-1, 2)
    away = np.repeat(reaches, len(ANGLES))
    if want.on_anchor:
        centers, away = np.concatenate([anchor[None], centers]), np.concatenate([[0.0], away])
    return centers, away


def _crossing(anchor: Array, centers: Array, start: Array, end: Array) -> NDArray[np.bool_]:
    """Return whether the leaders from a place to ``(n, 2)`` middles cross the line from start to end."""

    def turn(a: Array, b: Array, c: Array) -> Array:
        return (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (
            c[..., 0] - a[..., 0]
        )

    apart = turn(start, end, anchor) * turn(start, end, centers) < 0
    return np.asarray(apart & (turn(anchor, centers, start) * turn(anchor, centers, end) < 0))


def _hits(anchor: Array, centers: Array, box: Box) -> NDArray[np.bool_]:
    """Return whether the leaders from a place to ``(n, 2)`` middles run through a box."""
    shares = np.linspace(0.05, 0.95, 12)[:, None, None]
    points = anchor + shares * (centers - anchor)
    within = (
        (points[..., 0] > box.left)
        & (points[..., 0] < box.right)
        & (points[..., 1] > box.top)
        & (points[..., 1] < box.bottom)
    )
    return np.asarray(within.any(axis=0))


def _through(
    start: Array, end: Array, left: Array, top: Array, right: Array, bottom: Array
) -> NDArray[np.bool_]:
    """Return whether the line from start to end runs through each of ``(n,)`` boxes."""
    points = start + np.linspace(0.0, 1.0, 16)[:, None] * (end - start)
    x, y = points[:, :1], points[:, 1:]
    return np.asarray(((x > left) & (x < right) & (y > top) & (y < bottom)).any(axis=0))


def _running_sum(busy: Array) -> Array:
    """Return ``(h + 1, w + 1)`` what is above and to the left of each corner of an image's pixels."""
    total = np.zeros((busy.shape[0] + 1, busy.shape[1] + 1))
    total[1:, 1:] = busy.cumsum(axis=0).cumsum(axis=1)
    return total


def _covered(
    total: Array, size: tuple[float, float], left: Array, top: Array, right: Array, bottom: Array
) -> Array:
    """Return how busy the picture is under each of ``(n,)`` boxes, from 0 to 1, out of its running sum."""
    high, wide = total.shape[0] - 1, total.shape[1] - 1
    x0, x1 = (np.clip(np.round(x / size[0] * wide), 0, wide).astype(int) for x in (left, right))
    y0, y1 = (np.clip(np.round(y / size[1] * high), 0, high).astype(int) for y in (top, bottom))
    x1, y1 = np.maximum(x1, x0 + 1).clip(max=wide), np.maximum(y1, y0 + 1).clip(max=high)
    area = np.maximum((x1 - x0) * (y1 - y0), 1)
    return np.asarray((total[y1, x1] - total[y0, x1] - total[y1, x0] + total[y0, x0]) / area)
