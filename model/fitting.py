"""Fitting: each piece cut at both ends, set in its place, and what laps and joints that makes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from .joints import lap
from .joints.corners import (
    Corner,
    Lift,
    RunEnd,
    find_corners,
    fit_corner,
    lift_above,
    lifts,
    stacks,
)
from .joints.end import End, from_low_end
from .pieces import Piece, cut_pieces
from .roof.record import Roof
from .runs import Run
from .scene.schema import Scene
from .seats import seat_pieces, tilt
from .sheet.sheet import Sheet, checked
from .steps import Step

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lap:
    """Where one piece of a run lies over or under the next.

    Attributes:
        at: Which end of this piece.
        lies: Whether this piece lies over or under the other one.
        other: Mark of the other piece.
        length: How far the two overlap along the run, inches.
        steps: Hand-tool steps in order.
    """

    at: Literal["low", "high"]
    lies: Literal["over", "under"]
    other: str
    length: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Joint:
    """How one end of a piece is cut and folded where it meets its neighbours at a corner.

    Attributes:
        kind: ``eave-rake``, ``peak``, ``outside corner``, ``hip foot``, ``hip head``, ``ridge end``,
            ``high-rake`` or ``plain end``.
        at: Which end of the piece.
        lies: Over or under its neighbours; None where it does neither.
        others: Marks of the pieces it meets.
        steps: Hand-tool steps in order.
    """

    kind: str
    at: Literal["low", "high"]
    lies: Literal["over", "under"] | None
    others: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """A piece that is cut and set, before it is drilled and folded.

    Attributes:
        piece: Where it lies on its run, and its mark.
        run: The run it belongs to.
        sheet: Its flat pattern and bends; ``u`` is the run's own distance from its low end.
        placement: ``(4, 4)`` matrix from the folded sheet's ``(u, out, up)`` to the scene frame, inches.
        laps: Overlaps with the pieces before and after it.
        joints: What happens at those of its ends that meet other runs, or nothing.
    """

    piece: Piece
    run: Run
    sheet: Sheet
    placement: Array
    laps: tuple[Lap, ...]
    joints: tuple[Joint, ...]


def fit_pieces(roof: Roof, runs: Sequence[Run], scene: Scene) -> tuple[Fitted, ...]:
    """Cut every run into pieces and fit them to each other.

    The joints are made twice: once with every run as one length, which says how far its metal reaches past the
    corners, and once with each piece tilted over its neighbours, which gives the exact cuts.

    Raises:
        GeometryError: a corner or a piece that cannot be made; says which.
        SceneError: hand-placed pieces do not fit their run.
    """
    corners = find_corners(runs)
    lifted: dict[RunEnd, Lift] = {}
    for corner in corners:
        lifted |= lifts(corner, runs)
    whole = {end: runs[end[0]].frame @ _straight(runs[end[0]], lift) for end, lift in lifted.items()}
    rough = _fit_corners(corners, runs, whole, roof)
    pieces = [
        cut_pieces(
            run,
            (rough[i, "low"].reach[0], rough[i, "high"].reach[1]),
            (rough[i, "low"].depth, rough[i, "high"].depth),
            scene,
        )
        for i, run in enumerate(runs)
    ]
    seats = [seat_pieces(run, pieces[i], lifted[i, "low"], lifted[i, "high"]) for i, run in enumerate(runs)]
    for corner in corners:
        for over, unders in stacks(corner, runs):
            i = over[0]
            lifted[over] = lift_above(over, unders, runs, rough, seats)
            seats[i] = seat_pieces(runs[i], pieces[i], lifted[i, "low"], lifted[i, "high"])
    placed = {end: seats[end[0]][0 if end[1] == "low" else -1] for end in lifted}
    ends = _fit_corners(corners, runs, placed, roof)
    marks = {(i, at): pieces[i][0 if at == "low" else -1].mark for i, at in lifted}
    neighbours = {
        end: {runs[other[0]].name: marks[other] for other in corner.ends}
        for corner in corners
        for end in corner.ends
    }
    result: list[Fitted] = []
    for i, run in enumerate(runs):
        for k in range(len(pieces[i])):
            low = ends[i, "low"] if k == 0 else None
            high = ends[i, "high"] if k == len(pieces[i]) - 1 else None
            names = {**neighbours[i, "low"], **neighbours[i, "high"]}
            result.append(_fit_one(run, pieces[i], k, seats[i][k], low, high, names))
    return tuple(result)


def _straight(run: Run, lift: Lift) -> Array:
    shift = lift.sheets * run.section.nesting + lift.aside
    return tilt(0.0, run.length, shift, shift)


def _fit_corners(
    corners: Sequence[Corner], runs: Sequence[Run], placements: dict[RunEnd, Array], roof: Roof
) -> dict[RunEnd, End]:
    result: dict[RunEnd, End] = {}
    for corner in corners:
        result |= fit_corner(corner, runs, placements, roof)
    return result


def _fit_one(
    run: Run,
    pieces: Sequence[Piece],
    k: int,
    placement: Array,
    low: End | None,
    high: End | None,
    marks: dict[str, str],
) -> Fitted:
    """Return one piece with both its ends cut."""
    piece, section = pieces[k], run.section
    laps: list[Lap] = []
    cuts: list[Array] = []
    joints: list[Joint] = []
    ends: tuple[tuple[End | None, Literal["low", "high"]], ...] = ((low, "low"), (high, "high"))
    for end, at in ends:
        if end is not None:
            cuts.append(end.cut)
            others = tuple(marks[name] for name in end.others)
            joints.append(Joint(end.kind, at, end.lies, others, end.steps))
            continue
        neighbour = pieces[k - 1 if at == "low" else k + 1]
        u, sign = (piece.start, -1.0) if at == "low" else (piece.end, 1.0)
        length = neighbour.end - piece.start if at == "low" else piece.end - neighbour.start
        on_top = (piece.lies == "over") if at == "low" else (neighbour.lies == "under")
        if on_top:
            cuts.append(lap.over_cut(section, u))
            steps = lap.over_steps(section, u, length, neighbour.mark, run.spec.sealed)
        else:
            cuts.append(lap.under_cut(section, u, length, sign))
            steps = lap.under_steps(section, cuts[-1], length, sign, neighbour.mark)
        laps.append(Lap(at, "over" if on_top else "under", neighbour.mark, length, steps))
    tabs = (low.tabs if low else ()) + (high.tabs if high else ())
    sheet = checked(Sheet(section, cuts[0], cuts[1], tabs), f"piece {piece.mark} of the {run.name}")
    start = sheet.extent[0]
    return Fitted(
        piece,
        run,
        sheet,
        placement,
        tuple(replace(one, steps=from_low_end(one.steps, start)) for one in laps),
        tuple(replace(one, steps=from_low_end(one.steps, start)) for one in joints),
    )
