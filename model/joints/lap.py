"""Lap: where one piece of a run lies over the next. Hooks and hems underneath are relieved so that the two nest.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Listed, Place, message
from ..profiles.leg_words import leg_words
from ..profiles.section import Leg, Section
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut
from ..steps import Step
from .end import At, End, JointKind, step

KIND = JointKind("lap", message("lap"))
EASE = 1 / 16
"""How far the legs beside a relief are cut back too, so that they slip inside the other piece's fold, inches;
beyond what the two pieces are shifted by to nest."""

SQUARE = message("Leave this end square across, the piece cut to its length.")

HEMMED = math.radians(150)
"""A bend from here on folds a leg back onto its neighbor."""


def over(at: At, section: Section, u: float, length: float, mark: str, sealed: bool) -> End:
    """Cut the end of a piece that lies on the next one of its run: square.

    Args:
        at: Which end.
        section: The section of both pieces.
        u: Where the piece ends, inches.
        length: How far it lies over the other, inches.
        mark: Of the piece underneath.
        sealed: The lap is bedded in sealant.
    """
    steps = [
        step("cut", SQUARE, [(u, 0.0), (u, section.width)]),
        step("set", message("Lay it {lap} over {mark}.", mark=mark, lap=Length(length))),
    ]
    if sealed:
        steps.append(step("seal", message("Bed the lap in sealant.")))
    cut = Cut(path(section, square_cut(section, u)))
    return End(KIND, at, "over", (mark,), cut, tuple(steps), length, sealed)


def under(at: At, section: Section, u: float, length: float, mark: str, sealed: bool) -> End:
    """Cut the end of a piece that lies under the next one of its run: square, hooks and hems relieved.

    Args:
        at: Which end.
        section: The section of both pieces.
        u: Where the piece ends, inches.
        length: How far it lies under the other, inches.
        mark: Of the piece on top.
        sealed: The lap is bedded in sealant.
    """
    sign = -1.0 if at == "low" else 1.0
    cut = _relieved(section, u, length, sign)
    return End(
        KIND, at, "under", (mark,), Cut(cut), _under_steps(section, cut, length, sign, mark), length, sealed
    )


@lru_cache(maxsize=256)
def relief(section: Section) -> frozenset[int]:
    """Return the strips that are cut away underneath: relieved legs and the bends beside them.

    A drip leg goes with its hem where the two pieces are shifted by more than the hem's fold leaves room for.
    """
    legs = {leg.strip for leg in section.legs if leg.relieved}
    for before, after, room in _hems(section):
        nests = section.nesting @ section.normals[before.strip] <= room
        if after.strip in legs and before.name not in ("top", "face") and not nests:
            legs.add(before.strip)
    away = set(legs)
    for before, bend, after in zip(section.legs, section.bends, section.legs[1:], strict=False):
        if before.strip in legs or after.strip in legs:
            away |= set(range(bend.first, bend.last))
    return frozenset(away)


def most_sheets(section: Section) -> float:
    """Return by how many sheets one piece may stand off another in a lap before its hems no longer close round it."""
    moves = [
        (room, abs(float(section.nesting @ section.normals[before.strip])))
        for before, after, room in _hems(section)
        if before.relieved or after.relieved
    ]
    return min((room / move for room, move in moves if 0.0 < move <= room), default=math.inf)


def _hems(section: Section) -> Iterator[tuple[Leg, Leg, float]]:
    """Yield each two legs folded back onto each other, and how far a sheet may move between them, inches."""
    for before, bend, after in zip(section.legs, section.bends, section.legs[1:], strict=False):
        if abs(bend.angle) >= HEMMED:
            across = section.points[after.strip] - section.points[before.strip + 1]
            room = abs(float(across @ section.normals[before.strip]))
            yield before, after, room - section.thickness


def _relieved(section: Section, u: float, length: float, sign: float) -> Array:
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


def _under_steps(section: Section, cut: Array, length: float, sign: float, mark: str) -> tuple[Step, ...]:
    """Return the work at the end that lies underneath.

    Args:
        section: The section.
        cut: The relieved cut, ``(k, 2) float, inches``.
        length: How far it lies under, inches.
        sign: -1 for a low end, 1 for a high end.
        mark: Of the piece on top.
    """
    u = float(cut[:, 0].max() if sign > 0 else cut[:, 0].min())
    lap_line = u - sign * length
    steps = [
        step("cut", SQUARE, [(u, 0.0), (u, section.width)]),
        step(
            "mark",
            message(
                "Mark the lap line square across, {at_lap} from the blank's end.", at_lap=Place(lap_line)
            ),
            [(lap_line, 0.0), (lap_line, section.width)],
        ),
    ]
    slits = _slits(cut, u)
    if slits:
        back = float(cut[:, 0].min() if sign > 0 else cut[:, 0].max())
        steps += _relief_steps(section, slits, back, abs(back - lap_line))
    steps.append(step("set", message("It goes {lap} under {mark}.", mark=mark, lap=Length(length))))
    return tuple(steps)


def _relief_steps(
    section: Section, slits: list[list[list[float]]], back: float, ease: float
) -> Iterator[Step]:
    """Yield the work that takes the relieved legs off: opened first, since snips do not reach into a closed fold."""
    away = relief(section)
    legs = Listed(tuple(leg_words(leg.name) for leg in section.legs if leg.strip in away))
    folded = tuple(
        leg_words(after.name if after.strip in away else before.name)
        for before, bend, after in zip(section.legs, section.bends, section.legs[1:], strict=False)
        if abs(bend.angle) >= HEMMED and {before.strip, after.strip} & away
    )
    if folded:
        yield step(
            "ease",
            message("Open the {legs} at this end, no farther than the snips need.", legs=Listed(folded)),
        )
    pairs = [pair for line in slits for pair in pairwise(line)]
    yield step(
        "cut",
        message(
            "First cut in from the end, {ease} outside the bends of the {legs}, to {at_back} from the blank's end: "
            "{ease} past the lap line.",
            legs=legs,
            at_back=Place(back),
            ease=Length(ease),
        ),
        *_joined(pair for pair in pairs if pair[0][0] != pair[1][0]),
    )
    yield step(
        "cut",
        message(
            "Then cut across there: what comes off makes room for the other piece, so that the two nest."
        ),
        *_joined(pair for pair in pairs if pair[0][0] == pair[1][0]),
    )


def _joined(pairs: Iterable[tuple[list[float], list[float]]]) -> list[list[list[float]]]:
    """Return straight parts as lines, those that go on from each other as one."""
    lines: list[list[list[float]]] = []
    for first, second in pairs:
        if lines and lines[-1][-1] == first:
            lines[-1].append(second)
        else:
            lines.append([first, second])
    return lines


def _slits(cut: Array, u: float) -> list[list[list[float]]]:
    """Return the parts of a cut that leave its end at ``u``."""
    lines: list[list[list[float]]] = []
    apart = True
    for first, second in pairwise(cut.tolist()):
        if first[0] == u == second[0]:
            apart = True
            continue
        if apart:
            lines.append([first])
        lines[-1].append(second)
        apart = False
    return lines
