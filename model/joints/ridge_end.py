"""Ridge end: where a ridge cap closes over the rakes of a gable.

The cap runs on past the hook lips of the rakes, in line with the gable, which need not be square to the ridge; each
wing's end is turned down plumb over them. Where the rakes have no trim the end is cut square, flush with the deck.

Source: common practice, no source.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import shapely

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..message import Length, Message, Place, message
from ..runs import PAN, UNDER_PAN
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import TAPE
from .cap import (
    END_OVERHANG,
    HEM_SETBACK,
    MARGIN,
    Wing,
    close_middle,
    flatten_middle,
    hang,
    hem_cuts,
    reach_past,
    seal_slit,
    set_wing,
    wings,
)
from .end import End, JointKind, step, trace
from .flap import flap, hinges
from .meeting import Meeting, Met, either_end, high_end
from .stand import Stand

KIND = JointKind("ridge end", message("ridge end"), aloft=True)
MEETING = Meeting(("rake", "rake", "ridge"), (either_end("ridge"),), around=high_end("rake"))
COVER = 0.75
"""How far the turned-down end hangs below the panels, over the rakes' hook lips, inches."""

IN_LINE = 1e-3
"""What lies this close to a straight line is on it for snips, inches."""

Line = list[tuple[float, float]]
"""A fold line in ``(u, v)``: its point at the bend of the hem and its point at the middle bend."""


def fit(met: Met) -> tuple[End]:
    """Cut one end of a ridge cap over the rakes below it."""
    return (fit_end(met, KIND),)


def fit_end(met: Met, kind: JointKind) -> End:
    """Cut one end of a cap over what meets below it in one plane: two rakes, or a rake and high trim."""
    (cap,), below = met.ends, met.around
    square = _square(cap, below)
    over = reach_past(cap, below, square) + _lean(cap, square) + END_OVERHANG
    across, straight = _across(cap, cap.cut(cap.corner + square * over, square))
    depth = hang(cap) + COVER
    ends = square_cut(cap.section, 0.0)
    lines: list[Line] = []
    legs = tuple(one for one in below if not KINDS[one.run.trim].is_covered)
    for wing in wings(cap):
        first, last = across[wing.strip]
        outer, inner = (first, last) if wing.left else (last, first)
        lines.append(
            [
                (float(outer), float(cap.section.v[wing.outer])),
                (float(inner), float(cap.section.v[wing.inner])),
            ]
        )
        setback = max(_hem_setback(cap, lines[-1]), _off_legs(cap, wing, outer, legs))
        set_wing(ends, wing, outer, inner, setback, cap.sign)
    close_middle(ends, cap)
    left, right = (_turn_down(cap, wing, line, depth) for wing, line in zip(wings(cap), lines, strict=True))
    cut = Cut(path(cap.section, ends, hinges((left, right))), (left, right))
    work = _straight if straight and not legs else _slanting
    steps = (
        *work(cap, lines, ends, (left, right), depth),
        *_last(cap, cut, _turned(straight, bool(legs))),
    )
    return End(kind, cap.at, "over", tuple(one.run.name for one in below), cut, steps, sealed=True)


def _square(cap: Stand, below: tuple[Stand, ...]) -> Array:
    """Return the level direction in which the gable looks: along the cap, where nothing lies under its end."""
    ways = sum((one.outward for one in below), np.zeros(3))
    return np.asarray(ways / np.linalg.norm(ways)) if below else cap.away


def _lean(cap: Stand, square: Array) -> float:
    """Return how far out panels lean over what is below where a gable is not square to the cap, inches.

    At most: they lie as high as over a valley's pans.
    """
    top = max(PAN, UNDER_PAN * cap.thickness) + cap.thickness
    return max(0.0, *(top * float(cap.plane(wing.strip)[1] @ square) for wing in wings(cap)))


def _across(cap: Stand, cut: Array) -> tuple[Array, bool]:
    """Return the cut, square across where a tape does not tell it from that, and whether it is."""
    both = cut[[wing.strip for wing in wings(cap)]]
    straight = bool(np.ptp(both) < TAPE)
    return (square_cut(cap.section, float(both[0, 0])) if straight else cut), straight


def _hem_setback(cap: Stand, line: Line) -> float:
    """Return how far a hem is cut back from its wing's outer corner, so that it stays inside a slanting end."""
    (outer, first), (inner, last) = line
    back = max(0.0, (outer - inner) * cap.sign) / abs(last - first)
    left, _ = wings(cap)
    return HEM_SETBACK + back * float(cap.section.v[left.outer] - cap.section.v[0])


def _off_legs(cap: Stand, wing: Wing, outer: float, legs: tuple[Stand, ...]) -> float:
    """Return how far a hem is cut back from its wing's outer corner, so that the wing lies flat on a leg under it."""
    back = 0.0
    for one in legs:
        if wing.face in one.run.edge.faces:
            inboard = one.point(one.u, one.section.strip_of("top"))
            free = cap.cut(inboard - one.outward * HEM_SETBACK, one.outward)[[wing.strip, *wing.hems]]
            back = max(back, float(((outer - free) * cap.sign).max()))
    return back


def _turn_down(cap: Stand, wing: Wing, line: Line, depth: float) -> Tab:
    """Return the flap that closes one wing, kept clear of the bends at both its ends."""
    start, end = (np.array(point) for point in (line if wing.left else line[::-1]))
    margin = (end - start) * MARGIN / (end - start)[1]
    hinge = np.array([start + margin, end - margin])
    return flap(cap, wing.strip, hinge, depth, np.array([0.0, 0.0, -1.0]), ("plumb", "plumb"))


def _straight(cap: Stand, lines: list[Line], ends: Array, flaps: tuple[Tab, Tab], depth: float) -> list[Step]:
    """Return how an end square to the cap is marked and cut, and its flaps freed at the hems."""
    width, at = cap.section.width, lines[0][0][0]
    end = at + cap.sign * depth
    mark = message(
        "Mark the fold line square across, {at_fold} from the blank's end, and the end {depth} beyond it.",
        at_fold=Place(at),
        depth=Length(depth),
    )
    hems = message(
        "Cut the hems away back to {at_hem} from the blank's end, and free the flaps along their bends.",
        at_hem=Place(ends[0, 0]),
    )
    return [
        step("mark", mark, [(at, 0.0), (at, width)]),
        step("cut", message("Cut straight across at the end."), [(end, 0.0), (end, width)]),
        step("cut", hems, *hem_cuts(cap, ends), *_hem_sides(lines, flaps)),
    ]


def _slanting(cap: Stand, lines: list[Line], ends: Array, flaps: tuple[Tab, Tab], depth: float) -> list[Step]:
    """Return the same for an end over a gable that is not square to the cap, or over high trim."""
    marks = [
        step(
            "mark",
            message(
                "On the {wing} draw the line of the gable: {at_inner} from the blank's end at the middle bend, "
                "{at_outer} at the bend of the hem; and the end {depth} beyond it.",
                wing=wing.words,
                at_inner=Place(inner[0]),
                at_outer=Place(outer[0]),
                depth=Length(depth),
            ),
            [outer, inner],
        )
        for wing, (outer, inner) in zip(wings(cap), lines, strict=True)
    ]
    hems = message(
        "Cut the hems away back to {at_left} from the blank's end on the left and {at_right} on the right, and free "
        "the flaps along their bends.",
        at_left=Place(ends[0, 0]),
        at_right=Place(ends[-1, 0]),
    )
    return [
        *marks,
        step("cut", message("Cut both wings along the outer lines."), *(tab.flap for tab in flaps)),
        step("cut", hems, *hem_cuts(cap, ends), *_hem_sides(lines, flaps)),
    ]


def _hem_sides(lines: list[Line], flaps: tuple[Tab, Tab]) -> list[list[Any]]:
    """Return the sides of both flaps at the hems, from their corners past the fold lines to the bends."""
    left, right = flaps
    return [[left.flap[1], left.hinge[0], lines[0][0]], [right.flap[0], right.hinge[1], lines[1][0]]]


def _turned(straight: bool, is_over_high: bool) -> Message:
    """Return how far the flaps are turned down, and over what."""
    if is_over_high:
        return message(
            "Turn both flaps down until they hang plumb, over the rake's hook lip and the high trim's face."
        )
    if straight:
        return message("Turn both flaps down 90 degrees over the hook lips of the rakes.")
    return message("Turn both flaps down until they hang plumb, over the hook lips of the rakes.")


def _last(cap: Stand, cut: Cut, fold: Message) -> list[Step]:
    """Return how the flaps are freed from each other, folded and sealed."""
    left, right = cut.tabs
    between = trace(cut.line, left.hinge[1, 1], right.hinge[0, 1])[::-1]
    middle = shapely.LineString(between).simplify(IN_LINE).coords
    snip = message(
        "Snip from the end to the fold line at the middle bend, and taper both flaps "
        "there so that their inner edges will hang plumb."
    )
    return [
        step("cut", snip, [left.flap[0], *middle, right.flap[1]]),
        *flatten_middle(cap, cut.tabs),
        step("fold", fold, left.hinge, right.hinge),
        seal_slit(),
    ]
