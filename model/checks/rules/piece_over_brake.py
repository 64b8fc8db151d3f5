"""A piece is longer than the brake that bends it.

**Finds** pieces longer than the limit. The limit is that of a long folder; a shop gives its own brake under
``shop.brake``.

**Fix** Give shorter stock, or order the piece bent.

**Source** Common practice, no source: long folders take 21 ft, brakes that are carried to the site 10 ft 6 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import stock_up_to
from ..record import Finding, Severity

RULE = "piece-over-brake"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("A piece that does not fit into the brake cannot be bent in one go, and two goes leave a kink.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that is too long to bend."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            if span.length > most + TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    (span.low + span.high) / 2,
                    message(
                        "it is {length} long, and the brake takes {most}",
                        length=Length(span.length),
                        most=Length(most),
                    ),
                    message(
                        "Lay the run from stock of {most} or less, or order the piece bent.",
                        most=Length(most),
                    ),
                    measured=span.length,
                    proposals=stock_up_to(facts.layout.scene, most),
                )
