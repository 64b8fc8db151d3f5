"""Sealed end: where trim meets trim in a way that no joint is made for, each is cut clear of the others and sealed.

The end is cut on the plane that halves the angle to its neighbor, at its corner or across an edge too short for trim,
so that no metal runs into metal. That keeps water out only as long as the sealant does: the finding
`corner-without-joint` says so.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..message import Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut
from ..tolerances import CLEARANCE
from .end import End, JointKind, step
from .meeting import Met
from .own_face import FARTHEST, over_own_face
from .stand import Stand

KIND = JointKind("sealed end", message("sealed end"))


def fit(met: Met) -> tuple[End]:
    """Cut an end clear of all that it meets."""
    (stand,) = met.ends
    ends = over_own_face(stand, _halving(stand, met.around), met.edges)
    cut = path(stand.section, ends)
    line = cut[::-1]
    steps = (
        step(
            "mark",
            message(
                "Mark the end on the line that halves the corner, {at_end} from the blank's end at its inboard edge.",
                at_end=Place(float(cut[0, 0])),
            ),
            line[-1:],
        ),
        step("cut", message("Cut it along that line, across all legs."), line),
        step("seal", message("Bed the end in sealant when it is set, and run a bead along the open joint.")),
    )
    others = tuple(other.run.name for other in met.around)
    return (End(KIND, stand.at, None, others, Cut(cut), steps, sealed=True),)


def _halving(stand: Stand, others: tuple[Stand, ...]) -> Array:
    """Return where the planes that halve the angles to the others meet each strip, the innermost: ``(n, 2)``.

    Trim that lies over panels ends at the corner at the farthest: past it, those of an inside corner go on.
    """
    flush = stand.cut(stand.corner, stand.away)
    ends = []
    for other in others:
        normal = other.away - stand.away
        size = float(np.linalg.norm(normal))
        if size > 0.1:
            normal /= size
            middle = (stand.corner + other.corner) / 2
            ends.append(stand.cut(middle + normal * CLEARANCE, normal) * stand.sign)
    if not ends:
        return flush
    beyond = 0.0 if KINDS[stand.run.trim].panels == "under" else FARTHEST
    u = np.clip(np.min(ends, axis=0), flush * stand.sign - FARTHEST, flush * stand.sign + beyond)
    return np.asarray(u * stand.sign)
