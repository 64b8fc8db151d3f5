"""Eave-rake corner: the rake is mitered along the face of the eave trim and its tab is folded round onto it.

The eave trim is on first and ends flush with the edge of the deck. The rake's top leg and hook lip are cut
straight across where the miter line meets the bend under the lip; below the eave trim's kick the rake's face
keeps an ear that closes the open end of the kick.

Turned round, the rake is on first, cut plumb in line with the edge of the deck at the eave, and the eave trim has the
miter and the tab.

Source: common practice, no source; the order of the cuts is the one that hand snips can make.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ..geometry.arrays import Array
from ..message import Angle, Length, Message, Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE, TAPE
from .end import End, JointKind, step, trace
from .face_miter import Miter, miter_onto
from .meeting import Meeting, Met, either_end, low_end
from .stand import Stand

KIND = JointKind("eave-rake", message("eave-rake"), tabbed=True)
MEETING = Meeting(("eave", "rake"), (either_end("eave"), low_end("rake")), turns=True, rests="on")

SQUARE = math.sin(math.radians(0.5))
"""A rake that is this near to square to its eave is cut straight across: nobody sees the difference."""


def fit(met: Met) -> tuple[End, End]:
    """Cut the eave trim's end and the rake's low end where they meet: the one that is on first, and the one over it."""
    under, over = met.ends
    return _under(under, over), _over(under, over, over.run.spec.tab)


def _trim(stand: Stand) -> Message:
    """Return what a piece is called in a sentence."""
    return message("eave trim") if stand.run.trim == "eave" else message("rake trim")


def _edge(stand: Stand) -> Message:
    """Return what the edge that a piece is on is called in a sentence."""
    return message("eave") if stand.run.trim == "eave" else message("rake")


def _under(under: Stand, over: Stand) -> End:
    end = over.corner - over.outward * _beveled(under, over.outward)
    if over.section.leg("return") is None:
        # Such trim bends down right at the deck's edge: what lies under it stays out of that bend.
        face = over.section.strip_of("face")
        _, facing = over.plane(face)
        end = over.point(over.u, face) - facing * (over.thickness / 2 + CLEARANCE)
    cut = path(under.section, under.cut(end, over.outward))
    last = step("set", message("Set it first: the {trim} goes over it.", trim=_trim(over)))
    steps = (*_end_steps(under, over, cut), last)
    return End(KIND, under.at, "under", (over.run.name,), Cut(cut), steps)


def _beveled(stand: Stand, normal: Array) -> float:
    """Return how far the two sides of a face stand out past a cut on a plane: nothing where that is square to it."""
    _, facing = stand.plane(stand.section.strip_of("face"))
    return stand.thickness / 2 * abs(float(facing @ normal))


def _end_steps(under: Stand, over: Stand, cut: Array) -> Iterator[Step]:
    """Yield the work that ends the piece underneath in line with the edge of the deck."""
    face, v = under.section.strip_of("face"), under.section.v
    at = dict(zip(cut[:, 1].tolist(), cut[:, 0].tolist(), strict=True))
    top, bottom = at[float(v[face])], at[float(v[face + 1])]
    if abs(top - bottom) > TAPE:
        scribe = message(
            "On its face scribe the plumb line of the deck's edge at the {edge}: {at_top} from the blank's end at the "
            "{bend}, {at_bottom} at the bend of the {drip}.",
            edge=_edge(over),
            at_top=Place(top),
            at_bottom=Place(bottom),
            bend=under.upper_bend,
            drip=under.drip,
        )
        along = message("Cut from the drip edge inward along the plumb line, across all legs.")
        yield step("mark", scribe, [(top, v[face]), (bottom, v[face + 1])])
        yield step("cut", along, cut[::-1])
    else:
        square = message(
            "Leave this end square across, the piece cut to its length: it ends flush with the edge of the deck at "
            "the {edge}.",
            edge=_edge(over),
        )
        yield step("cut", square, cut[::-1])


def _over(under: Stand, over: Stand, width: float) -> End:
    section = over.section
    miter = miter_onto(over, under, width)
    face = miter.strip
    top, bottom = miter.u
    ends = np.empty((section.strips, 2))
    ends[:face] = _in_line(under, over, miter)
    ends[face] = (top, bottom)
    ends[face + 1 :] = _behind(under, over)[face + 1 :] if _turns_in(over) else bottom
    inside: list[tuple[float, float]] = []
    notch: list[tuple[float, float]] = []
    if miter.tab is not None:
        inside += [(float(u), float(w)) for u, w in miter.tab.hinge]
        notch = _ear(under, over, miter, width)
        inside += notch[:-1]
        if notch:
            ends[face, 1] = notch[-1][0]
    cut = path(section, ends, {face: inside})
    return End(
        KIND,
        over.at,
        "over",
        (under.run.name,),
        Cut(cut, () if miter.tab is None else (miter.tab,)),
        _steps(under, over, miter, width, notch, cut),
        sealed=True,
        tab=miter.tab,
        miter=miter.line(section.v),
    )


def _in_line(under: Stand, over: Stand, miter: Miter) -> Array:
    """Return the cut of the strips above the face, in line with the other edge: square where the two are."""
    face, top = miter.strip, miter.u[0]
    normal = under.run.edge.outward
    if abs(float(over.local(normal)[1])) < SQUARE:
        return np.full((face, 2), top)
    return over.cut(over.point(top, face), normal)[:face]


def _turns_in(over: Stand) -> bool:
    """Return whether what comes after the face is folded in under the roof, such as the sole of a box."""
    face = over.section.strip_of("face")
    return any(bend.first == face + 1 and bend.angle > 0 for bend in over.section.bends)


def _behind(under: Stand, over: Stand) -> Array:
    """Return where the back of the face underneath meets each strip: what is folded in begins there."""
    face = under.section.strip_of("face")
    return over.cut(*under.plane(face, -under.thickness / 2 - over.thickness / 2 - CLEARANCE))


def _ear(under: Stand, over: Stand, miter: Miter, width: float) -> list[tuple[float, float]]:
    """Return the cut below the tab: along the eave's kick out to the allowance line, and down it to the bend."""
    section, face = over.section, miter.strip
    v = section.v
    kick = under.section.strip_of("face") + 1
    if kick >= under.section.strips:
        return []
    out, up = (
        under.section.points[-1]
        if under.section.leg("kick") is None
        else under.section.points[under.section.strip_of("kick") + 1]
    )
    start = under.section.points[kick]
    way = over.toward(face, under.direction(np.array([0.0, out - start[0], up - start[1]])))
    begin = float(miter.notch[1]) + over.thickness + CLEARANCE
    if way[1] <= 0 or way[0] * over.sign <= 0 or begin >= v[face + 1] - CLEARANCE:
        return []
    lean = (miter.u[1] - miter.u[0]) / (v[face + 1] - v[face])
    shift = over.sign * width * math.hypot(1.0, lean)
    gain = way[0] / way[1] - lean
    if abs(gain) < 1e-9 or gain * over.sign <= 0:
        return []
    drop = min(shift / gain, v[face + 1] - begin)
    first = (miter.at(begin, v), begin)
    corner = (first[0] + drop * way[0] / way[1], begin + drop)
    if begin + drop >= v[face + 1] - 1e-9:
        return [first, (corner[0], float(v[face + 1]))]
    return [first, corner, (miter.u[1] + shift, float(v[face + 1]))]


def _steps(
    under: Stand, over: Stand, miter: Miter, width: float, notch: list[tuple[float, float]], cut: Array
) -> tuple[Step, ...]:
    return (
        *_mark_and_cut_face(under, over, miter, width, notch),
        *_cut_top(under, over, cut),
        *(_free_tab(under, over, miter, miter.tab, notch) if miter.tab is not None else ()),
        *_finish(under, over, miter, notch, cut),
    )


def _mark_and_cut_face(
    under: Stand, over: Stand, miter: Miter, width: float, notch: list[tuple[float, float]]
) -> list[Step]:
    """Return the work up to the first cut, from the drip edge inward."""
    v, face = over.section.v, miter.strip
    top, bottom = miter.u
    scribe = message(
        "Set the piece dry over the {trim}. On its face scribe the miter line along the face of the {trim}: "
        "{at_top} from the blank's end at the {bend}, {at_bottom} at the bend of the {drip}.",
        trim=_trim(under),
        at_top=Place(top),
        at_bottom=Place(bottom),
        bend=over.upper_bend,
        drip=over.drip,
    )
    steps = [step("mark", scribe, [(top, v[face]), (bottom, v[face + 1])])]
    if miter.tab is None:
        along = message("Cut the face from the drip edge inward along the miter line.")
        return [*steps, step("cut", along, [(bottom, v[-1]), (bottom, v[face + 1]), (top, v[face])])]
    lean = (bottom - top) / (v[face + 1] - v[face])
    shift = over.sign * width * math.hypot(1.0, lean)
    upper = min(float(v[face]), float(miter.tab.flap[1, 1]))
    allowance = [(miter.at(upper, v) + shift, upper), (bottom + shift, v[face + 1])]
    if notch:
        line = message(
            "Mark the line of the {trim}'s {drip} too; it leaves the miter line {down} below the {bend}.",
            trim=_trim(under),
            drip=under.drip,
            down=Length(float(miter.notch[1] - v[face])),
            bend=over.upper_bend,
        )
        steps.append(step("mark", line, notch[:2]))
    draw = message("Draw the allowance line {tab} outside the miter line.", tab=Length(width))
    inward = message(
        "Cut the face from the drip edge inward: square across the {drip}, then along the allowance line.",
        drip=over.drip,
    )
    return [
        *steps,
        step("mark", draw, allowance),
        step("cut", inward, [(allowance[1][0], v[-1]), *allowance[::-1]]),
    ]


def _cut_top(under: Stand, over: Stand, cut: Array) -> list[Step]:
    """Return the cuts across the top leg, from its inboard edge, and on round its nose across the hook lip."""
    v, face = over.section.v, over.section.strip_of("face")
    lip = over.section.leg("return")
    past_top = float(v[face if lip is None else lip.strip])
    top, above = trace(cut, 0.0, past_top), trace(cut, past_top, v[face])
    inner, outer = float(top[-1][0]), float(top[0][0])
    straight = abs(inner - outer) < TAPE
    if lip is None and straight:
        return [step("cut", message("Cut the top leg straight across to join it."), top)]
    if straight:
        across = message(
            "Cut the top leg straight across from its inboard edge to the nose, {at_top} from the blank's end.",
            at_top=Place(inner),
        )
    else:
        across = message(
            "Cut the top leg in line with the {edge}, from {at_inner} from the blank's end at its inboard edge.",
            edge=_edge(under),
            at_inner=Place(inner),
        )
    if lip is None:
        return [step("cut", across, top[::-1])]
    if straight:
        on = message("From the underside cut on across the hook lip, to the bend under it.")
    else:
        on = message(
            "From the underside cut on across the hook lip in line with the {edge}, to {at_top} from the blank's end "
            "at the face.",
            edge=_edge(under),
            at_top=Place(float(above[0][0])),
        )
    return [
        step("cut", across, top[::-1]),
        step("turn", message("Turn the piece over.")),
        step("cut", on, above[::-1], below=True),
    ]


def _free_tab(
    under: Stand, over: Stand, miter: Miter, tab: Tab, notch: list[tuple[float, float]]
) -> list[Step]:
    """Return the cuts below and above the tab."""
    v, face = over.section.v, miter.strip
    top, bottom = miter.u
    (upper, lower), corners = tab.hinge, tab.flap
    if notch:
        says = message(
            "Cut the notch along the line of the {trim}'s {drip}, up to its bend.",
            trim=_trim(under),
            drip=under.drip,
        )
        below = step("cut", says, [*notch[::-1][-2:], lower])
    else:
        says = message("Below the tab cut the face back to the miter line.")
        below = step("cut", says, [(bottom, v[face + 1]), lower])
    opposing = message(
        "Make the tab's opposing cut to the fold line, from its lower corner {at_lower} from the blank's end, {lower} "
        "below the {bend}.",
        at_lower=Place(corners[0][0]),
        lower=Length(float(corners[0][1] - v[face])),
        bend=over.upper_bend,
    )
    off = message(
        "Take the tab's upper corner off {at_upper} from the blank's end, {upper} below the {bend}: it clears the "
        "{trim}'s lip.",
        at_upper=Place(corners[1][0]),
        upper=Length(float(corners[1][1] - v[face])),
        bend=over.upper_bend,
        trim=_trim(under),
    )
    return [
        below,
        step("cut", opposing, [corners[0], lower]),
        step("cut", off, [corners[1], upper, (top, v[face])]),
    ]


def _finish(
    under: Stand, over: Stand, miter: Miter, notch: list[tuple[float, float]], cut: Array
) -> list[Step]:
    """Return the cut of the rake's own kick, the fold of the tab, and what closes the joint."""
    v, face, bottom = over.section.v, miter.strip, miter.u[1]
    square = message(
        "Cut the {edge}'s own {drip} square across from the miter line, {at_bottom} from the blank's end.",
        edge=_edge(over),
        drip=over.drip,
        at_bottom=Place(bottom),
    )
    steps = [step("cut", square, [(bottom, v[-1]), (bottom, v[face + 1]), *notch[-1:]])]
    if _turns_in(over):
        beyond = [(float(u), float(w)) for u, w in cut if w >= v[face + 1]]
        back = message(
            "Cut the {drip} back to the back of the {trim}'s face, {at_bend} from the blank's end at its bend.",
            drip=over.drip,
            trim=_trim(under),
            at_bend=Place(beyond[1][0]),
        )
        steps = [step("cut", back, beyond[::-1])]
    if miter.tab is not None:
        fold = message(
            "Fold the tab {turn} degrees round the corner, to lie on the face of the {trim}.",
            trim=_trim(under),
            turn=Angle(abs(miter.tab.angle)),
        )
        steps.append(step("fold", fold, miter.tab.hinge))
        bed = message("Bed the tab and the lapped top leg in sealant when the piece is set.")
    else:
        bed = message("Bed the lapped top leg in sealant when the piece is set.")
    ease = message("Open the bend of the face slightly at the mitered end, so that the joint closes.")
    return [*steps, step("ease", ease), step("seal", bed)]
