"""A panel's upper end is not turned up.

**Finds** a panel that ends under a cap with its end turned up by less than the limit.

**Fix** Take a wider cap or lower seams, so that there is room to turn the end up.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, Listed, message
from ...tolerances import TAPE
from ..facts import Facts
from ..panel_place import worst_of
from ..proposals import lower_seams
from ..record import Finding, Severity

RULE = "panel-end-open"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Wind drives water up the pan and over its end, behind the closures.")
TIP = 3.0
"""A cut shorter than this, inches, is the tip of a panel, which sealant closes."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with ends that are not turned up."""
    least = facts.layout.limits.number(RULE)
    for index in range(len(facts.layout.roof.faces)):
        found, caps = [], []
        for panel in facts.layout.panels_of(index):
            cuts = [end for end in panel.ends if end.ending == "turned up" and end.length > TIP]
            low = min((end.turned for end in cuts), default=least)
            if low < least - TAPE:
                problem = message(
                    "its upper end is turned up {height}, less than {least}",
                    height=Length(low),
                    least=Length(least),
                )
                found.append((low, panel, problem))
                caps += [end.border for end in cuts if end.turned == low]
        found.sort(key=lambda one: one[0])
        remedy = message(
            "Take a wider cap for the {caps}, or lower seams, so that there is room to turn it up.",
            caps=Listed(tuple(dict.fromkeys(caps))),
        )
        yield from worst_of(facts, RULE, SEVERITY, found, remedy, proposals=lower_seams(facts.layout))
