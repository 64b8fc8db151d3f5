"""A lap faces upslope.

**Finds** a lap of a run that climbs where the lower piece lies over the upper one, measured on the folded
pieces where they are set; and a corner where trim lies over trim that brings water down to it, such as an eave over
a rake. The cap of a ridge too short to be held down under laps lies over all that it meets.

**Fix** Put the upper piece over the lower one; at a corner, leave `over` out.

**Source** Common practice, no source: the upslope piece lies over the downslope piece, never the reverse.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...joints import hip_head, lap
from ...joints.end import End
from ...joints.meeting import comes_down
from ...layout import Layout
from ...message import message
from ..facts import Facts, PartSpan, height_over, is_sloping
from ..proposals import not_over, unsaid
from ..record import Finding, Severity

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
    spans = {span.mark: span for own in facts.spans.values() for span in own}
    for over in spans.values():
        for end in over.part.ends:
            for under in (spans[mark] for mark in end.others if mark in spans):
                if _catches(facts.layout, (over, end), under):
                    yield facts.found(
                        RULE,
                        SEVERITY,
                        over.part.run,
                        (under, over),
                        0.0 if end.at == "low" else over.part.run.length,
                        message("water runs into the corner"),
                        message("Put {over} over {under}.", over=under.mark, under=over.mark),
                        measured=1.0,
                        place=message("{under} under {over}", under=under.mark, over=over.mark),
                        proposals=not_over(over.part.run, facts.layout.scene, under.part.run),
                    )


def _catches(layout: Layout, at: tuple[PartSpan, End], under: PartSpan) -> bool:
    """Return whether a piece lies, at an end of it, over one that brings water down to the corner there."""
    over, end = at
    if end.kind is lap.KIND or hip_head.must_lie_over(over.part.run):
        return False
    return under.mark in layout.setting(over.mark).over and any(
        other.kind is end.kind
        and over.mark in other.others
        and comes_down(under.part.run, other.at) > comes_down(over.part.run, end.at)
        for other in under.part.ends
    )
