"""High edge at a hip: where a gable wall ends level at its top, the rake and the high trim meet under a hip's cap.

Both faces stand in the plane of the wall. The rake's kick ends where the two kicks cross, and its face runs on behind
the high trim's, as at a peak; that is cut down to the deck's corner, and from there straight to the crossing. The
rake's top leg is cut back along the hip; the high trim's, which is as high as the cap, on the line that halves its
angle with the hip. The cap lies over both.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..roof.record import Edge, Roof
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE
from .cap import HEM_SETBACK
from .end import End, JointKind, step, trace
from .high_rake import across, on_one_line
from .meeting import Meeting, Met, either_end, high_end
from .own_face import over_own_face
from .peak import crossing_of, cut_under, miter_normal, plumb_cut
from .stand import Stand

KIND = JointKind("high edge at a hip", message("high edge at a hip"), aloft=True)
ASIDE = 3.0
"""How far off plumb a miter goes to where the kicks cross, inches, at the most."""

ROOM = 24.0
"""A shorter high edge has no room for the ends of the two caps that close over it, inches."""


def has_room(edges: Sequence[Edge]) -> bool:
    """Return whether the high edge is long enough for a cap to close over each of its ends."""
    (high,) = (edge for edge in edges if edge.kind == "high")
    return high.length >= ROOM


MEETING = Meeting(
    ("high", "hip", "rake"), (high_end("rake"), either_end("high")), rests="outside", where=has_room
)


def fit(met: Met) -> tuple[End, End]:
    """Cut the rake's high end, and the high-side trim's end that lies over its face."""
    rake, high = met.ends
    (hip,) = (edge for edge in met.edges if edge.kind == "hip")
    ends = _mitered(high, hip, met.roof)
    corner = _deck_corner(high)
    crossing = _crossing(rake, high)
    plane = crossing, miter_normal(high, crossing, high.scene_point(high.section.strip_of("face"), *corner))
    return _rake(rake, high, met.edges, plane), _high(high, rake, ends, corner, plane)


def _mitered(high: Stand, hip: Edge, roof: Roof) -> Array:
    """Return where the high trim is cut: its top leg on the line that halves its angle with the hip.

    Its hem is cut back from there; the face begins where that line comes to it, at the corner at the farthest.
    """
    section, top = high.section, high.section.strip_of("top")
    height = float(section.points[top] @ section.normals[top])
    normals = np.array([roof.faces[face].normal for face in hip.faces])
    raised = np.linalg.lstsq(normals, np.full(2, height), rcond=None)[0]
    apex = high.corner + raised - hip.direction * (raised @ high.outward / (hip.direction @ high.outward))
    normal = hip.direction - high.away
    normal /= np.linalg.norm(normal)
    inboard, at_face = (float(u) for u in high.cut(apex + normal * CLEARANCE, normal)[top])
    ends = square_cut(section, min(at_face * high.sign, high.u * high.sign) * high.sign)
    ends[top] = inboard, at_face
    slant = abs(inboard - at_face) / float(section.v[top + 1] - section.v[top])
    ends[:top] = inboard - high.sign * (HEM_SETBACK + slant * float(section.v[top]))
    return ends


def _deck_corner(high: Stand) -> tuple[float, float]:
    """Return the point of the high trim's face, ``(u, v)``, at the deck's corner, or above it on a shallow face."""
    face, v = high.section.strip_of("face"), high.section.v
    return high.u - high.sign * CLEARANCE, min(
        float(high.on_sheet(face, high.corner)[1]), float(v[face] + v[face + 1]) / 2
    )


def _crossing(rake: Stand, high: Stand) -> Array:
    """Return the point where the faces' miter ends below, scene frame: where the kicks cross, or as near as may be."""
    face = high.section.strip_of("face")
    u = high.on_sheet(face, crossing_of(rake, high))[0]
    return high.point(float(np.clip(u, high.u - ASIDE, high.u + ASIDE)), face + 1)


def _rake(rake: Stand, high: Stand, edges: Sequence[Edge], plane: tuple[Array, Array]) -> End:
    section, face, top = rake.section, rake.section.strip_of("face"), rake.section.strip_of("top")
    plumb = plumb_cut(rake)
    plumb[:face] = on_one_line(section, plumb, range(face))
    ends = over_own_face(rake, plumb, edges)
    cut, at_kick, work = cut_under(rake, high, ends, plane)
    steps = (
        step(
            "mark",
            message(
                "Set it and the high trim dry at once. Mark where the two {drip}s cross, on its bend, {at_cross} from "
                "the blank's end.",
                drip=rake.drip,
                at_cross=Place(at_kick),
            ),
            [(at_kick, section.v[face + 1])],
        ),
        step("cut", across(float(ends[top, 0]), float(ends[top, 1]), rake), trace(cut, 0.0, section.v[face])),
        *work,
    )
    return End(KIND, rake.at, "under", (high.run.name,), Cut(cut), steps)


def _high(
    high: Stand, rake: Stand, ends: Array, corner: tuple[float, float], plane: tuple[Array, Array]
) -> End:
    section, face = high.section, high.section.strip_of("face")
    ends[face + 1 :] = high.cut(*plane)[face + 1 :]
    crossing = float(high.on_sheet(face, plane[0])[0])
    ends[face, 1] = crossing
    cut = path(section, ends, {face: [corner]})
    miter = np.array([corner, (crossing, section.v[face + 1])])
    return End(
        KIND,
        high.at,
        "over",
        (rake.run.name,),
        Cut(cut),
        tuple(_steps(high, cut, ends, miter)),
        sealed=True,
        miter=miter,
    )


def _steps(high: Stand, cut: Array, ends: Array, miter: Array) -> list[Step]:
    """Return the work on the high trim's end."""
    section, top, face = high.section, high.section.strip_of("top"), high.section.strip_of("face")
    v, (inboard, at_face) = section.v, (float(u) for u in ends[top])
    dry = message(
        "Set it and the rake dry at once. Mark where the two {drip}s cross, on its bend, {at_cross} from the blank's "
        "end.",
        drip=high.drip,
        at_cross=Place(float(miter[1, 0])),
    )
    half = message(
        "On the top leg draw the line that halves its angle with the hip: {at_inboard} from the blank's end at the "
        "bend of the hem and {at_face} at the bend of the face.",
        at_inboard=Place(inboard),
        at_face=Place(at_face),
    )
    down = message(
        "Cut the face from its upper bend to the deck's corner, {down} below that bend and {at_corner} from the "
        "blank's end, then straight to that point, and the {drip} with it.",
        down=Length(float(miter[0, 1] - v[face])),
        at_corner=Place(float(miter[0, 0])),
        drip=high.drip,
    )
    return [
        step("mark", dry, miter[1:]),
        step("mark", half, [(inboard, v[top]), (at_face, v[top + 1])]),
        step(
            "cut",
            message(
                "Cut the top leg along that line, and free the hem {hem} back.",
                hem=Length(abs(inboard - float(ends[0, 0]))),
            ),
            trace(cut, 0.0, v[face]),
        ),
        step("cut", down, trace(cut, v[face], v[-1])),
        step("set", message("Set it over the underlap of the other slope's piece.")),
        step("seal", message("Set the end on closures bedded in sealant.")),
    ]
