"""Outside corner of two level trims at a hip, at any plan angle: the tab goes round the corner.

The one that faces the front or the back lies on top, so that the tab shows less. How the two are cut is in
`level_corner`.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import Message, message
from .end import End, JointKind
from .level_corner import LevelCorner, fit_corner, meeting_below
from .meeting import Met

KIND = JointKind("outside corner", message("outside corner"), tabbed=True)
MEETING = meeting_below("hip")
CORNER = LevelCorner(
    KIND,
    "hip",
    lip=Message("From the underside cut the hook lip on the line of the hip."),
    fold=Message("Fold the tab {turn} degrees round the corner, to lie on the face of the other piece."),
    top=Message(
        "Cut the top leg along the hip, {at_inner} from the blank's end at its inboard edge"
        " and {at_outer} at its nose."
    ),
)


def fit(met: Met) -> tuple[End, End]:
    """Cut the two ends that meet at a hip's foot: the one that the tab is folded onto, and the one that has it."""
    return fit_corner(met, CORNER)
