"""Porch corner: where an eave runs into the side of a slope that is carried on down, as over a porch.

The rake is on first. Its face ends plumb behind the face of the eave trim, and its top leg runs on up the deck, as far
as the eave trim's own top leg reaches. That one runs on past the corner over it: the lap opens down the slope, as the
water runs. The hook lips are mitered on the line that halves the corner, the kicks on the same line where the faces
end, and the eave trim's face closes with a tab on the face of the rake.

Source: common practice, no source; edge strips lapped 3 in in the direction of flow: Copper Development Association,
*Copper in Architecture Handbook* 8.2A.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..message import Angle, Length, Place, message
from ..profiles.section import Section
from ..sheet.cut import path
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE
from .end import End, JointKind, step, trace
from .face_miter import Miter, miter_onto
from .kick import miter_kick
from .meeting import Meeting, Met, either_end, high_end
from .stand import Stand, meet

KIND = JointKind("porch corner", message("porch corner"), tabbed=True)
MEETING = Meeting(("eave", "rake"), (high_end("rake"), either_end("eave")), rests="past")


def fit(met: Met) -> tuple[End, End]:
    """Cut the rake's high end, and the end of the eave trim that laps over it."""
    rake, eave = met.ends
    halving = rake.away - eave.away
    return _under(rake, eave, halving), _over(rake, eave, halving)


@dataclass(frozen=True, slots=True)
class _Tongue:
    """The part of a top leg that runs on past the corner.

    Attributes:
        at_corner: ``(u, v)`` of the deck's corner on the top leg.
        at_side: The point of its side, along the edge of the deck, at its end.
        at_end: The point of its end at the inboard edge.
    """

    at_corner: tuple[float, float]
    at_side: tuple[float, float]
    at_end: tuple[float, float]

    @property
    def outline(self) -> list[tuple[float, float]]:
        """From its inboard corner round to the deck's corner."""
        return [self.at_end, self.at_side, self.at_corner]


def _tongue(stand: Stand, other: Stand, ends: Array) -> _Tongue:
    """Return how a top leg runs on past the corner, as far as the other one's reaches in from its edge.

    Trim without a lip bends down at the edge of the deck: there all of its top leg runs on.
    """
    section, top = stand.section, stand.section.strip_of("top")
    first, last = float(section.v[top]), float(section.v[top + 1])
    v = float(stand.on_sheet(top, stand.corner)[1])
    u = float(ends[top, 0] + (ends[top, 1] - ends[top, 0]) * (v - first) / (last - first))
    if section.leg("return") is None:
        u, v = float(ends[top + 1, 0]), last
    end = stand.cut(other.point(0.0, 0), -other.run.edge.outward)[top]
    side = float(end[0] + (end[1] - end[0]) * (v - first) / (last - first))
    return _Tongue((u, v), (side, v), (float(end[0]), first))


def _below(rake: Stand, eave: Stand) -> Array:
    """Return where the faces end on their common line: at the bend of the drip that comes first from above."""
    return max(
        (
            meet(
                onto,
                onto.section.strip_of("face"),
                one.point(0.0, one.section.strip_of("face") + 1),
                one.along,
            )
            for one, onto in ((rake, eave), (eave, rake))
        ),
        key=lambda point: float(point[2]),
    )


def _bend_of(stand: Stand) -> float:
    """Return how far the bend above a face stands out where no lip does, inches, and a sheet more.

    On a steep slope the underside of what is cut square to the deck stands farther in by up to a sheet.
    """
    if stand.section.leg("return") is not None:
        return 0.0
    return float(stand.section.points[stand.section.strip_of("face"), 0]) + 1.5 * stand.thickness


def _past_face(stand: Stand, ends: Array, other: Stand, halving: Array, u: Array, off: float) -> None:
    """Write the cuts of the lip, the face and what hangs on it.

    Args:
        stand: The end that is cut.
        ends: Where its cuts are written.
        other: The end that it meets.
        halving: Normal of the planes that lips and kicks are mitered on.
        u: ``(2,) float, inches``: where its face ends.
        off: How far its lip and its kick are held off these planes, inches.
    """
    face, top = stand.section.strip_of("face"), stand.section.strip_of("top")
    back = -stand.away * off
    ends[top:face] = stand.cut(stand.corner + back, halving)[top:face]
    bend = next(bend for bend in stand.section.bends if bend.last == face)
    for strip in range(bend.first, face):
        ends[strip] = np.minimum(ends[strip] * stand.sign, u[0] * stand.sign) * stand.sign
    ends[face] = u
    below = _below(stand, other) + back
    held = stand.cut(below, halving)[face + 1 :] * stand.sign
    ends[face + 1 :] = np.minimum(held, u[1] * stand.sign) * stand.sign


def _under(rake: Stand, eave: Stand, halving: Array) -> End:
    section, face, v = rake.section, rake.section.strip_of("face"), rake.section.v
    top = section.strip_of("top")
    ends = np.empty((section.strips, 2))
    behind, before = (
        rake.cut(*eave.plane(eave.section.strip_of("face"), way * (eave.thickness + CLEARANCE)))
        for way in (-1, 1)
    )
    _past_face(rake, ends, eave, halving, behind[face], CLEARANCE + _bend_of(eave))
    lip = slice(top + 1, face)  # it lies under the deck, where a plumb face stands farther in than on it
    ends[lip] = np.minimum(ends[lip] * rake.sign, before[lip] * rake.sign) * rake.sign
    tongue = _tongue(rake, eave, ends)
    ends[: top + 1] = _with_tongue(section, ends, tongue, top)
    cut = path(section, ends, {top: [tongue.at_side, tongue.at_corner]})
    steps = (
        *_marks(tongue),
        step(
            "mark",
            message(
                "On its face draw the plumb line of the eave: {at_top} from the blank's end at the {bend}, "
                "{at_bottom} at the bend of the {drip}.",
                at_top=Place(float(ends[face, 0])),
                at_bottom=Place(float(ends[face, 1])),
                bend=rake.upper_bend,
                drip=rake.drip,
            ),
            [(ends[face, 0], v[face]), (ends[face, 1], v[face + 1])],
        ),
        _free_tongue(tongue),
        miter_kick(rake, cut),
        step("cut", message("Cut the face along the plumb line."), trace(cut, v[face], v[face + 1])),
        *_lip(rake, cut, tongue),
        step(
            "set",
            message(
                "Set it first: the eave trim goes over the top leg that runs on, and over the end of the face."
            ),
        ),
    )
    return End(KIND, rake.at, "under", (eave.run.name,), Cut(cut), steps)


def _over(rake: Stand, eave: Stand, halving: Array) -> End:
    section, v = eave.section, eave.section.v
    miter = miter_onto(eave, rake, eave.run.spec.tab)
    face, top = miter.strip, section.strip_of("top")
    ends = np.empty((section.strips, 2))
    _past_face(eave, ends, rake, halving, np.array(miter.u), 0.0)
    tongue = _tongue(eave, rake, ends)
    ends[: top + 1] = _with_tongue(section, ends, tongue, top)
    hinge = [] if miter.tab is None else [(float(u), float(w)) for u, w in miter.tab.hinge]
    cut = path(section, ends, {top: [tongue.at_side, tongue.at_corner], face: hinge})
    steps = (
        *_marks(tongue),
        step(
            "mark",
            message(
                "On its face scribe the miter line along the face of the rake: {at_top} from the blank's end at the "
                "{bend}, {at_bottom} at the bend of the {drip}.",
                at_top=Place(miter.u[0]),
                at_bottom=Place(miter.u[1]),
                bend=eave.upper_bend,
                drip=eave.drip,
            ),
            miter.line(v),
        ),
        _free_tongue(tongue),
        miter_kick(eave, cut),
        *_face(eave, miter),
        *_lip(eave, cut, tongue),
        *_close(miter),
    )
    tabs = () if miter.tab is None else (miter.tab,)
    return End(
        KIND,
        eave.at,
        "over",
        (rake.run.name,),
        Cut(cut, tabs),
        steps,
        sealed=True,
        tab=miter.tab,
        miter=miter.line(v),
    )


def _with_tongue(section: Section, ends: Array, tongue: _Tongue, top: int) -> Array:
    """Return the cuts up to the top leg, which ends in a tongue; a hem before it ends with it."""
    result = ends[: top + 1].copy()
    result[:top] = tongue.at_end[0]
    result[top, 0] = tongue.at_end[0]
    if section.leg("return") is None:
        result[top, 1] = tongue.at_corner[0]
    return result


def _marks(tongue: _Tongue) -> tuple[Step, ...]:
    return (
        step(
            "mark",
            message(
                "Set the piece dry. On its top leg mark the corner of the deck, {at_corner} from the blank's end, and "
                "draw the line of the deck's edge on from there.",
                at_corner=Place(tongue.at_corner[0]),
            ),
            [tongue.at_corner, tongue.at_side],
        ),
    )


def _free_tongue(tongue: _Tongue) -> Step:
    return step(
        "cut",
        message(
            "Cut from the end along that line in to the corner, and the end across: the top leg runs on {long} past "
            "the corner.",
            long=Length(abs(tongue.at_side[0] - tongue.at_corner[0])),
        ),
        [tongue.at_side, tongue.at_corner],
        [tongue.at_end, tongue.at_side],
    )


def _face(eave: Stand, miter: Miter) -> list[Step]:
    """Return how the face is cut, and its tab freed."""
    v, face, tab = eave.section.v, miter.strip, miter.tab
    (top, bottom) = miter.u
    if tab is None:
        return [
            step("cut", message("Cut the face on the miter line."), [(bottom, v[face + 1]), (top, v[face])])
        ]
    lower, upper = tab.flap
    below = message(
        "Cut the face on the miter line from the {drip} up to the tab, and out along the tab's lower edge.",
        drip=eave.drip,
    )
    out = message("Cut the face {tab} beyond the miter line.", tab=Length(eave.run.spec.tab))
    above = message(
        "Cut in along the tab's upper edge, and on along the miter line up to the {bend}.",
        bend=eave.upper_bend,
    )
    return [
        step("cut", below, [(bottom, v[face + 1]), tab.hinge[1], lower]),
        step("cut", out, [lower, upper]),
        step("cut", above, [upper, tab.hinge[0], (top, v[face])]),
    ]


def _lip(stand: Stand, cut: Array, tongue: _Tongue) -> list[Step]:
    """Return how the lip is mitered, from the face round the nose in to the corner."""
    section, v = stand.section, stand.section.v
    top, face = section.strip_of("top"), section.strip_of("face")
    nose = [row for row in trace(cut, tongue.at_corner[1], v[top + 1]) if row[0] != tongue.at_side[0]]
    if section.leg("return") is None:
        says = message("Cut from the face in to the corner on the line that halves it.")
        return [step("cut", says, [*trace(cut, v[top + 1], v[face]), *nose])]
    return [
        step(
            "cut",
            message("From the underside cut the hook lip on the line that halves the corner."),
            trace(cut, v[top + 1], v[face]),
            below=True,
        ),
        step("cut", message("Cut the top leg on that line from its nose in to the corner."), nose),
    ]


def _close(miter: Miter) -> list[Step]:
    """Return how the tab is folded and the joint closed."""
    if miter.tab is None:
        return [step("seal", message("Bed the top leg that runs on in sealant when the piece is set."))]
    fold = message(
        "Fold the tab {turn} degrees into the corner, to lie on the face of the rake.",
        turn=Angle(abs(miter.tab.angle)),
    )
    bed = message("Bed the tab and the top leg that runs on in sealant when the piece is set.")
    return [step("fold", fold, miter.tab.hinge), step("seal", bed)]
