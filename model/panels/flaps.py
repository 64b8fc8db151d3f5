"""Flaps along the ends of a panel: how wide each is, and how its sides draw in to clear what is folded beside it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..sheet.sheet import Tab
from ..tolerances import POINT
from .columns import Side
from .flat import ROUND

ENGAGED = 3 / 4
"""How far the turned edge lies under the lip. Source: CDA 9.7, UFGS 07600 3.1.15 (pub)."""

HOOK = ROUND + ENGAGED
"""Width of what is turned in under the lip, inches."""

MARGIN = 1 / 64
"""How far a flap stops short of the bends beside it, inches: as close as snips go."""

NARROWEST = 1 / 4
"""A flap whose sides draw in is left at least this wide at its tip, inches: narrower, and tongs find no hold."""

STEEPEST = math.radians(80)
"""A hook is cut back at most so far off square."""


def miter_of(side: Side, at: int, sign: float) -> float:
    """Return how far hooks draw in for each inch out where an end meets a hooked edge: 1 where they are square.

    Args:
        side: The end's side there.
        at: 0 at the left edge, 1 at the right edge.
        sign: -1 at the low end, 1 at the high end.
    """
    rise = math.atan2(*(side.end - side.start)[::-1].tolist()) * sign * (1.0 if at == 0 else -1.0)
    return 1.0 / math.tan((math.pi / 2 + rise) / 2)


def tapers_of(first: Side | None, second: Side | None, sign: float) -> tuple[float, float]:
    """Return how far the flaps of two sides draw in for each inch out, so that they clear each other on the sheet."""
    turn = _turn(first, second) * sign
    if first is None or second is None or turn <= POINT:
        return 0.0, 0.0
    if _are_hooked(first, second):
        return _shared(first, second, turn)
    return (math.tan(turn / 2) + 2 * MARGIN,) * 2


def hooks_apart(first: Side | None, second: Side | None, sign: float) -> tuple[float, float]:
    """Return how far the hooks of two sides draw in for each inch, so that they clear each other under the pan."""
    turn = -_turn(first, second) * sign
    if first is None or second is None or turn <= POINT or not _are_hooked(first, second):
        return 0.0, 0.0
    return _shared(first, second, turn)


def _are_hooked(*sides: Side) -> bool:
    return all(side.border is not None and side.border.ending == "hooked" for side in sides)


def _shared(first: Side, second: Side, turn: float) -> tuple[float, float]:
    """Return how far the hooks of two sides draw in at their corner, for each inch.

    Both are cut on the line that halves it; but beside a side too short for that the longer one gives way, so that the
    hook of the shorter one keeps its width.
    """
    short, long = sorted((first.length, second.length))
    least = max(math.atan(short / (2 * HOOK)), turn - STEEPEST)
    if least > turn / 2 or 2 * HOOK * math.tan(turn - least) > long:
        least = turn / 2
    near, far = (math.tan(angle) + 2 * MARGIN for angle in (least, turn - least))
    return (near, far) if first.length < second.length else (far, near)


def _turn(first: Side | None, second: Side | None) -> float:
    """Return how far one side turns to the left from the one before it, radians; 0 where there is none."""
    if first is None or second is None or not first.length or not second.length:
        return 0.0
    one, other = ((side.end - side.start) / side.length for side in (first, second))
    return math.atan2(float(one[0] * other[1] - one[1] * other[0]), float(one @ other))


def within(
    hinge: Array, width: float, sign: float, draws: tuple[float, float], sheet: float
) -> tuple[float, float]:
    """Return how far the sides of a flap draw in so that it stands out no farther than the sheet is wide.

    Args:
        hinge: ``(2, 2) float, inches``: its fold line, from left to right.
        width: How far it stands out, inches.
        sign: Which way along ``u`` it stands out.
        draws: How its two sides draw in else: inches in for each inch out.
        sheet: Width of the sheet, inches.
    """
    along = (hinge[1] - hinge[0]) / np.linalg.norm(hinge[1] - hinge[0])
    away = np.array([-along[1], along[0]])
    away = away if away[0] * sign > 0 else -away
    if along[1] < POINT:
        return draws
    left = (-float(hinge[0, 1]) / width - float(away[1])) / float(along[1])
    right = (float(away[1]) - (sheet - float(hinge[1, 1])) / width) / float(along[1])
    return max(draws[0], left), max(draws[1], right)


def flap(
    strip: int,
    hinge: Array,
    width: float,
    sign: float,
    angle: float,
    draws: Sequence[float] = (0.0, 0.0),
    on: Tab | None = None,
) -> Tab:
    """Return a flap beyond a fold line.

    Args:
        strip: The strip that it hangs on.
        hinge: ``(2, 2) float, inches``: its fold line.
        width: How far it stands out, inches; less where its sides would meet before.
        sign: Which way along ``u`` it stands out.
        angle: How far it is folded away from the painted side, radians.
        draws: How its two sides draw in: inches in for each inch out.
        on: The flap that it hangs on.
    """
    start, end = hinge
    length = float(np.linalg.norm(end - start))
    along = (end - start) / length
    left = min(length / 10, NARROWEST)
    width = min(width, (length - left) / max(sum(draws), POINT))
    away = np.array([along[1], -along[0]]) * sign
    outer = np.array([end + (away - along * draws[1]) * width, start + (away + along * draws[0]) * width])
    return Tab(strip, hinge, outer, angle, on)
