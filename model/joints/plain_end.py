"""Plain end: where the neighboring edge has no trim, the piece is cut plumb, flush with the deck."""

from __future__ import annotations

import numpy as np

from ..message import Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut
from .end import End, JointKind, step
from .meeting import Met
from .own_face import over_own_face

KIND = JointKind("plain end", message("plain end"))


def fit(met: Met) -> tuple[End]:
    """Cut the end of a run that meets nothing."""
    (stand,) = met.ends
    level = stand.away * [1.0, 1.0, 0.0]
    ends = stand.cut(stand.corner, np.asarray(level / np.linalg.norm(level)))
    ends[:] = ends[:, :1] if abs(stand.away[2]) < 1e-9 else ends
    cut = path(stand.section, over_own_face(stand, ends, met.edges))
    line = cut[::-1]
    at = float(cut[0, 0])
    steps = (
        step(
            "mark",
            message(
                "Mark the end flush with the edge of the deck, {at_end} from the blank's end at the top leg.",
                at_end=Place(at),
            ),
            line[-1:],
        ),
        step("cut", message("Cut it plumb."), line),
    )
    return (End(KIND, stand.at, None, (), Cut(cut), steps),)
