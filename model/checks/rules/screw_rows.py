"""A ridge or hip cap has too few rows of screws.

**Finds** a ridge or hip run with fewer rows of screws on a side than the limit.

**Fix** Screw another row on each side.

**Source** FEMA P-499 (2010) fact sheet 7.6 for high wind; common practice, no source, for the rest.
Structural figures are advice: local codes, the metal's maker and licensed practice decide.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import counted, message
from ..facts import Facts, fastening_legs
from ..record import Finding, Severity

RULE = "screw-rows"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Caps are lifted from below on the lee side; where wind governs, one row a side is not enough.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each cap with too few rows on a side."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not KINDS[run.trim].is_cap:
            continue
        legs = fastening_legs(run.section)
        counts = [sum(row.leg == leg for row in facts.rows[span.mark]) for span in spans for leg in legs]
        if counts and min(counts) < least:
            few = min(counts)
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                spans,
                run.length / 2,
                counted(
                    "{count} row of screws a side, less than {least}",
                    "{count} rows of screws a side, less than {least}",
                    count=few,
                    least=f"{least:g}",
                ),
                message("Screw {missing} more on each side.", missing=f"{least - few:g}"),
                measured=float(few),
                place=message("the cap"),
            )
