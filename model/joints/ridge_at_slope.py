"""Ridge at a slope: where the lower ridge of a wing runs out on the main slope, between two valleys.

Both wings of its cap are cut along the middles of the valleys, and its end is set in sealant on the slope.

Source: common practice, no source.
"""

from __future__ import annotations

from ..message import message
from .end import End, JointKind
from .hip_head import fit_caps
from .meeting import Meeting, Met, either_end

KIND = JointKind("ridge at a slope", message("ridge at a slope"), aloft=True)
MEETING = Meeting(("ridge", "valley", "valley"), (either_end("ridge"),))


def fit(met: Met) -> list[End]:
    """Cut the end of the wing's ridge cap."""
    return fit_caps(met, KIND)
