"""The hook lip is too short for the panel to hold on to.

**Finds** eave or rake trim whose return leg, which the panel's turned edge hooks round, is shorter than the
limit.

**Fix** Choose a profile with a longer return.

**Source** CDA handbook 9.7 and UFGS 07600 3.1.15: at least 3/4 in over the strip.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ..facts import Facts, narrow_legs
from ..proposals import wider
from ..record import Finding, Severity

RULE = "hook-too-short"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The panel slips off the nose when it moves or lifts.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run whose return leg is too short."""
    least = facts.layout.limits.number(RULE)
    for run, leg, hook in narrow_legs(facts, least, lambda leg: leg.name == "return"):
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            facts.spans[run.name],
            run.length / 2,
            message("the hook lip is {length}, less than {least}", length=Length(hook), least=Length(least)),
            message("Choose a profile with a longer return."),
            measured=hook,
            place=run.section.profile,
            proposals=wider(run, facts.layout.scene, leg, least - hook),
        )
