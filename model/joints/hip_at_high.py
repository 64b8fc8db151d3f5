"""Hip at a high edge: where a hip comes up to the level top of a gable wall, its cap closes over rake and high trim.

Both of these stand in the wall's plane, so the cap is folded on one line across, as over the two rakes of a gable; its
wing over the slope that falls away from the wall lies on the high trim's top leg, which ends under it.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import message
from . import high_at_hip
from .end import End, JointKind
from .meeting import Meeting, Met, either_end, high_end
from .ridge_end import fit_end

KIND = JointKind("hip at a high edge", message("hip at a high edge"), aloft=True)
MEETING = Meeting(
    high_at_hip.MEETING.edges,
    (high_end("hip"),),
    around=high_end("rake") | either_end("high"),
    rests="upon",
    all_trimmed=True,
    where=high_at_hip.has_room,
)


def fit(met: Met) -> tuple[End]:
    """Cut the high end of a hip cap over the rake and the high trim that meet below it."""
    return (fit_end(met, KIND),)
