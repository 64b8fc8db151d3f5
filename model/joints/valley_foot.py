"""Valley foot: the low end of a valley's pan, over the inside corner of two eaves.

The pan lies on the top legs of both eave trims. Each wing is cut in line with its eave, which is not square to the
valley: what the panels leave open runs on past the eave trim's nose and is turned down over it as a drip, what lies
under the panels ends at the edge of the deck, out of the way of their hooks. Where a hip begins so near that its cap
would lie on the pan, the wing's outer corner is cut along that hip.

Source: common practice, no source; the angle between eave and valley in the plane of the roof, by which the foot is
cut: Hodgson, *The A B C of the Steel Square*, and rafter tables.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..message import Length, Message, Place, Round, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE
from .cap import HEM_SETBACK, MARGIN, Wing, close_middle, hem_cuts, reach_past, set_wing, wings
from .end import End, JointKind, step
from .flap import Side, flap
from .meeting import Meeting, Met, either_end, low_end
from .short_edge import ALONG, out_of
from .stand import Stand

KIND = JointKind("valley foot", message("valley foot"))
MEETING = Meeting(("eave", "eave", "valley"), (low_end("valley"),), around=either_end("eave"), rests="upon")
DRIP = 0.75
"""How far the foot hangs down past the nose of the eave trim, inches: common practice, no source."""

DOWN = np.array([0.0, 0.0, -1.0])


@dataclass(frozen=True, slots=True)
class _Beside:
    """A hip that the outer corner of a wing is cut along.

    Attributes:
        name: The edge's name.
        outer: ``u`` where it crosses the wing's outer line, inches.
        turn: ``(u, v)`` where it crosses the line of the deck's edge.
    """

    name: str
    outer: float
    turn: tuple[float, float]


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
        beside: What its outer corner is cut along; None where nothing is so near.
    """

    wing: Wing
    covered: tuple[float, float]
    shown: float
    fold: tuple[float, float]
    drip: Tab
    over: str
    beside: _Beside | None


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
        side = _side(foot, section.v)
        set_wing(ends, foot.wing, side[0][0], foot.fold[1], HEM_SETBACK, valley.sign)
        fold = [(float(u), float(v)) for u, v in foot.drip.hinge]
        inside[foot.wing.strip] = [*side[1:], *fold] if foot.wing.left else [*fold, *side[:0:-1]]
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
    covered = (at(0.0, outer), at(0.0, shown))
    beside = _beside(valley, wing, met, covered, (outer, shown))
    return _Foot(wing, covered, shown, fold, drip, edge.name, beside)


def _beside(
    valley: Stand, wing: Wing, met: Met, covered: tuple[float, float], lines: tuple[float, float]
) -> _Beside | None:
    """Return the hip that bites off the outer corner of a wing, under its cap.

    Args:
        valley: The pan's end.
        wing: The wing.
        met: What meets there.
        covered: ``u`` of its cut under the panels, at its outer line and where the panels end, inches.
        lines: ``v`` of these two.
    """
    for edge in met.roof.edges:
        if edge.kind != "hip" or wing.face not in edge.faces or valley.run.edge.vertices[0] in edge.vertices:
            continue
        normal = out_of(edge, wing.face)
        if normal @ valley.away <= ALONG:
            continue
        u = valley.cut(edge.start - normal * CLEARANCE, normal)[wing.strip]
        outer, shown = np.interp(lines, valley.section.v[wing.strip : wing.strip + 2], u)
        bites = [(there - here) * valley.sign for there, here in zip(covered, (outer, shown), strict=True)]
        if bites[1] < 0 < bites[0]:
            share = bites[0] / (bites[0] - bites[1])
            turn = (covered[0] + (covered[1] - covered[0]) * share, lines[0] + (lines[1] - lines[0]) * share)
            return _Beside(edge.name, float(outer), (float(turn[0]), float(turn[1])))
    return None


def _side(foot: _Foot, v: Array) -> list[tuple[float, float]]:
    """Return the line that a wing is cut on from its outer line to where the panels end, ``(u, v)``."""
    outer, end = float(v[foot.wing.outer]), (foot.covered[1], foot.shown)
    if foot.beside is None:
        return [(foot.covered[0], outer), end]
    return [(foot.beside.outer, outer), foot.beside.turn, end]


def _marks(feet: list[_Foot], v: Array) -> list[Step]:
    """Return the lines that are drawn, wing by wing."""
    steps = []
    for foot in feet:
        wing = foot.wing
        inner = float(v[wing.inner])
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
            step("mark", _outward(foot, inner), _side(foot, v), foot.drip.flap),
        ]
    return steps


def _outward(foot: _Foot, inner: float) -> Message:
    """Return how the lines of a wing are drawn on from where the panels end."""
    beside = foot.beside
    if beside is None:
        return message(
            "From there on draw the line of the deck's edge, to {at_outer} from the blank's end at the bend of "
            "the hem; and the drip, {depth} beyond the line before.",
            at_outer=Place(foot.covered[0]),
            depth=Length(DRIP),
        )
    return message(
        "From there on draw the line of the deck's edge, to {at_turn} from the blank's end, {across} from the rib, and "
        "on along the {edge}, whose cap lies there, to {at_outer} at the bend of the hem; and the drip, {depth} beyond "
        "the line before.",
        at_turn=Place(beside.turn[0]),
        across=Length(abs(beside.turn[1] - inner)),
        edge=beside.name,
        at_outer=Place(beside.outer),
        depth=Length(DRIP),
    )


def _cuts(valley: Stand, feet: list[_Foot], ends: Array, line: Array) -> list[Step]:
    """Return what is cut, from the outside in."""
    v = valley.section.v
    steps = []
    for foot in feet:
        drip, hinge = foot.drip, foot.drip.hinge[0 if foot.wing.left else 1]
        corner = drip.flap[1 if foot.wing.left else 0]
        steps.append(
            step(
                "cut",
                _along(foot),
                [*_side(foot, v), hinge, corner],
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


def _along(foot: _Foot) -> Message:
    """Return along what a wing is cut."""
    if foot.beside is None:
        return message(
            "Cut the {wing} along the line of the deck's edge, and on along the drip.", wing=foot.wing.words
        )
    return message(
        "Cut the {wing} along the line of the hip and that of the deck's edge, and on along the drip.",
        wing=foot.wing.words,
    )


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
