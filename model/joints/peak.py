"""Peak: where the rakes of two slopes meet. Holds for unequal slopes.

Both pieces are set dry and the point where their kicks cross is carried to each. The piece underneath loses its
kick at that point and keeps the rest of its face as underlap; the piece on top is trimmed along the straight
line from that point to its upper corner. Top leg and hook lip of both are cut right across at the ridge.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..message import Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE
from .end import End, JointKind, step, trace
from .meeting import Meeting, Met, high_end
from .stand import Stand

KIND = JointKind("peak", message("peak"), aloft=True)
MEETING = Meeting(
    ("rake", "rake", "ridge"),
    (high_end("rake"), high_end("rake")),
    last=lambda run, _: run.hand == "right",
    turns=True,
    rests="outside",
)
UNDERLAP = 1.5
"""How far the face underneath runs on behind the one on top, inches: common practice, no source."""

PRESSED = 1 / 4
"""How much of a sheet the face underneath may stand out into the one on top: pressing them together takes it up."""


def fit(met: Met) -> tuple[End, End]:
    """Cut the high ends of two rakes that meet: the one underneath and the one on top."""
    under, over = met.ends
    crossing = crossing_of(under, over)
    normal = miter_normal(over, crossing, over.corner)
    return _under(under, over, crossing, normal), _over(under, over, crossing, normal)


def crossing_of(under: Stand, over: Stand) -> Array:
    """Return the point where two kicks cross, on the bend above that of the piece on top, scene frame."""
    strip = over.section.strip_of("face")
    line = under.section.strip_of("face") + 1
    start = over.on_sheet(strip, under.point(0.0, line))
    way = over.toward(strip, under.along)
    v = over.section.v[strip + 1]
    u = start[0] + way[0] * (v - start[1]) / way[1]
    return over.point(float(u), strip + 1)


def miter_normal(over: Stand, crossing: Array, corner: Array) -> Array:
    """Return the normal of the plane, square to the face on top, on which two faces meet, from a crossing to a corner.

    It points from the piece underneath to the one on top.
    """
    _, facing = over.plane(over.section.strip_of("face"))
    upward = corner - crossing
    upward -= facing * (upward @ facing)
    normal = cross(facing, upward / np.linalg.norm(upward))
    return np.asarray(normal if normal @ over.away < 0 else -normal)


def plumb_cut(stand: Stand) -> Array:
    """Return where a plumb plane across a rake meets each strip, short of the corner: ``(n, 2) float, inches``."""
    plumb = stand.away * [1.0, 1.0, 0.0]
    return stand.cut(stand.corner - plumb / np.linalg.norm(plumb) * CLEARANCE, plumb)


def _square_at_ridge(stand: Stand) -> Array:
    """Return the cut straight across the whole piece at the ridge line, its hook lip clear of the other one's."""
    u = plumb_cut(stand)
    return np.full_like(u, float(u[: stand.section.strip_of("face")].min()))


def _over(under: Stand, over: Stand, crossing: Array, normal: Array) -> End:
    section, face = over.section, over.section.strip_of("face")
    ends = _square_at_ridge(over)
    ends[face:] = over.cut(crossing, normal)[face:]
    cut = path(section, ends)
    v = section.v
    top, bottom = ends[face]
    steps = (
        *_scribe(over, float(ends[0, 0]), bottom),
        step(
            "mark",
            message(
                "Draw the straight line from that point to the upper corner, {at_top} from the blank's end.",
                at_top=Place(top),
            ),
            [(bottom, v[face + 1]), (top, v[face])],
        ),
        *_across(over, cut),
        step(
            "cut",
            message("Cut the face last, along that line, and the {drip} with it.", drip=over.drip),
            trace(cut, v[face], v[-1]),
        ),
        step("set", message("Set it over the underlap of the other slope's piece.")),
    )
    miter = np.array([[top, v[face]], [bottom, v[face + 1]]])
    return End(KIND, over.at, "over", (under.run.name,), Cut(cut), steps, miter=miter)


def _under(under: Stand, over: Stand, crossing: Array, normal: Array) -> End:
    square = _square_at_ridge(under)
    cut, at_kick, work = cut_under(under, over, square, (crossing, normal))
    steps = (*_scribe(under, float(square[0, 0]), at_kick), *_across(under, cut), *work)
    return End(KIND, under.at, "under", (over.run.name,), Cut(cut), steps)


def cut_under(
    under: Stand, over: Stand, ends: Array, plane: tuple[Array, Array]
) -> tuple[Array, float, tuple[Step, ...]]:
    """Return the cut of a rake whose face runs on behind another, where its kick ends, and the work from its face on.

    Args:
        under: The rake.
        over: What lies over its face.
        ends: Where it is cut above its face, ``(n, 2) float, inches``; what is below is cut here.
        plane: The point where the kicks cross, and the normal of the plane on which the faces meet.
    """
    section, face, (crossing, normal) = under.section, under.section.strip_of("face"), plane
    v0, v1 = float(section.v[face]), float(section.v[face + 1])
    ends = ends.copy()
    ends[face + 1 :] = under.cut(crossing - normal * CLEARANCE, normal)[face + 1 :]
    underlap = _underlap(under, over, crossing, normal)
    ends[face] = (underlap[0][0], underlap[-1][0])
    cut = path(section, ends, {face: underlap[1:-1]})
    at_kick = float(ends[face + 1, 0]) if face + 1 < section.strips else float(ends[face, 1])
    kick = message(
        "Cut the {drip} away from that point up, {at_kick} from the blank's end; leave the face.",
        drip=under.drip,
        at_kick=Place(at_kick),
    )
    face_left = message(
        "Trim the face that is left as underlap below the other slope's {bend}: {at_bend} from the blank's end "
        "at its own {own}, and {at_drip} from it at the {drip}; its tip is the blank's end.",
        bend=over.upper_bend,
        at_bend=Place(float(underlap[0][0])),
        own=under.upper_bend,
        at_drip=Place(float(underlap[-1][0])),
        drip=under.drip,
    )
    work = (
        step("cut", kick, trace(cut, v1, section.v[-1])),
        step("cut", face_left, trace(cut, v0, v1)),
        step("set", message("Set it first; the other slope's piece goes over it, in sealant.")),
    )
    return cut, at_kick, work


def _underlap(under: Stand, over: Stand, crossing: Array, normal: Array) -> list[tuple[float, float]]:
    """Return the cut of the face that is left under the other one, from its inner bend line to its outer one.

    It stays below the other slope's upper bend line by the relief, and ends where it has run on far enough.
    """
    face, bend = under.section.strip_of("face"), over.section.strip_of("face")
    v0, v1 = float(under.section.v[face]), float(under.section.v[face + 1])
    relief = under.thickness + CLEARANCE
    down = under.toward(face, over.point(0.0, bend + 1) - over.point(0.0, bend))
    start = under.on_sheet(face, over.point(0.0, bend)) + relief * down / np.linalg.norm(down)
    way = under.toward(face, -over.along)
    slope = way[0] / way[1]
    limit = _limit(under, over, crossing, normal)

    def below(v: float) -> float:
        return float(start[0] + (v - start[1]) * slope)

    def stop(v: float) -> float:
        return float(limit[0] + (limit[1] - limit[0]) * (v - v0) / (v1 - v0))

    inside = []
    if below(v0) < stop(v0) and below(v1) > stop(v1):
        turn = v0 + (v1 - v0) * (stop(v0) - below(v0)) / (below(v1) - below(v0) - stop(v1) + stop(v0))
        inside.append((below(turn), turn))
    return [(min(below(v0), stop(v0)), v0), *inside, (min(below(v1), stop(v1)), v1)]


def _limit(under: Stand, over: Stand, crossing: Array, normal: Array) -> tuple[float, float]:
    """Return how far the face underneath runs on, ``u`` at its inner and outer bend line.

    It goes less far where a crooked gable turns it, or leans it, out through the other face.
    """
    face, other = under.section.strip_of("face"), over.section.strip_of("face")
    on, facing = over.plane(other)
    outward = facing if facing @ over.outward > 0 else -facing
    behind = on - outward * (under.thickness + over.thickness) / 2
    short, far = (under.cut(crossing + normal * reach, normal)[face] for reach in (-CLEARANCE, UNDERLAP))
    most, shares = PRESSED * under.thickness, []
    for line, us in enumerate(zip(short, far, strict=True), face):
        near, there = (float((under.point(float(u), line) - behind) @ outward) for u in us)
        shares.append(0.0 if near >= most else min(1.0, (most - near) / max(there - near, 1e-9)))
    first, last = short + (far - short) * min(shares)
    return float(first), float(last)


def _scribe(stand: Stand, at_ridge: float, crossing: float) -> tuple[Step, ...]:
    top = stand.section.strip_of("top")
    v = stand.section.v
    return (
        step(
            "mark",
            message(
                "Set both rakes of the peak dry at once. On the back of this one scribe the ridge line, {at_ridge} "
                "from the blank's end, and the line of the face.",
                at_ridge=Place(at_ridge),
            ),
            [(at_ridge, v[0]), (at_ridge, v[top + 1])],
        ),
        step(
            "mark",
            message(
                "Mark where the two {drip}s cross, on its bend, {at_cross} from the blank's end.",
                drip=stand.drip,
                at_cross=Place(crossing),
            ),
            [(crossing, v[stand.section.strip_of("face") + 1])],
        ),
    )


def _across(stand: Stand, cut: Array) -> tuple[Step, ...]:
    section = stand.section
    top, face = section.strip_of("top"), section.strip_of("face")
    lip = section.leg("return")
    v = section.v
    steps = [
        step(
            "cut",
            message("Cut the top leg right across on the ridge line."),
            trace(cut, 0.0, v[top + 1 if lip else face]),
        )
    ]
    if lip is not None:
        steps.append(
            step(
                "cut",
                message("Cut the hook lip from the underside to meet it."),
                trace(cut, v[top + 1], v[face]),
                below=True,
            )
        )
    return tuple(steps)
