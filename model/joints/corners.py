"""Corners: which ends of runs meet, which joints are made of them, and the ends as these cut them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from ..errors import FlatCornerError, GeometryError, Problem, SceneError
from ..geometry.arrays import Array
from ..message import Listed, message
from ..roof.build import gathered, is_bridged, is_long_enough
from ..roof.record import Edge, Roof
from ..runs import Run
from . import (
    break_end,
    eave_rake,
    high_at_hip,
    high_rake,
    hip_at_gable,
    hip_at_high,
    hip_at_slope,
    hip_foot,
    hip_head,
    inside_corner,
    outside_corner,
    peak,
    peak_at_hip,
    plain_end,
    porch_corner,
    rake_at_valley,
    rake_bend,
    ridge_at_slope,
    ridge_end,
    sealed_end,
    valley_foot,
    valley_foot_at_rake,
    valley_head,
)
from .end import End
from .lift import FLAT, Lift, RunEnd, lifts
from .meeting import Ends, Joint, Met
from .stand import Stand

JOINTS: tuple[Joint, ...] = (
    eave_rake,
    porch_corner,
    outside_corner,
    inside_corner,
    hip_foot,
    peak,
    peak_at_hip,
    high_rake,
    high_at_hip,
    hip_head,
    ridge_end,
    hip_at_gable,
    hip_at_high,
    ridge_at_slope,
    hip_at_slope,
    rake_at_valley,
    valley_foot,
    valley_foot_at_rake,
    valley_head,
    rake_bend,
    break_end,
)
"""Every joint; an end that several are made for is cut by the first of them."""


@dataclass(frozen=True, slots=True)
class Made:
    """A joint that is made at a corner.

    Attributes:
        joint: Its module.
        ends: The ends that it cuts, the lowest first.
        around: The ends that it closes over.
    """

    joint: Joint
    ends: tuple[RunEnd, ...]
    around: tuple[RunEnd, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Corner:
    """The run ends that meet at one vertex of the roof, or at the vertices at both ends of an edge too short for trim.

    Attributes:
        edges: Every edge of the roof that ends there.
        ends: Which ends of which runs, by index among the runs.
        joints: What is made of them; an end that is in none is cut plain.
        bridged: The short edges within it.
        beyond: The ends at the far end of a short edge of one slope, which takes no trim and parts two corners.
    """

    edges: tuple[Edge, ...]
    ends: tuple[RunEnd, ...]
    joints: tuple[Made, ...]
    bridged: tuple[Edge, ...] = ()
    beyond: tuple[RunEnd, ...] = ()


def find_corners(runs: Sequence[Run], roof: Roof) -> tuple[Corner, ...]:
    """Return the corners at which the runs end, in the order of the runs.

    Raises:
        SceneError: the scene wants ends to lie on each other as they cannot.
    """
    one_of = gathered(roof)
    found: dict[int, list[RunEnd]] = {}
    for i, run in enumerate(runs):
        found.setdefault(one_of[run.edge.vertices[0]], []).append((i, "low"))
        found.setdefault(one_of[run.edge.vertices[1]], []).append((i, "high"))
    corners: list[Corner] = []
    problems: list[Problem] = []
    for corner, ends in found.items():
        near = [edge for edge in roof.edges if corner in {one_of[vertex] for vertex in edge.vertices}]
        bridged = tuple(edge for edge in near if is_bridged(edge))
        edges = tuple(edge for edge in near if edge not in bridged)
        across = {one_of[vertex] for edge in edges if not is_long_enough(edge) for vertex in edge.vertices}
        beyond = tuple(end for other in sorted(across - {corner}) for end in found.get(other, ()))
        try:
            corners.append(Corner(edges, tuple(ends), tuple(_joints(edges, ends, runs)), bridged, beyond))
        except SceneError as error:
            problems += error.problems
    if problems:
        raise SceneError(*problems)
    return tuple(corners)


def _joints(edges: Sequence[Edge], ends: Sequence[RunEnd], runs: Sequence[Run]) -> Iterator[Made]:
    """Yield the joints that are made of the ends at a corner; each end is cut by one at most."""
    free = list(ends)
    for joint in JOINTS:
        if not joint.MEETING.is_at(edges) or (joint.MEETING.all_trimmed and len(ends) < len(edges)):
            continue
        while taken := _taken(joint, free, runs):
            free = [end for end in free if end not in taken]
            around = tuple(end for end in ends if _is_one_of(joint.MEETING.around, end, runs))
            yield Made(joint, _lowest_first(joint, taken, runs), around)


def _is_one_of(kinds: Ends, end: RunEnd, runs: Sequence[Run]) -> bool:
    return (runs[end[0]].trim, end[1]) in kinds


def _taken(joint: Joint, free: Sequence[RunEnd], runs: Sequence[Run]) -> list[RunEnd]:
    """Return the free ends that a joint is made of, as they lie by themselves, the lowest first; none if one lacks."""
    meeting = joint.MEETING
    taken: list[RunEnd] = []
    for kinds in meeting.ends:
        own = [end for end in free if end not in taken and _is_one_of(kinds, end, runs)]
        if not own:
            return []
        taken.append(own[0])
    if meeting.more:
        taken += [end for end in free if end not in taken and _is_one_of(meeting.ends[-1], end, runs)]
    if meeting.last is not None:
        last = meeting.last
        taken.sort(key=lambda end: last(runs[end[0]], end[1]))
    return taken


def _lowest_first(joint: Joint, ends: Sequence[RunEnd], runs: Sequence[Run]) -> tuple[RunEnd, ...]:
    """Return the ends of a joint as the scene wants them to lie, the lowest first.

    Raises:
        SceneError: they cannot lie so.
    """

    def wants_over(over: RunEnd, under: RunEnd) -> bool:
        one, other = runs[over[0]], runs[under[0]]
        return over != under and bool({other.name, other.trim} & set(one.spec.over))

    left, result = list(ends), []
    while left:
        lowest = next((end for end in left if not any(wants_over(end, other) for other in left)), None)
        if lowest is None:
            first, *others = (runs[i].name for i, _ in left)
            told = message(
                "it and the {others} are each to lie over the other; take one of them out",
                others=Listed(tuple(others)),
            )
            raise SceneError(Problem(told, ("run", first, "over")))
        left.remove(lowest)
        result.append(lowest)
    if result != list(ends) and not joint.MEETING.turns:
        under, over = (runs[i] for i, _ in (result[0], result[-1]))
        if under.name not in over.spec.over and _turns_elsewhere(over, under):
            return tuple(ends)
        told = message(
            "it cannot lie over the {under}, which closes over it at the corner; leave '{kind}' out",
            under=under.name,
            kind=under.trim,
        )
        raise SceneError(Problem(told, ("run", over.name, "over")))
    return tuple(result)


def _turns_elsewhere(one: Run, other: Run) -> bool:
    """Return whether trim on edges of these kinds may lie either way at other corners: then those are meant."""
    return any(
        joint.MEETING.turns
        and {one.trim, other.trim} <= {kind for ends in joint.MEETING.ends for kind, _ in ends}
        for joint in JOINTS
    )


def lifts_at(corner: Corner, runs: Sequence[Run]) -> dict[RunEnd, Lift]:
    """Return how the joints at a corner lift each end."""
    result = dict.fromkeys(corner.ends, FLAT)
    for made in corner.joints:
        cut, around = [(runs[i], at) for i, at in made.ends], [runs[i] for i, _ in made.around]
        own = lifts(made.joint.MEETING, cut, around)
        result.update(zip(made.ends, own, strict=True))
    return result


def fit_corner(
    corner: Corner, runs: Sequence[Run], placements: Mapping[RunEnd, Array], roof: Roof
) -> dict[RunEnd, End]:
    """Cut all the run ends that meet at a corner; where it is too flat for a joint, its ends are only sealed.

    Args:
        corner: The corner.
        runs: All runs.
        placements: Where the piece at each of its ends lies, ``(4, 4)``.
        roof: The roof.

    Raises:
        GeometryError: names the runs that cannot be joined.
    """
    stands = {end: Stand(runs[end[0]], end[1], placements[end]) for end in (*corner.ends, *corner.beyond)}

    def met(ends: Sequence[RunEnd], around: Sequence[RunEnd]) -> Met:
        cut, closed_over = (tuple(stands[end] for end in some) for some in (ends, around))
        return Met(cut, closed_over, corner.edges, roof, corner.bridged)

    result: dict[RunEnd, End] = {}
    try:
        for made in corner.joints:
            with suppress(FlatCornerError):
                cut = made.joint.fit(met(made.ends, made.around))
                result.update(zip(made.ends, cut, strict=True))
        for end in corner.ends:
            if end not in result:
                others = _left_open(corner, end, runs)
                (result[end],) = (sealed_end if others else plain_end).fit(met([end], others))
    except GeometryError as error:
        names = Listed(tuple(runs[i].name for i, _ in corner.ends), "comma")
        raise GeometryError(
            *(
                message("corner of {runs}: {problem}", runs=names, problem=one.message)
                for one in error.problems
            )
        ) from None
    return result


def _left_open(corner: Corner, end: RunEnd, runs: Sequence[Run]) -> list[RunEnd]:
    """Return the ends that one meets which no joint is made for: none where a joint closes over it.

    With others at its corner, those on its own slopes that come close to it across a short edge are among them.
    """
    if any(end in made.around for made in corner.joints):
        return []
    others, own = [other for other in corner.ends if other != end], set(runs[end[0]].edge.faces)
    close = [other for other in corner.beyond if own & set(runs[other[0]].edge.faces)]
    return others + close if others else []
