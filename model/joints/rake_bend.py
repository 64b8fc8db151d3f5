"""Rake bend: where a rake goes on at another pitch, at a break.

Both pieces are mitered on the line that halves the angle between them, their top legs along the break, and a splice of
the same metal closes the joint from behind.

Source: common practice, no source; halving the angle: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

import math

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut
from ..tolerances import CLEARANCE
from .end import End, JointKind, step
from .meeting import Meeting, Met, high_end, low_end
from .stand import Stand

KIND = JointKind("rake bend", message("rake bend"))
MEETING = Meeting(("break", "rake", "rake"), (high_end("rake"), low_end("rake")))
SPLICE = 3.0
"""Width of the splice behind the joint, inches: common practice, no source."""


def fit(met: Met) -> tuple[End, End]:
    """Cut the high end of the lower rake's trim, and the low end of the upper rake's."""
    lower, upper = met.ends
    along = next(edge.direction for edge in met.edges if edge.kind == "break")
    halving = lower.away - upper.away
    normal = np.cross(along, np.cross(halving, lower.outward))
    normal = normal / math.copysign(float(np.linalg.norm(normal)), float(normal @ halving))
    return _end(lower, upper, -normal), _end(upper, lower, normal)


def _end(stand: Stand, other: Stand, inward: Array) -> End:
    section = stand.section
    ends = stand.cut(stand.corner + inward * (CLEARANCE / 2), inward)
    cut = path(section, ends)
    face, v = section.strip_of("face"), section.v
    mark = message(
        "Mark the miter on the line that halves the bend: {at_top} from the blank's end at the {bend}, {at_bottom} at "
        "the bend of the {drip}.",
        at_top=Place(float(ends[face, 0])),
        at_bottom=Place(float(ends[face, 1])),
        bend=stand.upper_bend,
        drip=stand.drip,
    )
    splice = message(
        "Close the joint from behind with a splice of the same metal, {splice} wide, in sealant.",
        splice=Length(SPLICE),
    )
    steps = (
        step("mark", mark, [(ends[face, 0], v[face]), (ends[face, 1], v[face + 1])]),
        step("cut", message("Cut it along that line, across all legs."), cut[::-1]),
        step("seal", splice),
    )
    return End(KIND, stand.at, None, (other.run.name,), Cut(cut), steps, sealed=True)
