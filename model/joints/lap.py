"""Lap: where one piece of a run lies over the next. Hooks and hems underneath are relieved so that the two nest.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..profiles.section import Section
from ..sheet.cut import path, square_cut
from ..steps import Step
from .end import step

Array = NDArray[np.float64]

EASE = 1 / 16
"""How far the legs beside a relief are cut back too, so that they slip inside the other piece's fold, inches;
beyond what the two pieces are shifted by to nest."""

HEMMED = math.radians(150)
"""A bend from here on folds a leg back onto its neighbour."""


def over_cut(section: Section, u: float) -> Array:
    """Return the square cut of the piece on top, at ``u``."""
    return path(section, square_cut(section, u))


def under_cut(section: Section, u: float, length: float, sign: float) -> Array:
    """Return the relieved cut of the piece underneath.

    Args:
        section: The section.
        u: Where the piece ends, inches.
        length: How far it lies under, inches.
        sign: -1 for a low end, 1 for a high end.
    """
    ends = square_cut(section, u)
    ease = EASE + float(np.linalg.norm(section.nesting))
    back = u - sign * (length + ease)
    away = relief(section)
    ends[list(away)] = back
    inside: dict[int, list[tuple[float, float]]] = {}
    for leg in section.legs:
        first, last = section.v[leg.strip], section.v[leg.strip + 1]
        if leg.strip in away:
            continue
        points: list[tuple[float, float]] = []
        if leg.strip - 1 in away:
            ends[leg.strip, 0] = back
            points += [(back, first + ease), (u, first + ease)]
        if leg.strip + 1 in away:
            ends[leg.strip, 1] = back
            points += [(u, last - ease), (back, last - ease)]
        if points:
            inside[leg.strip] = points
    return path(section, ends, inside)


def relief(section: Section) -> frozenset[int]:
    """Return the strips that are cut away underneath: relieved legs and the bends beside them.

    A drip leg goes with its hem where the two pieces are shifted by more than the hem's fold leaves room for.
    """
    legs = {leg.strip for leg in section.legs if leg.relieved}
    normals = section.normals
    for before, bend, after in zip(section.legs, section.bends, section.legs[1:], strict=False):
        if abs(bend.angle) < HEMMED or after.strip not in legs or before.name in ("top", "face"):
            continue
        room = abs((section.points[after.strip] - section.points[before.strip + 1]) @ normals[before.strip])
        if section.nesting @ normals[before.strip] > room - section.thickness:
            legs.add(before.strip)
    away = set(legs)
    for before, bend, after in zip(section.legs, section.bends, section.legs[1:], strict=False):
        if before.strip in legs or after.strip in legs:
            away |= set(range(bend.first, bend.last))
    return frozenset(away)


def over_steps(section: Section, u: float, length: float, mark: str, sealed: bool) -> tuple[Step, ...]:
    """Return the work at the end that lies on top."""
    steps = [
        step("cut", "Leave this end square across.", [(u, 0.0), (u, section.width)]),
        step("set", f"Lay it {{lap}} over {mark}.", lap=length),
    ]
    if sealed:
        steps.append(step("seal", "Bed the lap in sealant."))
    return tuple(steps)


def under_steps(
    section: Section, u: float, length: float, sign: float, mark: str, end: Literal["low", "high"]
) -> tuple[Step, ...]:
    """Return the work at the end that lies underneath."""
    back = u - sign * length
    names = [leg.name for leg in section.legs if leg.relieved]
    steps = [
        step("mark", f"Mark the lap line square across, {{at_lap}} from the low end, {{lap}} from the {end} end.",
             [(back, 0.0), (back, section.width)], at_lap=back, lap=length),
    ]  # fmt: skip
    if names:
        away = " and ".join(names)
        steps.append(
            step("cut", f"Cut the {away} away from the {end} end to the lap line, so that the two pieces nest.",
                 [(back, section.v[leg.strip]) for leg in section.legs if leg.relieved], lap=length)
        )  # fmt: skip
    steps.append(step("set", f"It goes under {mark}."))
    return tuple(steps)
