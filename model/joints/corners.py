"""Which joint is made at each corner of the roof, and how high each piece is lifted by what lies under it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..errors import GeometryError
from ..roof.record import Roof
from ..runs import Run
from . import eave_rake, high_rake, hip_foot, hip_head, outside_corner, peak, plain_end, ridge_end
from .end import End
from .stand import Stand

Array = NDArray[np.float64]
RunEnd = tuple[int, Literal["low", "high"]]


@dataclass(frozen=True, slots=True)
class Corner:
    """The run ends that meet at one vertex of the roof.

    Attributes:
        vertex: Index among the roof's vertices.
        ends: Which ends of which runs, by index among the runs.
    """

    vertex: int
    ends: tuple[RunEnd, ...]


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


def find_corners(runs: Sequence[Run]) -> tuple[Corner, ...]:
    """Return the corners at which the runs end, in the order of the runs."""
    found: dict[int, list[RunEnd]] = {}
    for i, run in enumerate(runs):
        found.setdefault(run.edge.vertices[0], []).append((i, "low"))
        found.setdefault(run.edge.vertices[1], []).append((i, "high"))
    return tuple(Corner(vertex, tuple(ends)) for vertex, ends in found.items())


def lifts(corner: Corner, runs: Sequence[Run]) -> dict[RunEnd, Lift]:
    """Return how the joint at a corner lifts each end."""
    result = dict.fromkeys(corner.ends, FLAT)
    kinds = _by_kind(corner, runs)
    for end in kinds["rake low"]:
        if kinds["eave"]:
            below = runs[kinds["eave"][0][0]].section
            result[end] = Lift(1.0, float(-below.points[:, 0].min()), np.zeros(2))
    if len(kinds["rake high"]) == 2:
        _, over = _under_over(kinds["rake high"], runs)
        result[over] = Lift(0.0, 0.0, np.array([runs[over[0]].section.thickness, 0.0]))
    caps = kinds["cap"]
    if len(caps) > 1:
        stands = [Stand(runs[i], at, runs[i].frame) for i, at in caps]
        for end, level in zip(caps, hip_head.levels(stands), strict=True):
            result[end] = Lift(float(level), hip_head.LAP, np.zeros(2))
    return result


def stacks(corner: Corner, runs: Sequence[Run]) -> list[tuple[RunEnd, tuple[RunEnd, ...]]]:
    """Return the ends that lie on others at a corner, lowest first, each with those that it lies on."""
    kinds = _by_kind(corner, runs)
    if len(kinds["rake high"]) == 2:
        under, over = _under_over(kinds["rake high"], runs)
        return [(over, (under,))]
    caps = kinds["cap"]
    if len(caps) < 2:
        return []
    level = dict(
        zip(caps, hip_head.levels([Stand(runs[i], at, runs[i].frame) for i, at in caps]), strict=True)
    )
    result = []
    for end in sorted(caps, key=lambda end: level[end]):
        faces = set(runs[end[0]].edge.faces)
        below = tuple(
            other for other in caps if level[other] < level[end] and faces & set(runs[other[0]].edge.faces)
        )
        if below:
            result.append((end, below))
    return result


def lift_above(
    over: RunEnd,
    unders: Sequence[RunEnd],
    runs: Sequence[Run],
    rough: Mapping[RunEnd, End],
    seats: Sequence[Sequence[Array]],
) -> Lift:
    """Return the lift that lays an end on others, which may be lifted themselves.

    Args:
        over: The end on top.
        unders: The ends it lies on.
        runs: All runs.
        rough: Their ends, roughly cut: how far in the laps reach.
        seats: Their pieces' placements.
    """
    run = runs[over[0]]
    sheets, out = 0.0, 0.0
    for under in unders:
        below = runs[under[0]]
        lies = np.linalg.inv(below.frame) @ seats[under[0]][0 if under[1] == "low" else -1]
        nesting = below.section.nesting
        for u in rough[under].reach:
            shift = (lies @ [u, 0.0, 0.0, 1.0])[1:3]
            sheets = max(sheets, float(shift @ nesting / (nesting @ nesting)))
            out = max(out, float(shift[0]))
    if run.trim == "rake":
        return Lift(0.0, 0.0, np.array([out + run.section.thickness, 0.0]))
    return Lift(sheets + 1.0, rough[over].depth, np.zeros(2))


def fit_corner(
    corner: Corner, runs: Sequence[Run], placements: Mapping[RunEnd, Array], roof: Roof
) -> dict[RunEnd, End]:
    """Cut all the run ends that meet at a corner.

    Args:
        corner: The corner.
        runs: All runs.
        placements: Where the piece at each of its ends lies, ``(4, 4)``.
        roof: For the hip at a corner and the faces round it.

    Raises:
        GeometryError: names the runs that cannot be joined.
    """
    stands = {end: Stand(runs[end[0]], end[1], placements[end]) for end in corner.ends}
    kinds = _by_kind(corner, runs)
    result: dict[RunEnd, End] = {}
    eaves, low, high = kinds["eave"], kinds["rake low"], kinds["rake high"]
    try:
        if eaves and low:
            eave, rake = eaves[0], low[0]
            result[eave], result[rake] = eave_rake.fit(stands[eave], stands[rake], runs[rake[0]].spec.tab)
        hip = next(
            (edge for edge in roof.edges if edge.kind == "hip" and corner.vertex in edge.vertices), None
        )
        if len(eaves) == 2 and hip is not None:
            under, over = sorted(eaves, key=lambda end: _in_front(runs[end[0]]))
            result[under], result[over] = outside_corner.fit(
                stands[under], stands[over], hip.direction, runs[over[0]].spec.tab
            )
        for end in kinds["hip low"]:
            result[end] = hip_foot.fit(stands[end], tuple(stands[e] for e in eaves))
        if len(high) == 2:
            under, over = _under_over(high, runs)
            result[under], result[over] = peak.fit(stands[under], stands[over])
        if len(kinds["high"]) == 1 and len(high) == 1:
            top, rake = kinds["high"][0], high[0]
            result[top], result[rake] = high_rake.fit(stands[top], stands[rake], runs[top[0]].spec.tab)
        caps = kinds["cap"]
        if len(caps) > 1:
            result.update(zip(caps, hip_head.fit([stands[end] for end in caps], roof), strict=True))
        elif caps and runs[caps[0][0]].trim == "ridge":
            result[caps[0]] = ridge_end.fit(stands[caps[0]], tuple(stands[e] for e in high))
        for end in corner.ends:
            if end not in result:
                result[end] = plain_end.fit(stands[end])
    except GeometryError as error:
        names = ", ".join(runs[i].name for i, _ in corner.ends)
        raise GeometryError(f"corner of {names}: {error}") from None
    return result


def _by_kind(corner: Corner, runs: Sequence[Run]) -> dict[str, list[RunEnd]]:
    """Sort a corner's ends by what they are."""
    kinds: dict[str, list[RunEnd]] = {
        name: [] for name in ("eave", "rake low", "rake high", "hip low", "high", "cap")
    }
    for end in corner.ends:
        trim, at = runs[end[0]].trim, end[1]
        if trim == "rake":
            kinds[f"rake {at}"].append(end)
        elif trim == "hip" and at == "low":
            kinds["hip low"].append(end)
        elif trim in ("hip", "ridge"):
            kinds["cap"].append(end)
        else:
            kinds[trim].append(end)
    return kinds


def _under_over(rakes: list[RunEnd], runs: Sequence[Run]) -> tuple[RunEnd, RunEnd]:
    """Return the rake underneath and the one on top at a peak: the right one lies on top."""
    first, second = sorted(rakes, key=lambda end: runs[end[0]].hand == "right")
    return first, second


def _in_front(run: Run) -> tuple[float, float]:
    """Sort key: trim that faces the front or the back lies over trim that faces a side, where the tab shows less."""
    return (round(abs(float(run.edge.outward[1])), 6), run.length)
