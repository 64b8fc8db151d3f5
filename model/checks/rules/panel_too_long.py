"""A panel is too long to be rolled, brought and carried up in one piece.

**Finds** a panel whose flat sheet is longer than the limit.

**Fix** Have it rolled on the site, or break the slope; a scene can give the limit that its crew and truck allow.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...tolerances import TAPE
from ..facts import Facts
from ..panel_place import worst_of
from ..record import Finding, Severity

RULE = "panel-too-long"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("A long panel buckles when it is lifted, takes many hands, and moves much with heat.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with panels that are too long."""
    most = facts.layout.limits.number(RULE)
    for index in range(len(facts.layout.roof.faces)):
        found = []
        for panel in facts.layout.panels_of(index):
            if panel.length > most + TAPE:
                problem = message(
                    "it is {length} long, more than {most}", length=Length(panel.length), most=Length(most)
                )
                found.append((panel.length, panel, problem))
        found.sort(key=lambda one: -one[0])
        remedy = message("Have it rolled on the site, or break the slope.")
        yield from worst_of(facts, RULE, SEVERITY, found, remedy)
