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
    boxes = np.array([(box.left, box.top, box.right, box.bottom) for box in taken]).reshape(-1, 4)
    total = None if busy is None else _running_sum(busy)
    leaders = np.empty((0, 4))
    anchors = np.array([want.anchors[0] for want in wants if len(want.anchors)]).reshape(-1, 2)
    order = sorted(
        range(len(wants)),
        key=lambda i: (-wants[i].priority, wants[i].anchors[0][1] if len(wants[i].anchors) else 0),
    )
    for i in order:
        spots[i] = spot = _best(wants[i], size, line, boxes, total, anchors, leaders)
        if spot is not None:
            box = np.array([spot.box.left, spot.box.top, spot.box.right, spot.box.bottom])
            boxes = np.vstack([boxes, box])
            leaders = np.vstack([leaders, [*spot.anchor, *(box[:2] + box[2:]) / 2]])
    return spots


def _best(
    want: Want,
    size: tuple[float, float],
    line: float,
    boxes: Array,
    total: Array | None,
    anchors: Array,
    leaders: Array,
) -> Spot | None:
    best, least = None, math.inf
    gap = line * 0.2
    for rank, anchor in enumerate(want.anchors[:4]):
        centers, reach = _around(anchor, want, line)
        half = np.array([want.width / 2, want.height / 2])
        tries = np.hstack([centers - half, centers + half])
        free = (tries[:, :2] >= gap).all(axis=1) & (tries[:, 2:] <= np.array(size) - gap).all(axis=1)
        whole = np.array([*tries[:, :2].min(axis=0), *tries[:, 2:].max(axis=0)])
        near = boxes[_overlap(whole[None], boxes, gap)[0]]
        free &= ~_overlap(tries, near, gap).any(axis=1)
        if not free.any():
            continue
        cost = reach + rank * line * 1.2
        others = anchors[np.abs(anchors - anchor).sum(axis=1) > 1]
        cost = cost + line * 8 * _overlap(tries, np.hstack([others, others]), gap).sum(axis=1)
        cost = cost + line * 9 * _cross(anchor, centers, leaders).sum(axis=1)
        cost = cost + line * 9 * _through(leaders, tries, 0.0).sum(axis=0)
        sights = np.hstack([np.broadcast_to(anchor, centers.shape), centers])
        cost = cost + line * 9 * _through(sights, near, 0.05).sum(axis=1)
        if total is not None:
            cost = cost + line * 12 * _covered(total, size, tries)
        cost = np.where(free, cost, np.inf)
        found = int(cost.argmin())
        if cost[found] < least:
            least = float(cost[found])
            best = Spot(Box(*tries[found].tolist()), (float(anchor[0]), float(anchor[1])))
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


def _overlap(some: Array, others: Array, gap: float) -> NDArray[np.bool_]:
    """Return which of ``(n, 4)`` boxes come closer than ``gap`` to which of ``(k, 4)`` others: ``(n, k)``."""
    one, other = some[:, None], others[None]
    apart = (one[..., :2] >= other[..., 2:] + gap) | (one[..., 2:] <= other[..., :2] - gap)
    return np.asarray(~(apart[..., 0] | apart[..., 1]))


def _cross(anchor: Array, centers: Array, leaders: Array) -> NDArray[np.bool_]:
    """Return which lines from a place to ``(n, 2)`` middles cross which of ``(k, 4)`` leaders: ``(n, k)``."""

    def turn(a: Array, b: Array, c: Array) -> Array:
        return np.asarray(
            (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1])
            - (b[..., 1] - a[..., 1]) * (c[..., 0] - a[..., 0])
        )

    start, end, middle = leaders[None, :, :2], leaders[None, :, 2:], centers[:, None]
    apart = turn(start, end, anchor) * turn(start, end, middle) < 0
    return np.asarray(apart & (turn(anchor, middle, start) * turn(anchor, middle, end) < 0))


def _through(lines: Array, boxes: Array, spared: float) -> NDArray[np.bool_]:
    """Return which of ``(n, 4)`` lines run through which of ``(k, 4)`` boxes: ``(n, k)``.

    Args:
        lines: From where to where.
        boxes: Left, top, right, bottom.
        spared: Share of a line at each end that does not count.
    """
    start, way = lines[:, None, :2], lines[:, None, 2:] - lines[:, None, :2]
    way = np.where(np.abs(way) < 1e-9, 1e-9, way)
    one, other = (boxes[None, :, :2] - start) / way, (boxes[None, :, 2:] - start) / way
    enters, leaves = np.minimum(one, other), np.maximum(one, other)
    first = np.maximum(np.maximum(enters[..., 0], enters[..., 1]), spared)
    last = np.minimum(np.minimum(leaves[..., 0], leaves[..., 1]), 1 - spared)
    return np.asarray(first < last)


def _running_sum(busy: Array) -> Array:
    """Return ``(h + 1, w + 1)`` what is above and to the left of each corner of an image's pixels."""
    total = np.zeros((busy.shape[0] + 1, busy.shape[1] + 1))
    total[1:, 1:] = busy.cumsum(axis=0).cumsum(axis=1)
    return total


def _covered(total: Array, size: tuple[float, float], boxes: Array) -> Array:
    """Return how busy the picture is under each of ``(n, 4)`` boxes, from 0 to 1, out of its running sum."""
    most = np.array([total.shape[1] - 1, total.shape[0] - 1])
    scale = most / np.array(size)
    x0, y0 = np.clip(np.round(boxes[:, :2] * scale), 0, most).astype(int).T
    x1, y1 = np.clip(np.round(boxes[:, 2:] * scale), 0, most).astype(int).T
    x1, y1 = np.maximum(x1, x0 + 1).clip(max=most[0]), np.maximum(y1, y0 + 1).clip(max=most[1])
    area = np.maximum((x1 - x0) * (y1 - y0), 1)
    return np.asarray((total[y1, x1] - total[y0, x1] - total[y1, x0] + total[y0, x0]) / area)
