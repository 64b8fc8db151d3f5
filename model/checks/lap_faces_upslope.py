"""A lap faces upslope.

**Finds** a lap of a run that climbs where the lower piece lies over the upper one, measured on the folded
pieces where they are set; and a corner where trim lies over trim that brings water down to it, such as an eave over
a rake.

**Fix** Put the upper piece over the lower one; at a corner, leave `over` out.

**Source** Common practice, no source: the upslope piece lies over the downslope piece, never the reverse.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..joints import lap
from ..joints.meeting import comes_down
from ..message import message
from .facts import Facts, height_over, is_sloping
from .proposals import not_over, unsaid
from .record import Finding, Severity

RULE = "lap-faces-upslope"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Water runs into the lap and under the trim.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap, and each corner, that catches water."""
    yield from _laps(facts)
    yield from _corners(facts)


def _laps(facts: Facts) -> Iterator[Finding]:
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


def _corners(facts: Facts) -> Iterator[Finding]:
    ends = {
        (span.mark, end.at): (span, end)
        for own in facts.spans.values()
        for span in own
        for end in span.part.ends
    }
    for (mark, at), (over, end) in ends.items():
        lies_on = facts.layout.setting(mark).over
        for (other, other_at), (under, other_end) in ends.items():
            if (
                other in lies_on
                and other_end.kind is not lap.KIND
                and other in end.others
                and mark in other_end.others
                and other_end.kind is end.kind
                and comes_down(under.part.run, other_at) > comes_down(over.part.run, at)
            ):
                yield facts.found(
                    RULE,
                    SEVERITY,
                    over.part.run,
                    (under, over),
                    0.0 if at == "low" else over.part.run.length,
                    message("water runs into the corner"),
                    message("Put {over} over {under}.", over=other, under=mark),
                    measured=1.0,
                    place=message("{under} under {over}", under=other, over=mark),
                    proposals=not_over(over.part.run, facts.layout.scene, under.part.run),
                )
