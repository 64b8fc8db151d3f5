"""A piece is longer than the stock it would be cut from.

**Finds** a blank, laps and corner allowances included, longer than the longest stock length of the scene.

**Fix** Order longer stock, or split the piece.

**Source** The stock lengths are the scene's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from ..tolerances import POINT
from .facts import Facts
from .record import Finding, Severity

RULE = "piece-longer-than-stock"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("A piece cannot be cut from metal that is shorter than it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that no stock length holds."""
    longest = max(facts.layout.scene.metal.stock)
    over = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            if span.length > longest + over + POINT:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    (span.low + span.high) / 2,
                    message(
                        "the blank is {length}, the longest stock {stock}",
                        length=Length(span.length),
                        stock=Length(longest),
                    ),
                    message("Order longer stock or split the piece."),
                    measured=span.length - longest,
                )
