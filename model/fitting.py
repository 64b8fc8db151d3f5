"""Fitting: each piece cut at both ends to fit what it meets there, and set in its place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from .edge_kinds import KINDS
from .geometry.arrays import Array
from .joints import lap
from .joints.corners import Corner, find_corners, fit_corner, lifts_at
from .joints.end import At, End, Ends
from .joints.lift import Lift, RunEnd, below, lift_above, width_along
from .pieces import Piece, cut_pieces
from .roof.record import Roof
from .runs import Run
from .scene.schema import Scene
from .seats import seat_pieces, tilt
from .sheet.sheet import Sheet, checked
from .tolerances import TAPE

TRIES = 6
"""How often at most pieces and joints are fitted to each other anew: they settle in two or three."""


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """A piece that is cut and set, before it is drilled and folded.

    Attributes:
        piece: Where it lies on its run, and its mark.
        run: The run it belongs to.
        sheet: Its flat pattern and bends; ``u`` is the run's own distance from its low end.
        placement: ``(4, 4)`` matrix from the folded sheet's ``(u, out, up)`` to the scene frame, inches.
        ends: What both ends of it meet, and how they are cut.
    """

    piece: Piece
    run: Run
    sheet: Sheet
    placement: Array
    ends: Ends


def fit_pieces(roof: Roof, runs: Sequence[Run], scene: Scene, least: float) -> tuple[Fitted, ...]:
    """Cut every run into pieces and fit them to each other.

    The joints are made twice: once with every run as one length, which says how far its metal reaches past the
    corners, and once with each piece tilted over its neighbors, which gives the exact cuts.

    Args:
        roof: Faces and edges.
        runs: One trim along one edge each.
        scene: For the stock lengths and the wind.
        least: The shortest piece that may stand, inches.

    Raises:
        GeometryError: a corner or a piece that cannot be made; says which.
        SceneError: hand-placed pieces do not fit their run.
    """
    corners = find_corners(runs, roof)
    lifted = _lifts(corners, runs)
    ends = _straight_ends(corners, lifted, runs, roof)
    pieces, seats, ends = _divide_and_seat(corners, runs, lifted, ends, roof, scene, least)
    marks = {(i, at): pieces[i][0 if at == "low" else -1].mark for i, at in lifted}
    neighbors = {
        end: {runs[other[0]].name: marks[other] for other in (*corner.ends, *corner.beyond)}
        for corner in corners
        for end in corner.ends
    }
    result: list[Fitted] = []
    for i, run in enumerate(runs):
        for k in range(len(pieces[i])):
            low = ends[i, "low"] if k == 0 else None
            high = ends[i, "high"] if k == len(pieces[i]) - 1 else None
            names = {**neighbors[i, "low"], **neighbors[i, "high"]}
            result.append(_fit_one(run, pieces[i], k, seats[i][k], low, high, names))
    return tuple(result)


def ends_of_whole(roof: Roof, runs: Sequence[Run]) -> dict[RunEnd, End]:
    """Return the ends of runs that are one length each, set on the deck: how far they reach, and their miters.

    Raises:
        GeometryError: a corner that cannot be made; says which.
    """
    corners = find_corners(runs, roof)
    return _straight_ends(corners, _lifts(corners, runs), runs, roof)


def _lifts(corners: Sequence[Corner], runs: Sequence[Run]) -> dict[RunEnd, Lift]:
    """Return what corners lay under each end of the runs."""
    lifted: dict[RunEnd, Lift] = {}
    for corner in corners:
        lifted |= lifts_at(corner, runs)
    return lifted


def _straight_ends(
    corners: Sequence[Corner], lifted: Mapping[RunEnd, Lift], runs: Sequence[Run], roof: Roof
) -> dict[RunEnd, End]:
    """Return the ends of runs that are one length each."""
    whole = {end: runs[end[0]].frame @ _straight(runs[end[0]], lift) for end, lift in lifted.items()}
    return _fit_corners(corners, runs, whole, roof)


def _divide_and_seat(
    corners: Sequence[Corner],
    runs: Sequence[Run],
    lifted: dict[RunEnd, Lift],
    ends: dict[RunEnd, End],
    roof: Roof,
    scene: Scene,
    least: float,
) -> tuple[list[tuple[Piece, ...]], list[list[Array]], dict[RunEnd, End]]:
    """Return the pieces of each run, their placements, and the ends of the runs as they are cut for these.

    Where a tilt makes a piece longer than its stock, its run is divided again with what the exact cuts reach; where
    what lies under a corner opens the lap next to it, with that lap farther in, so that the piece comes down to it.
    That is done once: what it leaves open stays open farther in as well.
    """
    moved: set[RunEnd] = set()
    clear = {(i, at): _pans_along(runs, i, at) for i, at in lifted}
    for _ in range(TRIES):
        pieces = [
            _divided(
                run, (ends[i, "low"], ends[i, "high"]), (clear[i, "low"], clear[i, "high"]), scene, least
            )
            for i, run in enumerate(runs)
        ]
        seats = _settle(corners, runs, pieces, lifted, ends)
        placed = {end: seats[end[0]][0 if end[1] == "low" else -1] for end in lifted}
        ends = _fit_corners(corners, runs, placed, roof)
        opened = {(i, at) for i, run in enumerate(runs) for at in _opened(run, pieces[i], seats[i])} - moved
        moved |= opened
        for end in opened:
            clear[end] = max(clear[end], ends[end].depth) + ends[end].depth
        if not opened and not any(
            _too_long(own, ends[i, "low"].reach[0], ends[i, "high"].reach[1]) for i, own in enumerate(pieces)
        ):
            break
    return pieces, seats, ends


def _divided(
    run: Run, ends: tuple[End, End], clear: tuple[float, float], scene: Scene, least: float
) -> tuple[Piece, ...]:
    """Return the pieces that fill what a run's ends reach, laps off its cuts and ``clear`` inches off its corners."""
    low, high = ends
    reach = low.reach[0], high.reach[1]
    depth = max(low.depth, clear[0] - reach[0]), max(high.depth, clear[1] + reach[1] - run.length)
    return cut_pieces(run, reach, depth, scene, least)


def _pans_along(runs: Sequence[Run], i: int, at: At) -> float:
    """Return how far in along a cap the pans of valleys at its corner lie under it, inches; 0 for other trim.

    Over a pan there are no panels, and nothing for the cap's screws to hold in.
    """
    run = runs[i]
    if not KINDS[run.trim].is_cap:
        return 0.0
    vertex = run.vertex(at)
    pans = [
        other
        for other in runs
        if KINDS[other.trim].cleated
        and vertex in other.edge.vertices
        and set(run.edge.faces) & set(other.edge.faces)
    ]
    return max((width_along(run, pan) for pan in pans), default=0.0)


def _opened(run: Run, pieces: Sequence[Piece], seats: Sequence[Array]) -> Iterator[At]:
    """Yield the ends of a run whose corner lifts the piece there so far that hems miss the one that it laps over."""
    most = lap.most_sheets(run.section)
    if len(pieces) < 2 or math.isinf(most):
        return
    nesting = run.section.nesting / (run.section.nesting @ run.section.nesting)
    at: At
    for at, (k, other) in (("low", (0, 1)), ("high", (-1, -2))):
        u = pieces[k].end if at == "low" else pieces[k].start
        shift = np.linalg.solve(run.frame, (seats[k] - seats[other]) @ [u, 0.0, 0.0, 1.0])
        if abs(float(shift[1:3] @ nesting)) > most:
            yield at


def _too_long(pieces: Sequence[Piece], low: float, high: float) -> bool:
    """Return whether an end piece comes out longer than its stock once its end reaches ``low`` or ``high``."""
    first, last = pieces[0], pieces[-1]
    spans = [(low, high)] if len(pieces) == 1 else [(low, first.end), (last.start, high)]
    return any(
        end - start > piece.stock + TAPE / 2
        for (start, end), piece in zip(spans, (first, last), strict=False)
    )


def _settle(
    corners: Sequence[Corner],
    runs: Sequence[Run],
    pieces: Sequence[Sequence[Piece]],
    lifted: dict[RunEnd, Lift],
    ends: Mapping[RunEnd, End],
) -> list[list[Array]]:
    """Return the placements of all pieces, each run laid on what its corners put under it.

    What lies under an end may be lifted itself, by its own laps or at its other end: so it is gone round until
    nothing moves.
    """
    lifted = dict(lifted)
    seats = [seat_pieces(run, pieces[i], lifted[i, "low"], lifted[i, "high"]) for i, run in enumerate(runs)]
    for _ in range(TRIES):
        moved = False
        for made in (made for corner in corners for made in corner.joints):
            for over, unders in below(made.joint.MEETING, runs, made.ends, made.around):
                i = over[0]
                lift = lift_above(made.joint.MEETING, over, unders, runs, pieces, ends, seats)
                if not lift.is_near(lifted[over]):
                    lifted[over], moved = lift, True
                    seats[i] = seat_pieces(runs[i], pieces[i], lifted[i, "low"], lifted[i, "high"])
        if not moved:
            break
    return seats


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
    """Return one piece with both its ends cut: for the corner it stands at, or for its lap with the next piece."""
    piece = pieces[k]
    low = _at_corner(low, marks) if low is not None else _at_lap(run, piece, pieces[k - 1], "low")
    high = _at_corner(high, marks) if high is not None else _at_lap(run, piece, pieces[k + 1], "high")
    sheet = checked(Sheet(run.section, low.cut, high.cut), piece.mark, run.name)
    ends = Ends(*(end.from_blank(blank) for end, blank in zip((low, high), sheet.extent, strict=True)))
    return Fitted(piece, run, sheet, placement, ends)


def _at_corner(end: End, marks: dict[str, str]) -> End:
    """Return an end of a run as the end of its piece there, which meets pieces."""
    return replace(end, others=tuple(marks[name] for name in end.others))


def _at_lap(run: Run, piece: Piece, other: Piece, at: At) -> End:
    """Return the end of ``piece`` where it overlaps ``other``, the next piece of its run."""
    if at == "low":
        u, length, on_top = piece.start, other.end - piece.start, piece.lies == "over"
    else:
        u, length, on_top = piece.end, piece.end - other.start, other.lies == "under"
    fit = lap.over if on_top else lap.under
    return fit(at, run.section, u, length, other.mark, run.spec.sealed)
