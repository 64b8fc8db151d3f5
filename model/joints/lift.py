"""Lifts: how far what lies under an end of a run holds it off the deck."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..pieces import Piece
from ..runs import Run
from .end import At, End
from .meeting import Meeting, comes_down

RunEnd = tuple[int, At]
"""An end of a run, by the run's index among the runs."""


@dataclass(frozen=True, slots=True, eq=False)
class Lift:
    """How much a joint lifts a run's end off the deck.

    Attributes:
        sheets: How many sheets lie under it.
        overlap: How far in along the run they lie under it, inches.
        aside: ``(2,) float, inches``: a shift ``(out, up)`` besides, past a neighbor's face.
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


def lifts(meeting: Meeting, ends: Sequence[tuple[Run, At]], around: Sequence[Run]) -> list[Lift]:
    """Return how a joint lifts each of the ends that it cuts, the lowest first, were nothing else under them.

    Args:
        meeting: What the joint is made for.
        ends: Those that it cuts.
        around: Runs that it closes over.
    """
    runs = [run for run, _ in ends]
    match meeting.rests:
        case "upon":
            return [
                Lift(_flat_sheet(run), max(width_along(run, other) for other in around), np.zeros(2))
                if around
                else FLAT
                for run in runs
            ]
        case "on":
            return [FLAT, *(Lift(1.0, _inboard(runs[0]), np.zeros(2)) for _ in runs[1:])]
        case "past":
            return [FLAT, *(Lift(1.0, 0.0, np.zeros(2)) for _ in runs[1:])]
        case "outside":
            return [FLAT, *(Lift(0.0, 0.0, np.array([run.section.thickness, 0.0])) for run in runs[1:])]
        case "stacked":
            return [
                Lift(level * _flat_sheet(run), meeting.overlap, np.zeros(2))
                for run, level in zip(runs, levels(ends), strict=True)
            ]
    return [FLAT for _ in runs]


def levels(ends: Sequence[tuple[Run, At]]) -> list[int]:
    """Return how many sheets lie under each of the caps that meet, the lowest first: no two on one face alike.

    What comes after caps along which water runs otherwise lies over those that it shares a face with, as a ridge's
    does over the hips' below it.
    """
    level: list[int] = []
    for run, at in ends:
        beside = [(end, under) for end, under in zip(ends, level, strict=False) if _share_a_face(run, end[0])]
        least = max(
            (under + 1 for end, under in beside if comes_down(*end) != comes_down(run, at)), default=0
        )
        taken = {under for _, under in beside}
        level.append(next(k for k in range(least, len(ends)) if k not in taken))
    return level


def below(
    meeting: Meeting, runs: Sequence[Run], ends: Sequence[RunEnd], around: Sequence[RunEnd]
) -> list[tuple[RunEnd, tuple[RunEnd, ...]]]:
    """Return the ends that are lifted by as much as those under them are, lowest first, each with these.

    Args:
        meeting: What the joint is made for.
        runs: All runs.
        ends: Those that it cuts, the lowest first.
        around: Those that it closes over.
    """
    match meeting.rests:
        case "upon":
            return [(end, tuple(around)) for end in ends] if around else []
        case "on" | "past" | "outside":
            return [(end, tuple(ends[:k])) for k, end in enumerate(ends) if k]
        case "stacked":
            own = [runs[i] for i, _ in ends]
            level = levels([(runs[i], at) for i, at in ends])
            found = [
                (
                    ends[k],
                    tuple(
                        ends[j]
                        for j in range(len(ends))
                        if level[j] < level[k] and _share_a_face(own[j], own[k])
                    ),
                )
                for k in sorted(range(len(ends)), key=lambda k: level[k])
            ]
            return [(end, unders) for end, unders in found if unders]
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
        zone = _beneath(run, runs[i], at) if meeting.rests in ("on", "past", "upon") else rough[i, at].reach
        nesting = runs[i].section.nesting
        for shift in _shifts(runs[i], pieces[i], seats[i], zone):
            sheets = max(sheets, float(shift @ nesting / (nesting @ nesting)))
            out = max(out, float(shift[0]))
    if meeting.rests == "outside":
        return Lift(0.0, 0.0, np.array([out + run.section.thickness, 0.0]))
    match meeting.rests:
        case "on":
            overlap = max(_inboard(runs[i]) for i, _ in unders)
        case "past":
            overlap = 0.0
        case "upon":
            overlap = max(width_along(run, runs[i]) for i, _ in unders)
            return Lift((sheets + 1.0) * _flat_sheet(run), overlap, np.zeros(2))
        case _:
            return Lift(sheets + _flat_sheet(run), _inward(run, rough[over]), np.zeros(2))
    return Lift(sheets + 1.0, overlap, np.zeros(2))


def _inward(run: Run, end: End) -> float:
    """Return how far in from the corner the cut of an end goes at the most, inches."""
    return end.innermost if end.at == "low" else run.length - end.innermost


def _flat_sheet(run: Run) -> float:
    """Return by how many of its own sheets one sheet under its wings lifts a run: ribs keep its own farther apart."""
    section = run.section
    moved = section.normals[[leg.strip for leg in section.lying]] @ section.nesting
    return section.thickness / float(moved.min())


def _inboard(run: Run) -> float:
    """Return how far a run's metal reaches in from the edge of the deck, inches."""
    return float(-run.section.points[:, 0].min())


def _beneath(over: Run, under: Run, at: At) -> tuple[float, float]:
    """Return from where to where one run lies under the legs of another at a corner, run distances."""
    width = width_along(under, over)
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


def width_along(run: Run, other: Run) -> float:
    """Return how far in along a run the leg that lies on the deck of another one at its end reaches, inches."""
    across = np.linalg.norm(cross(run.edge.direction, other.edge.direction))
    return _inboard(other) / float(across)


def _share_a_face(one: Run, other: Run) -> bool:
    return bool(set(one.edge.faces) & set(other.edge.faces))
