"""Eave-rake corner: the rake is mitered along the face of the eave trim and its tab is folded round onto it.

The eave trim is on first and ends flush with the edge of the deck. The rake's top leg and hook lip are cut
straight across where the miter line meets the bend under the lip; below the eave trim's kick the rake's face
keeps an ear that closes the open end of the kick.

Source: common practice, no source; the order of the cuts is the one that hand snips can make.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..message import Angle, Length, Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE
from .end import End, JointKind, step
from .meeting import Meeting, Met, either_end, low_end
from .round_corner import Miter, miter_onto
from .stand import Stand

Array = NDArray[np.float64]

KIND = JointKind("eave-rake", tabbed=True)
MEETING = Meeting(("eave", "rake"), (either_end("eave"), low_end("rake")), rests="on")


def fit(met: Met) -> tuple[End, End]:
    """Cut the eave trim's end and the rake's low end where they meet."""
    eave, rake = met.ends
    return _eave(eave, rake), _rake(eave, rake, rake.run.spec.tab)


def _eave(eave: Stand, rake: Stand) -> End:
    # A rake without a hook lip bends down right at the deck's edge: the eave trim stays out of that bend.
    back = 0.0 if rake.section.leg("return") else CLEARANCE
    cut = path(eave.section, eave.cut(rake.corner - rake.outward * back, rake.outward))
    if eave.at == "low":
        first = step(
            "cut",
            message(
                "Use the square end of the stock, flush with the edge of the deck at the rake; "
                "cut it straight across if it is not."
            ),
            cut[::-1],
        )
    else:
        first = step(
            "cut",
            message(
                "Cut straight across from the drip edge inward, flush with the edge of the deck"
                " at the rake, {at_end} from the low end.",
                at_end=Place(cut[0, 0]),
            ),
            cut[::-1],
        )
    steps = (first, step("set", message("Set it first: the rake trim goes over it.")))
    return End(KIND, eave.at, "under", (rake.run.name,), Cut(cut), steps)


def _rake(eave: Stand, rake: Stand, width: float) -> End:
    section = rake.section
    miter = miter_onto(rake, eave, width)
    face = miter.strip
    top, bottom = miter.u
    ends = np.empty((section.strips, 2))
    ends[:face] = top
    ends[face] = (top, bottom)
    ends[face + 1 :] = bottom
    inside: list[tuple[float, float]] = []
    notch: list[tuple[float, float]] = []
    if miter.tab is not None:
        inside += [(float(u), float(w)) for u, w in miter.tab.hinge]
        notch = _ear(eave, rake, miter, width)
        inside += notch[:-1]
        if notch:
            ends[face, 1] = notch[-1][0]
    cut = path(section, ends, {face: inside})
    return End(
        KIND,
        rake.at,
        "over",
        (eave.run.name,),
        Cut(cut, () if miter.tab is None else (miter.tab,)),
        _steps(eave, rake, miter, width, notch),
        sealed=True,
        tab=miter.tab,
        miter=miter.line(section.v),
    )


def _ear(eave: Stand, rake: Stand, miter: Miter, width: float) -> list[tuple[float, float]]:
    """Return the cut below the tab: along the eave's kick out to the allowance line, and down it to the bend."""
    section, face = rake.section, miter.strip
    v = section.v
    kick = eave.section.strip_of("face") + 1
    if kick >= eave.section.strips:
        return []
    out, up = (
        eave.section.points[-1]
        if eave.section.leg("kick") is None
        else eave.section.points[eave.section.strip_of("kick") + 1]
    )
    start = eave.section.points[kick]
    way = rake.toward(face, eave.direction(np.array([0.0, out - start[0], up - start[1]])))
    begin = float(miter.notch[1]) + rake.thickness + CLEARANCE
    if way[1] <= 0 or way[0] * rake.sign <= 0 or begin >= v[face + 1] - CLEARANCE:
        return []
    lean = (miter.u[1] - miter.u[0]) / (v[face + 1] - v[face])
    shift = rake.sign * width * math.hypot(1.0, lean)
    gain = way[0] / way[1] - lean
    if abs(gain) < 1e-9 or gain * rake.sign <= 0:
        return []
    drop = min(shift / gain, v[face + 1] - begin)
    first = (miter.at(begin, v), begin)
    corner = (first[0] + drop * way[0] / way[1], begin + drop)
    if begin + drop >= v[face + 1] - 1e-9:
        return [first, (corner[0], float(v[face + 1]))]
    return [first, corner, (miter.u[1] + shift, float(v[face + 1]))]


def _steps(
    eave: Stand, rake: Stand, miter: Miter, width: float, notch: list[tuple[float, float]]
) -> tuple[Step, ...]:
    return (
        *_mark_and_cut_face(eave, rake, miter, width, notch),
        *_cut_top(rake, miter),
        *(_free_tab(eave, rake, miter, miter.tab, notch) if miter.tab is not None else ()),
        *_finish(rake, miter, notch),
    )


def _mark_and_cut_face(
    eave: Stand, rake: Stand, miter: Miter, width: float, notch: list[tuple[float, float]]
) -> list[Step]:
    """Return the work up to the first cut, from the drip edge inward."""
    v, face = rake.section.v, miter.strip
    top, bottom = miter.u
    scribe = message(
        "Set the piece dry over the eave trim. On its face scribe the miter line along the face of the eave trim: "
        "{at_top} from the low end at the {bend}, {at_bottom} at the bend of the {drip}.",
        at_top=Place(top),
        at_bottom=Place(bottom),
        bend=rake.upper_bend,
        drip=rake.drip,
    )
    steps = [step("mark", scribe, [(top, v[face]), (bottom, v[face + 1])])]
    if miter.tab is None:
        along = message("Cut the face from the drip edge inward along the miter line.")
        return [*steps, step("cut", along, [(bottom, v[-1]), (bottom, v[face + 1]), (top, v[face])])]
    lean = (bottom - top) / (v[face + 1] - v[face])
    shift = rake.sign * width * math.hypot(1.0, lean)
    upper = min(float(v[face]), float(miter.tab.flap[1, 1]))
    allowance = [(miter.at(upper, v) + shift, upper), (bottom + shift, v[face + 1])]
    if notch:
        line = message(
            "Mark the line of the eave trim's {drip} too; it leaves the miter line {down} below the {bend}.",
            drip=eave.drip,
            down=Length(float(miter.notch[1] - v[face])),
            bend=rake.upper_bend,
        )
        steps.append(step("mark", line, notch[:2]))
    draw = message("Draw the allowance line {tab} outside the miter line.", tab=Length(width))
    inward = message(
        "Cut the face from the drip edge inward: square across the {drip}, then along the allowance line.",
        drip=rake.drip,
    )
    return [
        *steps,
        step("mark", draw, allowance),
        step("cut", inward, [(allowance[1][0], v[-1]), *allowance[::-1]]),
    ]


def _cut_top(rake: Stand, miter: Miter) -> list[Step]:
    """Return the cuts across the hook lip and the top leg."""
    v, face, top = rake.section.v, miter.strip, miter.u[0]
    join = message("Cut the top leg straight across to join it.")
    lip = rake.section.leg("return")
    if lip is None:
        return [step("cut", join, [(top, v[face]), (top, 0.0)])]
    across = message(
        "From the underside cut the hook lip straight across, {at_top} from the low end, to meet the face cut.",
        at_top=Place(top),
    )
    return [
        step("turn", message("Turn the piece over.")),
        step("cut", across, [(top, v[face]), (top, v[lip.strip])], below=True),
        step("cut", join, [(top, v[lip.strip]), (top, 0.0)]),
    ]


def _free_tab(
    eave: Stand, rake: Stand, miter: Miter, tab: Tab, notch: list[tuple[float, float]]
) -> list[Step]:
    """Return the cuts below and above the tab."""
    v, face = rake.section.v, miter.strip
    top, bottom = miter.u
    (upper, lower), corners = tab.hinge, tab.flap
    if notch:
        says = message(
            "Cut the notch along the line of the eave trim's {drip}, up to its bend.", drip=eave.drip
        )
        below = step("cut", says, [*notch[::-1][-2:], lower])
    else:
        says = message("Below the tab cut the face back to the miter line.")
        below = step("cut", says, [(bottom, v[face + 1]), lower])
    opposing = message("Make the tab's opposing cut from its lower corner up to the bend.")
    off = message("Take the tab's upper corner off, so that it clears the bend under the eave trim's lip.")
    return [
        below,
        step("cut", opposing, [corners[0], lower]),
        step("cut", off, [corners[1], upper, (top, v[face])]),
    ]


def _finish(rake: Stand, miter: Miter, notch: list[tuple[float, float]]) -> list[Step]:
    """Return the cut of the rake's own kick, the fold of the tab, and what closes the joint."""
    v, face, bottom = rake.section.v, miter.strip, miter.u[1]
    square = message(
        "Cut the rake's own {drip} square across from the miter line, {at_bottom} from the low end.",
        drip=rake.drip,
        at_bottom=Place(bottom),
    )
    steps = [step("cut", square, [(bottom, v[-1]), (bottom, v[face + 1]), *notch[-1:]])]
    if miter.tab is not None:
        fold = message(
            "Fold the tab {turn} degrees round the corner, to lie on the face of the eave trim.",
            turn=Angle(abs(miter.tab.angle)),
        )
        steps.append(step("fold", fold, miter.tab.hinge))
        bed = message("Bed the tab and the lapped top leg in sealant when the piece is set.")
    else:
        bed = message("Bed the lapped top leg in sealant when the piece is set.")
    ease = message("Open the bend of the face slightly at the mitered end, so that the joint closes.")
    return [*steps, step("ease", ease), step("seal", bed)]
