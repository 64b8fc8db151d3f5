"""A piece has too few screws.

**Finds** a piece with fewer screws on a fastening leg than the limit.

**Matters because** a piece with one screw swings round it, and one with none falls.

**Fix** Add screws.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from .facts import Facts, fastening_legs
from .record import Finding, Severity

RULE = "screws-per-piece"
LIMITS = (RULE,)
SEVERITY: Severity = "error"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each fastening leg with too few screws."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        legs = fastening_legs(run.section)
        for span in spans:
            for leg in legs:
                count = sum(len(row.at) for row in facts.rows[span.mark] if row.leg == leg)
                if count < least:
                    on = f" on its {leg.name}" if len(legs) > 1 else ""
                    number = {0: "no screw", 1: "only one screw"}.get(count, f"only {count} screws")
                    yield facts.found(
                        RULE, SEVERITY, run, (span,), (span.low + span.high) / 2,
                        f"the piece has {number}{on}, less than {least:g}",
                        f"Add {least - count:g}.",
                        measured=float(count),
                    )  # fmt: skip
