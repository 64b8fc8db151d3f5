"""Lifts: how far what lies under an end of a run holds it off the deck."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..runs import Run
from .end import At, End
from .meeting import Meeting

RunEnd = tuple[int, At]
"""An end of a run, by the run's index among the runs."""


@dataclass(frozen=True, slots=True, eq=False)
class Lift:
    """How much a joint lifts a run's end off the deck.

    Attributes:
        sheets: How many sheets lie under it.
        overlap: How far in along the run they lie under it, inches.
        aside: ``(2,) float, inches``: a shift ``(out, up)`` besides, past a neighbour's face.
    """

    sheets: float
    overlap: float
    aside: Array


FLAT = Lift(0.0, 0.0, np.zeros(2))


def lifts(meeting: Meeting, runs: Sequence[Run]) -> list[Lift]:
    """Return how a joint lifts each of the runs that it cuts, the lowest first, were nothing else under them."""
    match meeting.rests:
        case "on":
            inboard = float(-runs[0].section.points[:, 0].min())
            return [FLAT, *(Lift(1.0, inboard, np.zeros(2)) for _ in runs[1:])]
        case "outside":
            return [FLAT, *(Lift(0.0, 0.0, np.array([run.section.thickness, 0.0])) for run in runs[1:])]
        case "stacked":
            return [Lift(float(level), meeting.overlap, np.zeros(2)) for level in levels(runs)]
    return [FLAT for _ in runs]


def levels(runs: Sequence[Run]) -> list[int]:
    """Return how many sheets lie under each of the caps that meet, the lowest first: no two on one face alike."""
    level: list[int] = []
    for run in runs:
        taken = {at for other, at in zip(runs, level, strict=False) if _share_a_face(run, other)}
        level.append(next(k for k in range(len(runs)) if k not in taken))
    return level


def below(meeting: Meeting, runs: Sequence[Run]) -> list[tuple[int, tuple[int, ...]]]:
    """Return the runs that are lifted by as much as those under them are, lowest first, each with these."""
    match meeting.rests:
        case "outside":
            return [(k, tuple(range(k))) for k in range(1, len(runs))]
        case "stacked":
            level = levels(runs)
            order = sorted(range(len(runs)), key=lambda k: level[k])
            found = [
                (
                    k,
                    tuple(
                        j for j in range(len(runs)) if level[j] < level[k] and _share_a_face(runs[j], runs[k])
                    ),
                )
                for k in order
            ]
            return [(k, unders) for k, unders in found if unders]
    return []


def lift_above(
    meeting: Meeting,
    over: RunEnd,
    unders: Sequence[RunEnd],
    runs: Sequence[Run],
    rough: Mapping[RunEnd, End],
    seats: Sequence[Sequence[Array]],
) -> Lift:
    """Return the lift that lays an end on others, which may be lifted themselves.

    Args:
        meeting: How it rests on them.
        over: The end on top.
        unders: The ends it lies on.
        runs: All runs.
        rough: Their ends, roughly cut: how far in the laps reach.
        seats: Their pieces' placements.
    """
    sheets, out = 0.0, 0.0
    for under in unders:
        run = runs[under[0]]
        lies = np.linalg.inv(run.frame) @ seats[under[0]][0 if under[1] == "low" else -1]
        nesting = run.section.nesting
        for u in rough[under].reach:
            shift = (lies @ [u, 0.0, 0.0, 1.0])[1:3]
            sheets = max(sheets, float(shift @ nesting / (nesting @ nesting)))
            out = max(out, float(shift[0]))
    if meeting.rests == "outside":
        return Lift(0.0, 0.0, np.array([out + runs[over[0]].section.thickness, 0.0]))
    return Lift(sheets + 1.0, rough[over].depth, np.zeros(2))


def _share_a_face(one: Run, other: Run) -> bool:
    return bool(set(one.edge.faces) & set(other.edge.faces))
