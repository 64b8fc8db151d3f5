"""Rake at a valley: where the eave of one slope and the rake of another meet in line, and a valley runs up between.

So it is below a gable that stands flush in the eave. Top legs and hook lips of both are cut along the valley, whose pan
lies over them. The faces lie in one plane: the point where the two kicks cross is carried to each. The eave trim, which
lies underneath, loses its kick there and runs on behind the rake's face as underlap, above the rake's kick; the rake
trim is cut along the straight line from that point to the corner.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..message import Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE
from . import sealed_end
from .end import End, JointKind, step, trace
from .meeting import Meeting, Met, either_end, low_end
from .peak import UNDERLAP
from .stand import Stand

KIND = JointKind("rake at a valley", message("rake at a valley"))
MEETING = Meeting(("eave", "rake", "valley"), (either_end("eave"), low_end("rake")), rests="outside")
IN_LINE = 0.01
"""So far two edges may turn from each other, as the sine of the angle in plan, and still be in line."""


def fit(met: Met) -> Sequence[End]:
    """Cut the end of the eave trim and the low end of the rake trim; sealed against each other where not in line."""
    eave, rake = met.ends
    level = [stand.away[:2] / np.linalg.norm(stand.away[:2]) for stand in (eave, rake)]
    if abs(level[0][0] * level[1][1] - level[0][1] * level[1][0]) > IN_LINE or level[0] @ level[1] > 0:
        return [
            sealed_end.fit(
                Met((one,), tuple(other for other in met.ends if other is not one), met.edges, met.roof)
            )[0]
            for one in met.ends
        ]
    along = next(edge for edge in met.edges if edge.kind == "valley").direction
    valley = np.array([along[1], -along[0], 0.0]) / np.hypot(along[0], along[1])
    crossing, normal = _joint_plane(eave, rake)
    return [_under(eave, rake, valley, crossing, normal), _over(eave, rake, valley, crossing, normal)]


def _joint_plane(eave: Stand, rake: Stand) -> tuple[Array, Array]:
    """Return the point where the two kicks cross, and the normal of the plane from there to the corner, to the rake."""
    strip, line = rake.section.strip_of("face"), eave.section.strip_of("face") + 1
    start = rake.on_sheet(strip, eave.point(0.0, line))
    way = rake.toward(strip, eave.along)
    v = rake.section.v[strip + 1]
    crossing = rake.point(float(start[0] + way[0] * (v - start[1]) / way[1]), strip + 1)
    _, facing = rake.plane(strip)
    upward = rake.corner - crossing
    upward -= facing * (upward @ facing)
    normal = cross(facing, upward / np.linalg.norm(upward))
    return crossing, np.asarray(normal if normal @ rake.away < 0 else -normal)


def _along_valley(stand: Stand, valley: Array) -> Array:
    """Return the cut of all strips along the valley, clear of the other piece."""
    outward = valley if valley @ stand.away > 0 else -valley
    return stand.cut(stand.corner - outward * CLEARANCE / 2, outward)


def _over(eave: Stand, rake: Stand, valley: Array, crossing: Array, normal: Array) -> End:
    face, v = rake.section.strip_of("face"), rake.section.v
    ends = _along_valley(rake, valley)
    ends[face:] = rake.cut(crossing, normal)[face:]
    cut = path(rake.section, ends)
    steps = (
        *_scribe(rake, ends, float(ends[face, 1])),
        _legs(rake, cut),
        step(
            "cut",
            message(
                "Cut the face from that mark straight to the corner, and the {drip} with it.", drip=rake.drip
            ),
            trace(cut, v[face], v[-1]),
        ),
        step(
            "set",
            message("Set its face over the underlap of the eave trim, in sealant; the pan goes over both."),
        ),
    )
    miter = np.array([[ends[face, 0], v[face]], [ends[face, 1], v[face + 1]]])
    return End(KIND, rake.at, "over", (eave.run.name,), Cut(cut), steps, sealed=True, miter=miter)


def _under(eave: Stand, rake: Stand, valley: Array, crossing: Array, normal: Array) -> End:
    face, v = eave.section.strip_of("face"), eave.section.v
    ends = _along_valley(eave, valley)
    ends[face + 1 :] = eave.cut(crossing - normal * CLEARANCE, normal)[face + 1 :]
    underlap = _underlap(eave, rake, crossing, normal)
    ends[face] = (underlap[0][0], underlap[-1][0])
    cut = path(eave.section, ends, {face: underlap[1:-1]})
    kick = float(ends[face + 1, 0]) if face + 1 < eave.section.strips else float(ends[face, 1])
    steps = (
        *_scribe(eave, ends, kick),
        _legs(eave, cut),
        step(
            "cut",
            message("Cut the {drip} away from the mark on; leave the face.", drip=eave.drip),
            trace(cut, v[face + 1], v[-1]),
        ),
        step(
            "cut",
            message(
                "Trim the face that runs on behind the rake's above the rake's {drip}, {at_tip} from the blank's end "
                "at its tip.",
                drip=rake.drip,
                at_tip=Place(max((row[0] for row in underlap), key=lambda u: u * eave.sign)),
            ),
            trace(cut, v[face], v[face + 1]),
        ),
        step("set", message("Set it first; the face of the rake trim goes over it, in sealant.")),
    )
    return End(KIND, eave.at, "under", (rake.run.name,), Cut(cut), steps)


def _underlap(eave: Stand, rake: Stand, crossing: Array, normal: Array) -> list[tuple[float, float]]:
    """Return the cut of the face that is left under the other one, from its upper bend line to its lower one.

    It stays above the rake's lower bend by the relief, and ends where it has run on far enough.
    """
    face, bend, sign = eave.section.strip_of("face"), rake.section.strip_of("face") + 1, eave.sign
    v0, v1 = float(eave.section.v[face]), float(eave.section.v[face + 1])
    upward = eave.toward(face, rake.point(0.0, bend - 1) - rake.point(0.0, bend))
    start = eave.on_sheet(face, rake.point(0.0, bend)) + upward / np.linalg.norm(upward) * (
        eave.thickness + CLEARANCE
    )
    way = eave.toward(face, rake.along)
    limit = eave.cut(crossing + normal * UNDERLAP, normal)[face]

    def above(v: float) -> float:
        return float(start[0] + (v - start[1]) * way[0] / way[1]) * sign

    def stop(v: float) -> float:
        return float(limit[0] + (limit[1] - limit[0]) * (v - v0) / (v1 - v0)) * sign

    inside = []
    if (above(v0) - stop(v0)) * (above(v1) - stop(v1)) < 0:
        turn = v0 + (v1 - v0) * (stop(v0) - above(v0)) / (above(v1) - above(v0) - stop(v1) + stop(v0))
        inside.append((above(turn) * sign, turn))
    return [(min(above(v0), stop(v0)) * sign, v0), *inside, (min(above(v1), stop(v1)) * sign, v1)]


def _scribe(stand: Stand, ends: Array, crossing: float) -> tuple[Step, Step]:
    v, face = stand.section.v, stand.section.strip_of("face")
    top = stand.section.strip_of("top")
    return (
        step(
            "mark",
            message(
                "Set the piece dry. Draw the line of the valley over its top leg, {at_inner} from the blank's end at "
                "its inboard edge and {at_nose} at its nose.",
                at_inner=Place(ends[0, 0]),
                at_nose=Place(ends[top, 1]),
            ),
            [(ends[0, 0], v[0]), (ends[top, 1], v[top + 1])],
        ),
        step(
            "mark",
            message(
                "Mark where the two {drip}s cross, on its bend, {at_cross} from the blank's end.",
                drip=stand.drip,
                at_cross=Place(crossing),
            ),
            [(crossing, v[face + 1])],
        ),
    )


def _legs(stand: Stand, cut: Array) -> Step:
    """Return how the top leg, and the hook lip if there is one, are cut along the valley."""
    face, v = stand.section.strip_of("face"), stand.section.v
    return step(
        "cut", message("Cut top leg and hook lip along the line of the valley."), trace(cut, 0.0, v[face])
    )
