"""A lap faces upslope.

**Finds** a lap of a run that climbs where the lower piece lies over the upper one, measured on the folded
pieces where they are set.

**Fix** Put the upper piece over the lower one.

**Source** Common practice, no source: the upslope piece lies over the downslope piece, never the reverse.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import message
from .facts import Facts, height_over, is_sloping
from .proposals import unsaid
from .record import Finding, Severity

RULE = "lap-faces-upslope"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Water runs into the lap and under the trim.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap that catches water."""
    for name in facts.spans:
        run = facts.runs[name]
        if not is_sloping(run):
            continue
        for lower, upper in facts.laps(name):
            if upper.low < lower.high and height_over(lower, upper) < 0:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (upper, lower),
                    (upper.low + lower.high) / 2,
                    message("water runs into the lap"),
                    message("Put {over} over {under}.", over=upper.mark, under=lower.mark),
                    measured=1.0,
                    place=message("{under} under {over}", under=upper.mark, over=lower.mark),
                    proposals=unsaid(run, facts.layout.scene, "lies", upper.part.piece.number),
                )
