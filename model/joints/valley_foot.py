"""Valley foot: the low end of a valley's pan, over the inside corner of two eaves.

The pan lies on the top legs of both eave trims. Each wing is cut in line with its eave, which is not square to the
valley: what the panels leave open runs on past the eave trim's nose and is turned down over it as a drip, what lies
under the panels ends at the edge of the deck, out of the way of their hooks.

Source: common practice, no source; the angle between eave and valley in the plane of the roof, by which the foot is
cut: Hodgson, *The A B C of the Steel Square*, and rafter tables.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..message import Length, Place, Round, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE
from .cap import HEM_SETBACK, MARGIN, Wing, close_middle, hem_cuts, reach_past, set_wing, wings
from .end import End, JointKind, step
from .flap import Side, flap
from .meeting import Meeting, Met, either_end, low_end
from .stand import Stand

KIND = JointKind("valley foot", message("valley foot"))
MEETING = Meeting(("eave", "eave", "valley"), (low_end("valley"),), around=either_end("eave"), rests="upon")
DRIP = 0.75
"""How far the foot hangs down past the nose of the eave trim, inches: common practice, no source."""

DOWN = np.array([0.0, 0.0, -1.0])


@dataclass(frozen=True, slots=True, eq=False)
class _Foot:
    """How one wing ends.

    Attributes:
        wing: The wing.
        covered: ``u`` of its cut under the panels, at its outer line and where the panels end, inches.
        shown: ``v`` of the line where the panels end, inches.
        fold: ``u`` of the fold of its drip there and at its inner line, inches.
        drip: What is turned down.
        over: Name of the edge that it ends over.
    """

    wing: Wing
    covered: tuple[float, float]
    shown: float
    fold: tuple[float, float]
    drip: Tab
    over: str


def fit(met: Met) -> tuple[End]:
    """Cut the low end of a pan over the eave trim below it, as far as there is any."""
    return (fit_foot(met, KIND),)


def fit_foot(met: Met, kind: JointKind) -> End:
    """Cut the low end of a pan over what lies below it on both sides."""
    (valley,) = met.ends
    section = valley.section
    feet = [_foot(valley, wing, met.around, met) for wing in wings(valley)]
    ends = square_cut(section, 0.0)
    inside: dict[int, list[tuple[float, float]]] = {}
    for foot in feet:
        set_wing(ends, foot.wing, foot.covered[0], foot.fold[1], HEM_SETBACK, valley.sign)
        points = [(foot.covered[1], foot.shown), *((float(u), float(v)) for u, v in foot.drip.hinge)]
        if not foot.wing.left:
            points = [points[1], points[2], points[0]]
        inside[foot.wing.strip] = points
    close_middle(ends, valley)
    line = path(section, ends, inside)
    cut = Cut(line, tuple(foot.drip for foot in feet))
    others = tuple(eave.run.name for eave in met.around)
    steps = (*_marks(feet, section.v), *_cuts(valley, feet, ends, line), *_setting(feet))
    return End(kind, valley.at, "over", others, cut, steps, sealed=True)


def _foot(valley: Stand, wing: Wing, eaves: tuple[Stand, ...], met: Met) -> _Foot:
    """Return how one wing ends over its own eave."""
    section = valley.section
    own = tuple(eave for eave in eaves if wing.face in eave.run.edge.faces)
    edge = next(edge for edge in met.edges if len(edge.faces) == 1 and wing.face in edge.faces)
    square = edge.outward * [1.0, 1.0, 0.0]
    square = np.asarray(square / np.linalg.norm(square))
    past = reach_past(valley, own, square) + valley.thickness + CLEARANCE
    inner, outer = float(section.v[wing.inner]), float(section.v[wing.outer])
    middle = float(np.linalg.norm(section.points[wing.inner]))
    toward = 1.0 if outer > inner else -1.0
    shown = inner + toward * min(max(KINDS["valley"].short - middle, 1.0), abs(outer - inner) - 1.0)

    def at(place: float, v: float) -> float:
        first, last = valley.cut(valley.corner + square * place, square)[wing.strip]
        low, high = section.v[wing.strip], section.v[wing.strip + 1]
        return float(first + (last - first) * (v - low) / (high - low))

    fold = (at(past, shown), at(past, inner))
    line = [(at(past, v), v) for v in (shown, inner - (inner - shown) / abs(inner - shown) * MARGIN)]
    hinge = np.array(line if wing.left else line[::-1])
    between = abs(inner - section.width / 2)
    side: Side = 0.0 if between > DRIP else "along"
    drip = flap(valley, wing.strip, hinge, DRIP, DOWN, ("plumb", side) if wing.left else (side, "plumb"))
    return _Foot(wing, (at(0.0, outer), at(0.0, shown)), shown, fold, drip, edge.name)


def _marks(feet: list[_Foot], v: Array) -> list[Step]:
    """Return the lines that are drawn, wing by wing."""
    steps = []
    for foot in feet:
        wing = foot.wing
        outer, inner = float(v[wing.outer]), float(v[wing.inner])
        steps += [
            step(
                "mark",
                message(
                    "On the {wing} draw the line of the {edge}: {at_inner} from the blank's end at the rib, {at_shown} "
                    "where the panels will end, {across} from the rib.",
                    wing=wing.words,
                    edge=foot.over,
                    at_inner=Place(foot.fold[1]),
                    at_shown=Place(foot.fold[0]),
                    across=Length(abs(foot.shown - inner)),
                ),
                [(foot.fold[0], foot.shown), (foot.fold[1], inner)],
            ),
            step(
                "mark",
                message(
                    "From there on draw the line of the deck's edge, to {at_outer} from the blank's end at the bend of "
                    "the hem; and the drip, {depth} beyond the line before.",
                    at_outer=Place(foot.covered[0]),
                    depth=Length(DRIP),
                ),
                [(foot.covered[0], outer), (foot.covered[1], foot.shown)],
                foot.drip.flap,
            ),
        ]
    return steps


def _cuts(valley: Stand, feet: list[_Foot], ends: Array, line: Array) -> list[Step]:
    """Return what is cut, from the outside in."""
    v = valley.section.v
    steps = []
    for foot in feet:
        outer = float(v[foot.wing.outer])
        drip, beside = foot.drip, foot.drip.hinge[0 if foot.wing.left else 1]
        corner = drip.flap[1 if foot.wing.left else 0]
        steps.append(
            step(
                "cut",
                message(
                    "Cut the {wing} along the line of the deck's edge, and on along the drip.",
                    wing=foot.wing.words,
                ),
                [(foot.covered[0], outer), (foot.covered[1], foot.shown), beside, corner],
                drip.flap,
            )
        )
    left, right = (foot.drip for foot in feet)
    between = [row for row in line.tolist() if left.hinge[1, 1] <= row[1] <= right.hinge[0, 1]]
    steps += [
        step(
            "cut",
            message(
                "Cut the hems away back to {at_left} from the blank's end on the left and {at_right} on the right.",
                at_left=Place(ends[0, 0]),
                at_right=Place(ends[-1, 0]),
            ),
            *hem_cuts(valley, ends),
        ),
        step(
            "cut",
            message("Cut the rib off between the two drips, and free them along its bends."),
            [left.flap[0], *between, right.flap[1]],
        ),
    ]
    return steps


def _setting(feet: list[_Foot]) -> list[Step]:
    """Return the folds, and how the pan is set."""
    return [
        step(
            "fold",
            message("Turn both drips down until they hang plumb, over the noses of the trim below."),
            *(foot.drip.hinge for foot in feet),
        ),
        step(
            "set",
            message(
                "Lay it over the trim below, whose screws under it have flat heads, bedded in sealant. Hold it by "
                "cleats on both hems, {apart} apart or less, and by nails at its head alone: it has to move.",
                apart=Round(12, 300),
            ),
        ),
        step("seal", message("Close the end of the rib with sealant.")),
    ]
