"""Where a rule hooks on a formed piece: places across it told from the bend, fold or edge that is nearest to hand.

Outside of a bend a rule reads from the corner that the two faces would meet in; inside of one it stops at the inner
corner; over a fold it hooks on what stands out farthest. Where a bend is so flat that nothing holds the rule, the other
side of the leg is measured from.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from trimwright.model.message import Length, Message, Value, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.profiles.section import Leg, Section

FOLDED = math.radians(150)
"""A bend from here on is a fold: a rule hooks over it."""

HOLDS = math.radians(60)
"""A bend from here on stops a rule."""

WITHIN = 1 / 32
"""A place this near to a bend is at the bend, inches."""


@dataclass(frozen=True, slots=True)
class Hook:
    """One side of a leg, as a rule finds it.

    Attributes:
        at: ``v`` that a rule laid on the leg reads as nothing, inches: the leg is thought flat on beyond the bend.
        says: How far a place lies from it, with a place for ``far``.
        firm: How well a rule holds there: 2 hooks over it, 1 stops at it, 0 has nothing to hold.
    """

    at: float
    says: Message
    firm: int


def from_hook(section: Section, v: float) -> Message | None:
    """Return a place across the formed piece as a rule reads it; None at a bend, which needs no rule.

    Args:
        section: The section.
        v: The place on the flat sheet, inches from the inboard edge.
    """
    for leg in section.legs:
        first, last = float(section.v[leg.strip]), float(section.v[leg.strip + 1])
        if first - WITHIN <= v <= last + WITHIN:
            break
    else:
        return None
    free_first, free_last = leg.strip == 0, leg.strip == section.strips - 1
    if (v <= first + WITHIN and not free_first) or (v >= last - WITHIN and not free_last):
        return None
    inner, outer = _hook(section, leg, inner=True), _hook(section, leg, inner=False)
    hook = outer if outer.firm > inner.firm else inner
    far = abs(v - hook.at)
    if far < WITHIN:
        return None
    values: dict[str, Value] = dict(hook.says.values)
    return hook.says.filled(**(values | {"far": Length(far)}))


def outer_edges(section: Section) -> list[tuple[float, float]]:
    """Return for every bend where the legs before and after it reach to on the outside of the bend, ``v`` in inches."""
    found = []
    for bend, before, after in zip(section.bends, section.legs, section.legs[1:], strict=False):
        outside = math.copysign(1.0, bend.angle)
        first = float(section.v[before.strip + 1]) + _reach(
            section, before, after, bend.angle, False, outside
        )
        last = float(section.v[after.strip]) - _reach(section, after, before, bend.angle, True, outside)
        found.append((first, last))
    return found


def _hook(section: Section, leg: Leg, inner: bool) -> Hook:
    """Return the inboard or the outboard side of a leg."""
    number = section.legs.index(leg)
    line = leg.strip if inner else leg.strip + 1
    at, far = float(section.v[line]), Length(0.0)
    if number == (0 if inner else len(section.legs) - 1):
        edge = message("{far} from edge", far=far)
        return Hook(at, edge, 2)
    bend = section.bends[number - 1 if inner else number]
    other = section.legs[number - 1 if inner else number + 1]
    reach = _reach(section, leg, other, bend.angle, inner, 1.0)
    away = -1.0 if inner else 1.0
    if abs(bend.angle) >= FOLDED:
        says = (
            message("{far} from nose", far=far)
            if "return" in (leg.name, other.name)
            else message("{far} from {leg}", far=far, leg=leg_words(_narrower(section, leg, other).name))
        )
    elif inner and other.name == "return":
        says = message("{far} below lip", far=far)
    else:
        says = message("{far} from bend of {leg}", far=far, leg=leg_words(other.name))
    return Hook(at + away * reach, says, sum(abs(bend.angle) >= least for least in (HOLDS, FOLDED)))


def _narrower(section: Section, one: Leg, other: Leg) -> Leg:
    return min(one, other, key=lambda leg: float(np.diff(section.v[leg.strip : leg.strip + 2])[0]))


def _reach(section: Section, leg: Leg, other: Leg, angle: float, inner: bool, side: float) -> float:
    """Return how far beyond its flat a leg reaches to where a rule reads nothing, inches.

    The leg's own line is followed to what lies beyond: to the other leg's painted face where ``side`` is 1, to its back
    where it is -1, or to the farthest metal of a fold.
    """
    points, half = section.points, section.thickness / 2
    start, end = points[leg.strip], points[leg.strip + 1]
    along = (start - end if inner else end - start) / np.linalg.norm(end - start)
    corner = start if inner else end
    strips = range(other.strip + 1, leg.strip + 1) if inner else range(leg.strip + 1, other.strip + 1)
    if abs(angle) >= FOLDED:
        return max(float((points[line] - corner) @ along) for line in strips) + half
    normal = section.normals[other.strip]
    on = points[other.strip + 1 if inner else other.strip] + normal * half * side
    face = corner + section.normals[leg.strip] * half * side
    slant = float(normal @ along)
    return float(normal @ (on - face)) / slant if abs(slant) > 1e-9 else 0.0
