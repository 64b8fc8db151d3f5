"""Lifts: how far what lies under an end of a run holds it off the deck."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..pieces import Piece
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

    def is_near(self, other: Lift) -> bool:
        """Return whether two lifts are the same for any hand: to a thousandth of a sheet, and of an inch."""
        return (
            abs(self.sheets - other.sheets) < 1e-3
            and abs(self.overlap - other.overlap) < 1e-3
            and float(np.abs(self.aside - other.aside).max()) < 1e-5
        )


FLAT = Lift(0.0, 0.0, np.zeros(2))


def lifts(meeting: Meeting, runs: Sequence[Run]) -> list[Lift]:
    """Return how a joint lifts each of the runs that it cuts, the lowest first, were nothing else under them."""
    match meeting.rests:
        case "on":
            return [FLAT, *(Lift(1.0, _inboard(runs[0]), np.zeros(2)) for _ in runs[1:])]
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
        case "on" | "outside":
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
    pieces: Sequence[Sequence[Piece]],
    rough: Mapping[RunEnd, End],
    seats: Sequence[Sequence[Array]],
) -> Lift:
    """Return the lift that lays an end on others, which may be lifted themselves.

    Args:
        meeting: How it rests on them.
        over: The end on top.
        unders: The ends it lies on.
        runs: All runs.
        pieces: Their pieces.
        rough: Their ends, roughly cut: how far in the laps reach.
        seats: Their pieces' placements.
    """
    run = runs[over[0]]
    sheets, out = 0.0, 0.0
    for i, at in unders:
        zone = _beneath(run, runs[i], at) if meeting.rests == "on" else rough[i, at].reach
        nesting = runs[i].section.nesting
        for shift in _shifts(runs[i], pieces[i], seats[i], zone):
            sheets = max(sheets, float(shift @ nesting / (nesting @ nesting)))
            out = max(out, float(shift[0]))
    if meeting.rests == "outside":
        return Lift(0.0, 0.0, np.array([out + run.section.thickness, 0.0]))
    overlap = max(_inboard(runs[i]) for i, _ in unders) if meeting.rests == "on" else rough[over].depth
    return Lift(sheets + 1.0, overlap, np.zeros(2))


def _inboard(run: Run) -> float:
    """Return how far a run's metal reaches in from the edge of the deck, inches."""
    return float(-run.section.points[:, 0].min())


def _beneath(over: Run, under: Run, at: At) -> tuple[float, float]:
    """Return from where to where one run lies under the inboard leg of another at a corner, run distances."""
    width = _inboard(over)
    return (-width, width) if at == "low" else (under.length - width, under.length + width)


def _shifts(
    run: Run, pieces: Sequence[Piece], seats: Sequence[Array], zone: tuple[float, float]
) -> Iterator[Array]:
    """Yield how far the pieces that reach into a zone are shifted off the run's axis at its bounds, inches."""
    for piece, seat in zip(pieces, seats, strict=True):
        first, last = max(piece.start, zone[0]), min(piece.end, zone[1])
        if first <= last:
            lies = np.linalg.inv(run.frame) @ seat
            yield from ((lies @ [u, 0.0, 0.0, 1.0])[1:3] for u in (first, last))


def _share_a_face(one: Run, other: Run) -> bool:
    return bool(set(one.edge.faces) & set(other.edge.faces))
