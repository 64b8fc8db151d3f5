"""Hip foot: the low end of a hip cap, over the corner of two eaves.

Each wing is cut in line with its eave, clear of the eave trim's nose and of the panels, whose seams and turned
edges stand square to the deck and so lean out over the eave; it is turned down plumb to close the end. Where the
slopes differ much, the hip leaves the corner beside its middle: one wing then ends at both eaves, with a flap more.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import POINT
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
    rise,
    seal_slit,
    set_wing,
    wings,
)
from .end import End, JointKind, step
from .flap import Side, flap
from .meeting import Meeting, Met, either_end, low_end
from .stand import Stand, meet

KIND = JointKind("hip foot", message("hip foot"))
MEETING = Meeting(("eave", "eave", "hip"), (low_end("hip"),), around=either_end("eave"))
DOWN = np.array([0.0, 0.0, -1.0])

Point = tuple[float, float]
"""``(u, v)`` on the sheet, inches."""

LEAST_FLAP = 1.0
"""A third flap is made where the two eaves lie so unlike that it is this wide or wider, inches: tongs hold it."""


@dataclass(frozen=True, slots=True, eq=False)
class _Side:
    """How far one wing reaches.

    Attributes:
        wing: The wing.
        square: ``(3,)`` level unit vector in which the face under it falls: square to its eave.
        past: How far out from the deck's corner along ``square`` it ends, inches.
    """

    wing: Wing
    square: Array
    past: float

    def along(self, hip: Stand) -> float:
        """Return how far along the hip, level, it reaches at the middle bend, inches."""
        return self.past / float(hip.away @ self.square)


def fit(met: Met) -> tuple[End]:
    """Cut the low end of a hip cap over the eave trim below it, as far as there is any."""
    (hip,) = met.ends
    return (_foot(hip, met.around),)


def _foot(hip: Stand, eaves: tuple[Stand, ...]) -> End:
    ends = square_cut(hip.section, 0.0)
    depth = hang(hip)
    sides = _sides(hip, eaves)
    tabs: list[Tab] = []
    inside: dict[int, list[Point]] = {}
    marks: list[Step] = []
    lines = [_line(hip, side, sides) for side in sides]
    draw = _draw(lines)
    for side, line in zip(sides, lines, strict=True):
        wing = side.wing
        set_wing(ends, wing, line[0][0], line[-1][0], HEM_SETBACK, hip.sign)
        flaps = _turn_down(hip, wing, line, depth, draw)
        corners = (line if wing.left else line[::-1])[1:-1]
        inside[wing.strip] = [*_hinge(flaps[0]), *corners, *(p for tab in flaps[1:] for p in _hinge(tab))]
        marks += _marks(wing, line, flaps, depth)
        tabs += flaps
    close_middle(ends, hip)
    cut = Cut(path(hip.section, ends, inside), tuple(tabs))
    cuts = _cuts(hip, ends, cut.line, tabs)
    steps = (*marks, *cuts, *flatten_middle(hip, tabs), _fold(tabs), seal_slit())
    return End(KIND, hip.at, "over", tuple(eave.run.name for eave in eaves), cut, steps, sealed=True)


def _sides(hip: Stand, eaves: tuple[Stand, ...]) -> tuple[_Side, _Side]:
    """Return how far both wings reach: each past its own eave, and as far along the hip where that differs little."""
    sides = tuple(_Side(wing, _square(hip, wing, eaves), _past(hip, wing, eaves)) for wing in wings(hip))
    near, far = sorted(sides, key=lambda side: side.along(hip))
    way = np.array([-near.square[1], near.square[0], 0.0])
    between = (far.past - near.along(hip) * float(hip.away @ far.square)) / abs(float(way @ far.square))
    if between < LEAST_FLAP:
        wider = replace(near, past=far.along(hip) * float(hip.away @ near.square))
        return (wider, far) if wider.wing.left else (far, wider)
    return sides[0], sides[1]


def _line(hip: Stand, side: _Side, sides: tuple[_Side, _Side]) -> list[Point]:
    """Return the line that a wing is cut and folded on, from its outer end to the middle bend.

    It runs in line with the wing's own eave. Where the other wing ends sooner, it turns at the corner of the two eaves
    into the line of the other one.
    """
    other = sides[1] if side is sides[0] else sides[0]
    outer, inner = _straight(hip, side.wing, side)
    if side.along(hip) - other.along(hip) <= POINT:
        return [outer, inner]
    plan = np.linalg.solve(np.array([side.square, other.square])[:, :2], np.array([side.past, other.past]))
    corner = meet(hip, side.wing.strip, hip.corner + np.append(plan, 0.0), DOWN)
    u, v = hip.on_sheet(side.wing.strip, corner)
    return [outer, (float(u), float(v)), _straight(hip, side.wing, other)[1]]


def _straight(hip: Stand, wing: Wing, side: _Side) -> list[Point]:
    """Return where the line of a side's eave crosses a wing: at its outer line and at the middle bend."""
    u = hip.cut(hip.corner + side.square * side.past, side.square)[wing.strip]
    outer, inner = (u[0], u[1]) if wing.left else (u[1], u[0])
    v = hip.section.v
    return [(float(outer), float(v[wing.outer])), (float(inner), float(v[wing.inner]))]


def _hinge(tab: Tab) -> list[Point]:
    return [(float(u), float(v)) for u, v in tab.hinge]


def _marks(wing: Wing, line: list[Point], tabs: list[Tab], depth: float) -> tuple[Step, Step]:
    """Return how one wing's fold line and its cut are drawn."""
    if len(line) == 2:
        draw = message(
            "On the {wing} draw the line of the eave: {at_inner} from the blank's end at the "
            "middle bend, {at_outer} at the bend of the hem.",
            wing=wing.words,
            at_inner=Place(line[1][0]),
            at_outer=Place(line[0][0]),
        )
    else:
        draw = message(
            "On the {wing} draw the line of the eave, from {at_outer} from the blank's end at the bend of the hem "
            "to {at_corner} from it, {off} off the middle bend; and from there the line of the other eave, "
            "to {at_inner} at the middle bend.",
            wing=wing.words,
            at_outer=Place(line[0][0]),
            at_corner=Place(line[1][0]),
            off=Length(abs(line[2][1] - line[1][1])),
            at_inner=Place(line[2][0]),
        )
    cut = message("Draw the {wing}'s cut {depth} beyond it.", wing=wing.words, depth=Length(depth))
    return step("mark", draw, line), step("mark", cut, *(tab.flap for tab in tabs))


def _cuts(hip: Stand, ends: Array, line: Array, tabs: list[Tab]) -> tuple[Step, Step, Step]:
    """Return how the flaps are cut out and freed: along their outer lines, at the hems, and from each other."""
    slits = []
    for one, next_one in pairwise(tabs):
        between = [row for row in line.tolist() if one.hinge[1, 1] <= row[1] <= next_one.hinge[0, 1]]
        slits.append([one.flap[0], *between, next_one.flap[1]])
    if len(tabs) == 2:
        snip = message("Snip between the two flaps up to the middle bend.")
    else:
        snip = message(
            "Snip between the flaps: up to the middle bend, and up to the corner of the two fold lines."
        )
    return (
        step("cut", message("Cut both wings along the outer lines."), *(tab.flap for tab in tabs)),
        step(
            "cut",
            message(
                "Cut the hems away back to {at_left} from the blank's end on the left and "
                "{at_right} on the right, and the sides of the flaps along their bends.",
                at_left=Place(ends[0, 0]),
                at_right=Place(ends[-1, 0]),
            ),
            *hem_cuts(hip, ends),
            _from_bend(hip, tabs[0], 1),
            _from_bend(hip, tabs[-1], 0),
        ),
        step("cut", snip, *slits),
    )


def _fold(tabs: list[Tab]) -> Step:
    """Return how the flaps are folded."""
    if len(tabs) == 2:
        told = message("Turn both flaps down until they hang plumb; their edges meet on the corner.")
    else:
        told = message("Turn the flaps down until they hang plumb; their edges meet on the corners.")
    return step("fold", told, *(tab.hinge for tab in tabs))


def _past(hip: Stand, wing: Wing, eaves: Sequence[Stand]) -> float:
    """Return how far out from the corner, level and square to its eave, a wing clears what stands out below it."""
    square = _square(hip, wing, eaves)
    own = tuple(eave for eave in eaves if wing.face in eave.run.edge.faces)
    _, normal = hip.plane(wing.strip)
    lean = rise(hip) * float(normal @ square)
    return reach_past(hip, own, square) + lean + END_OVERHANG


def _square(hip: Stand, wing: Wing, eaves: Sequence[Stand]) -> Array:
    """Return the level direction in which the face under a wing falls: square to its eave."""
    own = next((eave for eave in eaves if wing.face in eave.run.edge.faces), None)
    return own.outward if own is not None else _eave_side(hip, wing.face)


def _draw(lines: list[list[Point]]) -> float:
    """Return how far the flaps beside the middle bend draw in for each inch out, to clear each other on the sheet.

    Where the wing with three flaps runs out past the other one's line, the two lines leave a hollow between them.
    """
    ways = [np.array(line[-1]) - np.array(line[-2]) for line in lines]
    one, other = ways[0] / np.linalg.norm(ways[0]), -ways[1] / np.linalg.norm(ways[1])
    turn = math.atan2(float(one[0] * other[1] - one[1] * other[0]), float(one @ other))
    return math.tan(turn / 2) + 2 * MARGIN if turn > 0.0 else 0.0


def _turn_down(hip: Stand, wing: Wing, line: list[Point], depth: float, draw: float) -> list[Tab]:
    """Return the flaps that close one wing, in the order of the cut, kept clear of each other and the wing's ends."""
    points = np.array(line if wing.left else line[::-1])
    tabs = []
    for k, (start, end) in enumerate(pairwise(points)):
        along = end - start
        margin = MARGIN / np.linalg.norm(along)
        hinge = np.array([start + along * margin, end - along * margin])
        first: Side = "along" if wing.left and k == 0 else "plumb"
        last: Side = "along" if not wing.left and k == len(points) - 2 else "plumb"
        least = (
            draw if not wing.left and k == 0 else 0.0,
            draw if wing.left and k == len(points) - 2 else 0.0,
        )
        tabs.append(flap(hip, wing.strip, hinge, depth, DOWN, (first, last), least))
    return tabs


def _from_bend(hip: Stand, tab: Tab, corner: int) -> list[Array]:
    """Return the side of a flap at its hem, from its corner past its fold line to the wing's own corner."""
    hinge = tab.hinge[1 - corner]
    wing = next(wing for wing in wings(hip) if wing.strip == tab.strip)
    way = tab.hinge[1] - tab.hinge[0]
    end = hinge + way * (hip.section.v[wing.outer] - hinge[1]) / way[1]
    return [tab.flap[corner], hinge, end]


def _eave_side(hip: Stand, face: int) -> Array:
    """Return the level direction in which the face falls, from the wing's own slope."""
    wing = next(wing for wing in wings(hip) if wing.face == face)
    _, normal = hip.plane(wing.strip)
    flat = normal * [1.0, 1.0, 0.0]
    return np.asarray(flat / np.linalg.norm(flat))
