"""Hip at a slope: where the hip of a bay or of a wing runs out on the main slope, between two valleys.

Both wings of its cap are cut along the middles of the valleys, and its end is set in sealant on the slope.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import message
from .end import End, JointKind
from .hip_head import fit_caps
from .meeting import Meeting, Met, high_end

KIND = JointKind("hip at a slope", message("hip at a slope"), aloft=True)
MEETING = Meeting(("hip", "valley", "valley"), (high_end("hip"),))


def fit(met: Met) -> list[End]:
    """Cut the high end of the hip's cap."""
    return fit_caps(met, KIND)
