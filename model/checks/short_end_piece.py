"""A piece is too short to hold and to look right.

**Finds** a piece shorter than the limit in a run of two pieces or more.

**Matters because** a short piece has little to hold it against wind, puts two laps close together, and
draws the eye.

**Fix** Start the run with even lengths, or cut the piece beside it back so that the short one grows.

**Source** No minimum length is published; the limit is the project's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..tolerances import POINT
from .facts import Facts
from .record import Finding, Severity

RULE = "short-end-piece"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that is too short."""
    least = facts.layout.limits.number(RULE)
    show = facts.show
    for name, spans in facts.spans.items():
        if len(spans) < 2:
            continue
        run = facts.runs[name]
        for i, span in enumerate(spans):
            if span.length >= least - POINT:
                continue
            beside = spans[i - 1] if i else spans[1]
            missing = least - span.length
            even = sum(s.length for s in spans) / len(spans)
            ways = []
            if even >= least:
                ways.append(f"start even ({len(spans)} pieces of about {show(even)})")
            if beside.length - missing >= least:
                ways.append(f"cut {beside.mark} {show(missing)} shorter, and {span.mark} as much longer")
            if not ways:
                ways.append("join it with its neighbour from a longer stock length")
            remedy = " or ".join(ways)
            yield facts.found(
                RULE, SEVERITY, run, (span,), (span.low + span.high) / 2,
                f"the piece is {show(span.length)} long, shorter than {show(least)}",
                f"{remedy[0].upper()}{remedy[1:]}.",
                measured=span.length,
            )  # fmt: skip
