"""The kick at a corner of trim along the deck's edge: mitered with the other one's on the line that halves the corner.

Source: common practice, no source; miter on the bisector: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

from ..geometry.arrays import Array
from ..message import message
from ..steps import Step
from .end import step, trace
from .stand import Stand


def miter_kick(stand: Stand, cut: Array) -> Step:
    """Return how a kick is mitered; trim without one has its drip edge dressed.

    Args:
        stand: The end that it belongs to.
        cut: ``(n, 2) float, inches``: the end's cut on the flat sheet.
    """
    face, v = stand.section.strip_of("face"), stand.section.v
    if face + 1 >= stand.section.strips:
        return step("ease", message("Dress the drip edge at the corner."))
    return step(
        "cut",
        message(
            "Miter the {drip} so that it meets the other one on the line that halves the corner.",
            drip=stand.drip,
        ),
        trace(cut, v[face + 1], v[-1]),
    )
