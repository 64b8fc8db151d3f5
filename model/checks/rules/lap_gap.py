"""A lap stands open.

**Finds** a lap whose two pieces lie farther apart than the limit, measured between their fastening legs
where they are set.

**Fix** Relieve the piece underneath, so that the two nest.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, message
from ..facts import Facts, height_over
from ..proposals import usual_profiles
from ..record import Finding, Severity

RULE = "lap-gap"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Wind drives rain into the gap, and sealant does not bridge it for long.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each open lap."""
    most = facts.layout.limits.number(RULE)
    for name in facts.spans:
        run = facts.runs[name]
        for lower, upper in facts.laps(name):
            if upper.low >= lower.high:
                continue
            gap = abs(height_over(lower, upper)) - run.section.thickness
            if gap > most:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message("the lap stands {gap} open", gap=Fine(gap)),
                    message("Relieve the piece underneath, so that the two nest."),
                    measured=gap,
                    proposals=usual_profiles([run], facts.layout.scene),
                )
