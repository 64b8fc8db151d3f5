"""Panels have no lip of the trim to hook.

**Finds** eave and rake trim without a return leg under panels that hook on: cleats are screwed over it instead.

**Fix** Choose a profile with a hook, such as "hook eave", or accept the finding: the cleats are on the lists.

**Source** Common practice, no source; how far the cleats lap: CDA handbook 8.2A.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import Listed, message
from ...scene.draft import Change
from ..facts import Facts
from ..proposals import said_at
from ..record import Finding, Severity

RULE = "no-lip"
LIMITS = (RULE, "cleat-lap")
SEVERITY: Severity = "note"
WHY = message("Each cleat is metal, screws and work besides, and its screws go through the trim.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield one finding for all trim whose panels hook cleats."""
    bare = [
        run
        for run in facts.runs.values()
        if KINDS[run.trim].panels == "hook" and run.section.lip is None and facts.layout.panels
    ]
    if not bare:
        return
    profiles = tuple(dict.fromkeys(run.section.profile for run in bare))
    yield facts.found(
        RULE,
        SEVERITY,
        bare[0],
        tuple(span for run in bare for span in facts.spans[run.name]),
        bare[0].length / 2,
        message("it has no lip for the panels; cleats are screwed over it"),
        message('Choose a profile with a hook, such as "{profile}".', profile=KINDS[bare[0].trim].profile),
        place=Listed(profiles),
        proposals=(tuple(Change(said_at(run, facts.layout.scene, "profile"), None) for run in bare),),
    )
