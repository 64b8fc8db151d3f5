"""The hook lip is too short for the panel to hold on to.

**Finds** eave or rake trim whose return leg, which the panel's turned edge hooks round, is shorter than the
limit.

**Fix** Choose a profile with a longer return.

**Source** CDA handbook 9.7 and UFGS 07600 3.1.15: at least 3/4 in over the strip.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from ..tolerances import TAPE
from ..trim_kinds import KINDS
from .facts import Facts, outside_width
from .record import Finding, Severity

RULE = "hook-too-short"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The panel slips off the nose when it moves or lifts.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run whose return leg is too short."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        leg = run.section.leg("return")
        if leg is None or KINDS[run.trim].panels != "hook":
            continue
        hook = outside_width(run.section, leg)
        if hook < least - TAPE:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                spans,
                run.length / 2,
                message(
                    "the hook lip is {length}, less than {least}", length=Length(hook), least=Length(least)
                ),
                message("Choose a profile with a longer return."),
                measured=hook,
                place=run.section.profile,
            )
