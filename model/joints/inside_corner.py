"""Inside corner of two level trims at a valley, at any plan angle: the tab is turned into the corner.

The face on top stops at the other one's face, and its tab is turned along it, out of the way of the drip; the other
face runs on behind. How the two are cut is in `level_corner`.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import Message, message
from .end import End, JointKind
from .level_corner import LevelCorner, fit_corner, meeting_below
from .meeting import Met

KIND = JointKind("inside corner", message("inside corner"), tabbed=True)
MEETING = meeting_below("valley")
CORNER = LevelCorner(
    KIND,
    "valley",
    lip=Message("From the underside cut the hook lip on the line of the valley."),
    fold=Message("Fold the tab {turn} degrees into the corner, to lie on the face of the other piece."),
    top=Message(
        "Cut the top leg along the valley, {at_inner} from the blank's end at its inboard edge"
        " and {at_outer} at its nose."
    ),
)


def fit(met: Met) -> tuple[End, End]:
    """Cut the two ends that meet at a valley's foot: the one that the tab is folded onto, and the one that has it."""
    return fit_corner(met, CORNER)
