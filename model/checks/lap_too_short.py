"""A lap is too short.

**Finds** two pieces of a run that overlap by less than the limit, measured between the ends of their metal.

**Fix** Give the run a longer lap.

**Source** CDA handbook 9.7 and UFGS 07600 3.1.15 for edge metal; IBC 2018 1507.2.8.3 for the drip edge of
shingle roofs.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from ..tolerances import TAPE
from .facts import Facts
from .record import Finding, Severity

RULE = "lap-too-short"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Wind drives water through a short lap, and heat pulls it open.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap shorter than the limit."""
    least = facts.layout.limits.number(RULE)
    for name in facts.spans:
        for lower, upper in facts.laps(name):
            lap = lower.high - upper.low
            if 0 <= lap < least - TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message("the lap is {lap}, less than {least}", lap=Length(lap), least=Length(least)),
                    message("Lap the pieces {least} or more.", least=Length(least)),
                    measured=lap,
                )
