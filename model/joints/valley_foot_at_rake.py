"""Valley foot at a rake: the low end of a valley's pan where an eave and a rake meet in line.

It is made as a foot between two eaves is: over the eave on the one side, on the other over the rake trim, so that what
the panels leave open is turned down over the nose of each.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..message import message
from .end import End, JointKind
from .meeting import Meeting, Met, either_end, low_end
from .valley_foot import fit_foot

KIND = JointKind("valley foot at a rake", message("valley foot at a rake"))
MEETING = Meeting(
    ("eave", "rake", "valley"),
    (low_end("valley"),),
    around=either_end("eave") | low_end("rake"),
    rests="upon",
)


def fit(met: Met) -> Sequence[End]:
    """Cut the low end of a pan over the eave and the rake trim below it, as far as there is any."""
    return (fit_foot(met, KIND),)
