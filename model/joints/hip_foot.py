"""Hip foot: the low end of a hip cap, over the corner of two eaves.

Each wing is cut in line with its eave, clear of the eave trim's nose and of the panels, whose seams and turned
edges stand square to the deck and so lean out over the eave; it is turned down plumb to close the end.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from .cap import (
    END_OVERHANG,
    HEM_SETBACK,
    MARGIN,
    Wing,
    close_middle,
    hang,
    hem_cuts,
    reach_past,
    rise,
    seal_slit,
    set_wing,
    wings,
)
from .end import End, JointKind, step
from .flap import flap, hinges
from .meeting import Meeting, Met, either_end, low_end
from .stand import Stand

KIND = JointKind("hip foot", message("hip foot"))
MEETING = Meeting(("eave", "eave", "hip"), (low_end("hip"),), around=either_end("eave"))
DOWN = np.array([0.0, 0.0, -1.0])


def fit(met: Met) -> tuple[End]:
    """Cut the low end of a hip cap over the eave trim below it, as far as there is any."""
    (hip,) = met.ends
    return (_foot(hip, met.around),)


def _foot(hip: Stand, eaves: tuple[Stand, ...]) -> End:
    ends = square_cut(hip.section, 0.0)
    depth = hang(hip)
    reach = max(_reach(hip, wing, eaves) for wing in wings(hip))
    tabs: list[Tab] = []
    marks: list[Step] = []
    for wing in wings(hip):
        outer, inner = line = _line_of_eave(hip, wing, _square(hip, wing, eaves), reach)
        set_wing(ends, wing, outer[0], inner[0], HEM_SETBACK, hip.sign)
        tabs.append(_turn_down(hip, wing, line if wing.left else line[::-1], depth))
        marks += _marks(wing, line, tabs[-1], depth)
    close_middle(ends, hip)
    left, right = tabs
    cut = Cut(path(hip.section, ends, hinges(tabs)), (left, right))
    steps = (
        *marks,
        *_cuts(hip, ends, cut.line, left, right),
        step(
            "fold",
            message("Turn both flaps down until they hang plumb; their edges meet on the corner."),
            left.hinge,
            right.hinge,
        ),
        seal_slit(),
    )
    return End(KIND, hip.at, "over", tuple(eave.run.name for eave in eaves), cut, steps, sealed=True)


def _line_of_eave(hip: Stand, wing: Wing, square: Array, reach: float) -> list[tuple[float, float]]:
    """Return the line in line with its eave that a wing is cut and folded on: its outer point and its inner one."""
    at = hip.corner + square * (reach * float(hip.away @ square))
    u = hip.cut(at, square)[wing.strip]
    outer, inner = (u[0], u[1]) if wing.left else (u[1], u[0])
    v = hip.section.v
    return [(float(outer), float(v[wing.outer])), (float(inner), float(v[wing.inner]))]


def _marks(wing: Wing, line: list[tuple[float, float]], tab: Tab, depth: float) -> tuple[Step, Step]:
    """Return how one wing's fold line and its cut are drawn."""
    (outer, _), (inner, _) = line
    return (
        step(
            "mark",
            message(
                "On the {wing} draw the line of the eave: {at_inner} from the blank's end at the "
                "middle bend, {at_outer} at the bend of the hem.",
                wing=wing.words,
                at_inner=Place(inner),
                at_outer=Place(outer),
            ),
            line,
        ),
        step(
            "mark",
            message("Draw the {wing}'s cut {depth} beyond it.", wing=wing.words, depth=Length(depth)),
            tab.flap,
        ),
    )


def _cuts(hip: Stand, ends: Array, line: Array, left: Tab, right: Tab) -> tuple[Step, Step, Step]:
    """Return how the flaps are cut out and freed: along their outer lines, at the hems, and from each other."""
    between = [row for row in line.tolist() if left.hinge[1, 1] <= row[1] <= right.hinge[0, 1]]
    return (
        step("cut", message("Cut both wings along the outer lines."), left.flap, right.flap),
        step(
            "cut",
            message(
                "Cut the hems away back to {at_left} from the blank's end on the left and "
                "{at_right} on the right, and the sides of the flaps along their bends.",
                at_left=Place(ends[0, 0]),
                at_right=Place(ends[-1, 0]),
            ),
            *hem_cuts(hip, ends),
            _from_bend(hip, left, 1),
            _from_bend(hip, right, 0),
        ),
        step(
            "cut",
            message("Snip between the two flaps up to the middle bend."),
            [left.flap[0], *between, right.flap[1]],
        ),
    )


def _reach(hip: Stand, wing: Wing, eaves: Sequence[Stand]) -> float:
    """Return how far along the hip, level, a wing must reach to clear what stands out past the corner below it."""
    square = _square(hip, wing, eaves)
    own = tuple(eave for eave in eaves if wing.face in eave.run.edge.faces)
    _, normal = hip.plane(wing.strip)
    lean = rise(hip) * float(normal @ square)
    return (reach_past(hip, own, square) + lean + END_OVERHANG) / float(hip.away @ square)


def _square(hip: Stand, wing: Wing, eaves: Sequence[Stand]) -> Array:
    """Return the level direction in which the face under a wing falls: square to its eave."""
    own = next((eave for eave in eaves if wing.face in eave.run.edge.faces), None)
    return own.outward if own is not None else _eave_side(hip, wing.face)


def _turn_down(hip: Stand, wing: Wing, line: list[tuple[float, float]], depth: float) -> Tab:
    """Return the flap that closes one wing, kept clear of the wing's two ends."""
    start, end = np.array(line)
    along = end - start
    margin = MARGIN / np.linalg.norm(along)
    hinge = np.array([start + along * margin, end - along * margin])
    return flap(hip, wing.strip, hinge, depth, DOWN, ("along", "plumb") if wing.left else ("plumb", "along"))


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
