"""The front: the outline as it rises. When it next changes, and how it goes on from there."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ...geometry.arrays import Array
from .record import ALONG, NEAR, OpenRoof, PlanCorner, Sides, Trace

Piece = tuple[int, int, int]
"""From spot to spot along a side: a stretch of the front at one height."""


def corner_at(sides: Sides, before: int, after: int, node: int, place: Array, height: float) -> PlanCorner:
    """Return the corner of two sides that are not parallel."""
    (a, b), (c, d) = sides.normals[before], sides.normals[after]
    p, q = sides.speeds[before], sides.speeds[after]
    det = a * d - b * c
    return PlanCorner(
        before, after, node, place, height, np.array([(p * d - q * b) / det, (a * q - c * p) / det])
    )


def places(front: Sequence[PlanCorner], height: float) -> Array:
    """Return where the corners are at a height, ``(n, 2) float, inches``."""
    risen = height - np.array([corner.height for corner in front])
    velocities = np.array([corner.velocity for corner in front])
    return np.asarray(np.array([corner.place for corner in front]) + risen[:, None] * velocities)


def next_change(
    sides: Sides, front: Sequence[PlanCorner], following: NDArray[np.intp], height: float
) -> float:
    """Return the height at which a side next runs out or an inside corner next meets a side; inf for never.

    Args:
        sides: The lines.
        front: The corners of all loops.
        following: ``(n,)`` index of the next corner round the loop, counter-clockwise round the roof.
        height: Now, inches.
    """
    at = places(front, height)
    speed = np.array([corner.velocity for corner in front])
    before = np.array([corner.before for corner in front])
    after = np.array([corner.after for corner in front])
    along, into = sides.directions[after], sides.normals[after]
    length = ((at[following] - at) * along).sum(axis=1)
    growth = ((speed[following] - speed) * along).sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = np.where(growth < -ALONG, length / -growth, np.inf)
    soonest = float(np.maximum(ends, 0.0).min())
    turn = sides.directions[before]
    inside = np.flatnonzero(turn[:, 0] * along[:, 1] - turn[:, 1] * along[:, 0] < -ALONG)
    if inside.size:
        gap = at[inside] @ into.T - (sides.offsets[after] + sides.speeds[after] * height)
        closing = speed[inside] @ into.T - sides.speeds[after]
        with np.errstate(divide="ignore", invalid="ignore"):
            wait = np.where((gap > NEAR) & (closing < -ALONG), gap / -closing, np.inf)
        wait[wait > soonest] = np.inf
        for row, side in np.argwhere(np.isfinite(wait)):
            risen = wait[row, side]
            spot = at[inside[row]] + risen * speed[inside[row]]
            start = at[side] + risen * speed[side]
            end = at[following[side]] + risen * speed[following[side]]
            if (spot - start) @ along[side] >= -NEAR and (end - spot) @ along[side] >= -NEAR:
                soonest = min(soonest, float(risen))
    return height + soonest


def carry_on(
    sides: Sides, front: Sequence[PlanCorner], following: NDArray[np.intp], height: float, trace: Trace
) -> tuple[list[PlanCorner], NDArray[np.intp]]:
    """Return the front just above a height at which it changes, all that changes there at once.

    The front at that height is taken as lines between spots. Lines that lie on each other head-on are a
    ridge; what is left is joined again so that the roof stays on its left, which splits and joins loops.

    Raises:
        OpenRoof: Two sides in line, of unequal pitch, have come to one height.
    """
    spots, spot_of = _spots(places(front, height))
    pieces, ridges = _meeting(_pieces(front, following, spots, spot_of))
    node_of: dict[int, int] = {}

    def node(spot: int) -> int:
        if spot not in node_of:
            node_of[spot] = trace.node(spots[spot], height)
        return node_of[spot]

    for start, end, left, right in ridges:
        trace.draw(node(end), node(start), left, right)
    alone = {
        spot: corner
        for spot, corner in zip(spot_of, front, strict=True)
        if np.count_nonzero(spot_of == spot) == 1
    }
    kept: set[int] = set()
    at_end: list[PlanCorner | None] = [None] * len(pieces)
    onward = [0] * len(pieces)
    for spot, pairs in _joined(sides, pieces).items():
        for one, two in pairs:
            before, after = pieces[one][2], pieces[two][2]
            onward[one] = two
            old = alone.get(spot)
            if old is not None and len(pairs) == 1 and (old.before, old.after) == (before, after):
                at_end[one] = old
                kept.add(spot)
            elif not _in_line(sides, before, after, spots[spot], trace):
                at_end[one] = corner_at(sides, before, after, node(spot), spots[spot], height)
    for spot, corner in zip(spot_of, front, strict=True):
        if spot not in kept:
            trace.draw(corner.node, node(int(spot)), corner.before, corner.after)
    return _front_of(at_end, onward)


def _spots(at: Array) -> tuple[Array, NDArray[np.intp]]:
    """Return places without doubles, ``(m, 2)``, and for each corner which of them it is at."""
    near = np.abs(at[:, None] - at[None]).max(axis=2) <= NEAR
    while True:
        wider = near @ near
        if (wider == near).all():
            break
        near = wider
    first, spot_of = np.unique(near.argmax(axis=1), return_inverse=True)
    return at[first], spot_of


def _pieces(
    front: Sequence[PlanCorner],
    following: NDArray[np.intp],
    spots: Array,
    spot_of: NDArray[np.intp],
) -> list[Piece]:
    """Return the front as lines from spot to spot, each split where another spot lies on it."""
    pieces: list[Piece] = []
    for k, corner in enumerate(front):
        start, end = int(spot_of[k]), int(spot_of[following[k]])
        if start == end:
            continue
        from_start = spots - spots[start]
        way = spots[end] - spots[start]
        length = math.hypot(*way)
        share = from_start @ way / length
        aside = np.abs(from_start @ np.array([way[1], -way[0]])) / length
        on = np.flatnonzero((aside <= NEAR) & (share > NEAR) & (share < length - NEAR))
        stops = [start, *(int(i) for i in on[np.argsort(share[on])]), end]
        pieces += [(a, b, corner.after) for a, b in pairwise(stops)]
    return pieces


def _meeting(pieces: list[Piece]) -> tuple[list[Piece], list[tuple[int, int, int, int]]]:
    """Return the pieces that go on, and those that meet head-on: from, to, the side so directed, the other."""
    free: dict[tuple[int, int], list[int]] = defaultdict(list)
    met: set[int] = set()
    ridges = []
    for number, (start, end, side) in enumerate(pieces):
        if free[end, start]:
            other = free[end, start].pop()
            met |= {number, other}
            ridges.append((start, end, side, pieces[other][2]))
        else:
            free[start, end].append(number)
    return [piece for number, piece in enumerate(pieces) if number not in met], ridges


def _joined(sides: Sides, pieces: Sequence[Piece]) -> dict[int, list[tuple[int, int]]]:
    """Return for each spot which piece goes on as which: the first one clockwise, so that the roof is between."""
    arriving: dict[int, list[int]] = defaultdict(list)
    leaving: dict[int, list[int]] = defaultdict(list)
    for number, (start, end, _) in enumerate(pieces):
        leaving[start].append(number)
        arriving[end].append(number)
    directions = sides.directions
    joined: dict[int, list[tuple[int, int]]] = {}
    for spot, ones in arriving.items():
        choices = leaving[spot]
        ways = directions[[pieces[number][2] for number in choices]]
        joined[spot] = [(one, first_clockwise(-directions[pieces[one][2]], choices, ways)) for one in ones]
    return joined


def first_clockwise(back: Array, choices: Sequence[int], ways: Array) -> int:
    """Return which of the choices one comes to first, turning clockwise from the way back.

    Args:
        back: ``(2,)``.
        choices: What can be chosen.
        ways: ``(n, 2)`` their directions.
    """
    if len(choices) == 1:
        return choices[0]
    turned = np.arctan2(
        back[1] * ways[:, 0] - back[0] * ways[:, 1], back[0] * ways[:, 0] + back[1] * ways[:, 1]
    )
    return choices[int(np.where(turned <= ALONG, turned + math.tau, turned).argmin())]


def _in_line(sides: Sides, before: int, after: int, at: Array, trace: Trace) -> bool:
    """Return whether two sides go on in one line, and make one face of them if they are two.

    Raises:
        OpenRoof: They lie in one line, but not in one plane.
    """
    if before == after:
        return True
    one, two = sides.normals[before], sides.normals[after]
    if abs(one[0] * two[1] - one[1] * two[0]) > ALONG or one @ two < 0:
        return False
    if abs(sides.speeds[before] - sides.speeds[after]) > ALONG:
        raise OpenRoof("jog", tuple(sorted((before, after))), at)
    trace.unite(before, after)
    return True


def _front_of(
    at_end: Sequence[PlanCorner | None], onward: Sequence[int]
) -> tuple[list[PlanCorner], NDArray[np.intp]]:
    """Return the corners and which follows which, from the pieces that end at them or run on in line."""
    front = [corner for corner in at_end if corner is not None]
    number = {id(corner): k for k, corner in enumerate(front)}
    following = np.zeros(len(front), dtype=np.intp)
    for piece, corner in enumerate(at_end):
        if corner is None:
            continue
        ahead = onward[piece]
        while at_end[ahead] is None:
            ahead = onward[ahead]
        following[number[id(corner)]] = number[id(at_end[ahead])]
    return front, following


def loops(rings: Iterable[int]) -> NDArray[np.intp]:
    """Return which corner follows which, in rings of these many corners each, one after the other."""
    following: list[int] = []
    for size in rings:
        first = len(following)
        following += [*range(first + 1, first + size), first]
    return np.array(following, dtype=np.intp)
