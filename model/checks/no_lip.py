"""Panels have no lip of the trim to hook.

**Finds** eave and rake trim without a return leg under panels that hook on: cleats are screwed over it instead.

**Fix** Choose a profile with a hook, such as "hook eave", or accept the finding: the cleats are on the lists.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import message
from ..trim_kinds import KINDS
from .facts import Facts
from .record import Finding, Severity

RULE = "no-lip"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Each cleat is metal, screws and work besides, and its screws go through the trim.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run whose panels hook a cleat."""
    if not facts.layout.panels:
        return
    for run in facts.runs.values():
        if KINDS[run.trim].panels == "hook" and run.section.lip is None:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                facts.spans[run.name],
                run.length / 2,
                message("it has no lip for the panels; cleats are screwed over it"),
                message(
                    'Choose a profile with a hook, such as "{profile}".', profile=KINDS[run.trim].profile
                ),
                place=run.section.profile,
            )
