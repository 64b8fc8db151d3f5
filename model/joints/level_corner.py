"""Corner of two level trims, outside or inside, at any plan angle: what both have in common.

The faces are mitered on their common plumb line, top legs and hook lips on the roof's own edge that runs up from the
corner, kicks on the line that halves the corner in plan. The piece on top folds a tab onto the other one's face.

Source: common practice, no source; miter on the bisector: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..edge_kinds import EdgeKind
from ..geometry.arrays import Array
from ..message import Angle, Length, Message, Place, Value, message
from ..runs import Run
from ..sheet.cut import path
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE
from .end import At, End, JointKind, step, trace
from .face_miter import Miter, miter_onto
from .kick import miter_kick
from .meeting import Meeting, Met, either_end
from .stand import Stand

MOST_BACK = 3 * CLEARANCE
"""How far the piece underneath is held back from the edge above at most, inches: where that runs beside it."""


@dataclass(frozen=True, slots=True)
class LevelCorner:
    """What differs between an outside and an inside corner.

    Attributes:
        kind: What the joint is called.
        edge: Kind of the edge of the roof that runs up from it: a hip from an outside, a valley from an inside corner.
        lip: How the hook lip is cut.
        fold: How the tab is folded; ``{turn}`` is by how much.
        top: How the top leg is cut, at ``{at_inner}`` and ``{at_outer}`` along the piece.
    """

    kind: JointKind
    edge: EdgeKind
    lip: Message
    fold: Message
    top: Message


def meeting_below(edge: EdgeKind) -> Meeting:
    """Return what such a corner is made for: the ends of two eave trims where a kind of edge runs up."""
    ends = either_end("eave")
    return Meeting(("eave", "eave", edge), (ends, ends), last=_shows_least, turns=True, rests="beside")


def _shows_least(run: Run, _: At) -> tuple[float, float]:
    """Sort key: trim that faces the front or the back lies over trim that faces a side, where the tab shows less."""
    return (round(abs(float(run.edge.outward[1])), 6), run.length)


def fit_corner(met: Met, corner: LevelCorner) -> tuple[End, End]:
    """Cut the two ends that meet: the one that the tab is folded onto, and the one that has it.

    Args:
        met: What meets.
        corner: What the corner is.
    """
    under, over = met.ends
    line = next(one.direction for one in met.edges if one.kind == corner.edge)
    miter = miter_onto(over, under, over.run.spec.tab)
    cuts = _Cuts(
        plumb=np.array([line[1], -line[0], 0.0]) / math.hypot(line[0], line[1]),
        halving=under.away - over.away,
        foot=_common_line(under, over),
    )
    return _under(under, over, cuts, corner), _over(under, over, miter, cuts, corner)


@dataclass(frozen=True, slots=True, eq=False)
class _Cuts:
    """The planes that the two ends are cut on.

    Attributes:
        plumb: ``(3,)`` level normal of the plumb plane through the roof's edge that runs up from the corner.
        halving: ``(3,)`` normal of the plane that halves the corner.
        foot: ``(3,) float, inches``: a point on the plumb line where the faces meet.
    """

    plumb: Array
    halving: Array
    foot: Array


def _common_line(under: Stand, over: Stand) -> Array:
    """Return a point of the plumb line where the two faces' mid planes meet."""
    planes = [stand.plane(stand.section.strip_of("face")) for stand in (under, over)]
    normals = np.array([planes[0][1], planes[1][1], [0.0, 0.0, 1.0]])
    sides = np.array([planes[0][0] @ planes[0][1], planes[1][0] @ planes[1][1], under.corner[2]])
    return np.asarray(np.linalg.solve(normals, sides))


def _over(under: Stand, over: Stand, miter: Miter, cuts: _Cuts, corner: LevelCorner) -> End:
    section, face, v = over.section, miter.strip, over.section.v
    ends = over.cut(over.corner, cuts.plumb)
    turn = _short_of_nose(over, under, ends, corner)
    _hold_back(over, ends, miter.u[0])
    ends[face] = miter.u
    ends[face + 1 :] = over.cut(cuts.foot, cuts.halving)[face + 1 :]
    if corner.edge == "valley":
        _clear_of_face(over, under, ends)
    lower = _below_kick(over, miter)
    inside = [] if miter.tab is None else [(float(u), float(w)) for u, w in miter.tab.hinge]
    if lower:
        inside += lower[:-1] if miter.tab is None else lower[1:-1]
        ends[face, 1] = lower[-1][0]
    cut = path(section, ends, {**turn, face: inside})
    mark = message(
        "Mark the miter line on the face, {at_face} from the blank's end.", at_face=Place(miter.u[1])
    )
    steps = [step("mark", mark, miter.line(v))]
    if miter.tab is not None:
        out = message(
            "Cut the face {tab} beyond the miter line, from the drip edge inward.",
            tab=Length(over.run.spec.tab),
        )
        steps.append(step("cut", out, miter.tab.flap))
    steps += _upper_cuts(over, ends, cut, corner, turn)
    steps.append(miter_kick(over, cut))
    if miter.tab is not None:
        steps.append(_free_tab(over, miter, miter.tab, below=not lower))
    if lower:
        back = message(
            "Below the line of the other piece's {drip} cut the face {back} farther back, clear of it.",
            drip=under.drip,
            back=Length(abs(lower[1][0] - lower[0][0])),
        )
        steps.append(step("cut", back, lower))
    if miter.tab is not None:
        steps += _fold_tab(miter.tab, corner)
    return End(
        corner.kind,
        over.at,
        "over",
        (under.run.name,),
        Cut(cut, () if miter.tab is None else (miter.tab,)),
        tuple(steps),
        sealed=miter.tab is not None,
        tab=miter.tab,
        miter=miter.line(v),
    )


def _clear_of_face(over: Stand, under: Stand, ends: Array) -> None:
    """Keep a kick clear of the face that hangs lower than its own one, where slopes of unequal pitch meet."""
    face, other = over.section.strip_of("face"), under.section.strip_of("face")
    foot = float(under.point(under.u, other + 1)[2])
    point, normal = under.plane(other, (over.thickness + under.thickness) / 2 + CLEARANCE)
    back = over.cut(point, normal)
    for strip in range(face + 1, over.section.strips):
        for side in (0, 1):
            if float(over.point(over.u, strip + side)[2]) > foot - CLEARANCE:
                held = min(ends[strip, side] * over.sign, back[strip, side] * over.sign)
                ends[strip, side] = held * over.sign


def _below_kick(over: Stand, miter: Miter) -> list[tuple[float, float]]:
    """Return the cut of a face that hangs lower than its neighbor's, from that one's kick down to its own bend.

    The kick underneath runs out past the corner there, so the face stays clear of it.
    """
    v, face = over.section.v, miter.strip
    relief = over.thickness + CLEARANCE
    begin = float(miter.notch[1]) - relief
    if float(miter.notch[1]) > v[face + 1] - CLEARANCE:
        return []
    back = over.sign * (relief + CLEARANCE)
    return [
        (miter.at(begin, v), begin),
        (miter.at(begin, v) - back, begin),
        (miter.u[1] - back, float(v[face + 1])),
    ]


def _fold_tab(tab: Tab, corner: LevelCorner) -> tuple[Step, Step]:
    """Return how the tab is folded and closed."""
    return (
        step("fold", _filled(corner.fold, turn=Angle(abs(tab.angle))), tab.hinge),
        step("seal", message("Bed the tab in sealant when the piece is set.")),
    )


def _free_tab(over: Stand, miter: Miter, tab: Tab, below: bool) -> Step:
    """Return the cuts that free the tab; the one below it too where nothing else is cut off there."""
    v, face = over.section.v, miter.strip
    notch = message(
        "Notch the tab off the {drip} and off the {bend}, and cut the rest of the face on the miter line.",
        drip=over.drip,
        bend=over.upper_bend,
    )
    under_it = [tab.flap[0], tab.hinge[1], *([(miter.u[1], v[face + 1])] if below else [])]
    return step("cut", notch, under_it, [tab.flap[1], tab.hinge[0], (miter.u[0], v[face])])


def _under(under: Stand, over: Stand, cuts: _Cuts, corner: LevelCorner) -> End:
    plumb = cuts.plumb
    section, face = under.section, under.section.strip_of("face")
    back = -under.away * _apart(under, over, cuts)
    away = float(plumb @ under.away)
    clear = math.copysign(min(CLEARANCE, MOST_BACK * abs(away)), away)
    ends = under.cut(under.corner - plumb * clear, plumb)
    turn = _short_of_nose(under, over, ends, corner)
    ends[face] = _behind(under, over, face)
    _hold_back(under, ends, float(ends[face, 0]))
    ends[face + 1 :] = under.cut(cuts.foot + back, cuts.halving)[face + 1 :]
    cut = path(section, ends, turn)
    v = section.v
    steps = (
        step(
            "mark",
            message(
                "Mark the corner on the face, {at_face} from the blank's end.", at_face=Place(ends[face, 1])
            ),
            [(ends[face, 0], v[face]), (ends[face, 1], v[face + 1])],
        ),
        step(
            "cut",
            message("Cut the face plumb on the mark."),
            [(ends[face, 1], v[face + 1]), (ends[face, 0], v[face])],
        ),
        *_upper_cuts(under, ends, cut, corner, turn),
        miter_kick(under, cut),
        step("set", message("Set it first: the other piece's tab goes over it.")),
    )
    return End(corner.kind, under.at, "under", (over.run.name,), Cut(cut), steps)


def _apart(under: Stand, over: Stand, cuts: _Cuts) -> float:
    """Return how far the kick underneath is held back from the line that halves the corner, inches.

    Where a bend stands upright its metal, cut square, reaches past a slanting line on one of its sides.
    """
    slant = abs(float(cuts.halving @ under.away)) / float(np.linalg.norm(cuts.halving))
    bevel = (under.thickness + over.thickness) / 2 * math.sqrt(max(1.0 - slant**2, 0.0)) / max(slant, 0.1)
    return max(CLEARANCE, bevel)


def _behind(under: Stand, over: Stand, face: int) -> Array:
    """Return where the face underneath ends behind the other one: nearly in line with it at a blunt corner."""
    touching, clear = (
        under.cut(*over.plane(over.section.strip_of("face"), -over.thickness - room))[face]
        for room in (0.0, CLEARANCE)
    )
    return np.asarray(touching + np.clip(clear - touching, -CLEARANCE, CLEARANCE))


def _hold_back(stand: Stand, ends: Array, u: float) -> None:
    """Keep the bend above the face from running out past the face, where the edge above does not halve the corner."""
    face = stand.section.strip_of("face")
    above = [bend for bend in stand.section.bends if bend.last == face]
    for strip in range(above[0].first, face):
        ends[strip] = np.minimum(ends[strip] * stand.sign, u * stand.sign) * stand.sign


def _short_of_nose(
    stand: Stand, other: Stand, ends: Array, corner: LevelCorner
) -> dict[int, list[tuple[float, float]]]:
    """Keep the lip from standing out past the other piece's nose, as it would where the hip runs out beside it.

    Returns:
        By strip, the point ``(u, v)`` where its cut turns from the hip's line into that of the nose; none where the
        lip ends before it, and none in an inside corner.
    """
    if corner.edge != "hip":
        return {}
    noses = [
        float((other.point(other.u, line) - stand.corner) @ other.outward)
        for line in range(other.section.strip_of("face") + 1)
    ]
    most = stand.cut(stand.corner + other.outward * max(noses), other.outward)
    turn: dict[int, list[tuple[float, float]]] = {}
    for strip in range(stand.section.strip_of("face")):
        past = (ends[strip] - most[strip]) * stand.sign
        if past[0] * past[1] < 0:
            share = past[0] / (past[0] - past[1])
            u = ends[strip, 0] + share * (ends[strip, 1] - ends[strip, 0])
            first, last = stand.section.v[strip : strip + 2]
            turn[strip] = [(float(u), float(first + share * (last - first)))]
        ends[strip] = np.where(past > 0, most[strip], ends[strip])
    return turn


def _upper_cuts(
    stand: Stand, ends: Array, cut: Array, corner: LevelCorner, turn: dict[int, list[tuple[float, float]]]
) -> list[Step]:
    section = stand.section
    top, face = section.strip_of("top"), section.strip_of("face")
    v = section.v
    steps = []
    lip = section.leg("return")
    if lip is not None:
        steps.append(
            step(
                "cut",
                corner.lip,
                trace(cut, v[top + 1], v[face]),
                below=True,
            )
        )
    if top in turn:
        along = message(
            "Cut the top leg along the hip, from {at_inner} from the blank's end at its inboard edge to {at_turn}, "
            "and on from there in line with the other piece's nose.",
            at_inner=Place(ends[top, 0]),
            at_turn=Place(turn[top][0][0]),
        )
    else:
        along = _filled(corner.top, at_inner=Place(ends[top, 0]), at_outer=Place(ends[top, 1]))
    steps.append(
        step(
            "cut",
            along,
            trace(cut, 0.0, v[top + 1 if lip else face]),
        )
    )
    return steps


def _filled(sentence: Message, **values: Value) -> Message:
    """Return a sentence with its values."""
    return replace(sentence, values=tuple(values.items()))
