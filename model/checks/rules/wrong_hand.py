"""A piece is made to the other hand.

**Finds** a hand-placed piece whose hand is not that of its run.

**Fix** Make the piece to the hand of its run.

**Source** Common practice, no source. Left and right are as seen from outside, looking at the edge.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import message
from ..facts import Facts
from ..proposals import unsaid
from ..record import Finding, Severity

RULE = "wrong-hand"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "A left and a right piece are mirror images: turned round, the hook points inward and the painted side "
    "lies against the deck."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece made to the wrong hand."""
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        for span in spans:
            made = span.part.piece.hand
            if made and run.hand and made != run.hand:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (span,),
                    (span.low + span.high) / 2,
                    message("the piece is made left-hand, the run is right-hand")
                    if made == "left"
                    else message("the piece is made right-hand, the run is left-hand"),
                    message("Make {mark} to the right hand.", mark=span.mark)
                    if made == "left"
                    else message("Make {mark} to the left hand.", mark=span.mark),
                    measured=1.0,
                    proposals=unsaid(run, facts.layout.scene, "hand", span.part.piece.number),
                )
