"""Hip at a gable: where the cap of a ridge that is not level closes over the rakes of a gable.

Two slopes whose eaves are not parallel meet along a line that rises or falls from the gable: a hip in this program, and
its cap's end is made as a level ridge's is.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import message
from .end import End, JointKind
from .meeting import Meeting, Met, either_end, high_end
from .ridge_end import fit_end

KIND = JointKind("hip at a gable", message("hip at a gable"), aloft=True)
MEETING = Meeting(("hip", "rake", "rake"), (either_end("hip"),), around=high_end("rake"))


def fit(met: Met) -> tuple[End]:
    """Cut one end of a hip cap over the rakes below it."""
    return (fit_end(met, KIND),)
