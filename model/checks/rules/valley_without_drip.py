"""A valley ends without a drip at its foot.

**Finds** a valley whose pan is not turned down at its low end by as much as the limit.

**Fix** End the valley over the corner of two eaves with trim, or turn its foot down by hand.

**Source** Common practice, no source: the foot hangs 3/4 to 1 in down over the eave trim.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...tolerances import TAPE
from ..facts import Facts
from ..record import Finding, Severity
from ..valleys import valleys_of

RULE = "valley-without-drip"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "What runs down a valley is the most water of the roof; without a drip it turns back under the pan."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each valley whose foot is not turned down, or too little."""
    least = facts.layout.limits.number(RULE)
    for run, pans in valleys_of(facts):
        if not pans:
            continue
        drip = min((tab.width for tab in pans[0].part.ends.low.cut.tabs), default=0.0)
        if drip < least - TAPE:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                pans[:1],
                max(pans[0].low, pans[0].part.ends.low.innermost),
                message("its foot is not turned down")
                if drip <= TAPE
                else message(
                    "its foot is turned down {drip}, less than {least}",
                    drip=Length(drip),
                    least=Length(least),
                ),
                message("Turn its foot down {least} by hand, over the trim below it.", least=Length(least)),
                measured=drip,
            )
