"""A panel is wider than the sheet that panels are made of.

**Finds** a panel whose flat sheet is wider than that of a whole panel by more than the limit.

**Fix** Leave the start of the panels to the layout, or move the first seam toward the rake.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...panels.lay import whole_width
from ..facts import Facts
from ..panel_place import worst_of
from ..proposals import seams_elsewhere
from ..record import Finding, Severity

RULE = "panel-too-wide"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "A wider panel cannot be made from the same coil: what covers the rake and hooks its lip takes metal too."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with a panel that is too wide."""
    layout = facts.layout
    whole, most = whole_width(layout.scene), facts.layout.limits.number(RULE)
    for index in range(len(layout.roof.faces)):
        found = []
        for panel in layout.panels_of(index):
            if panel.width - whole > most:
                problem = message(
                    "its sheet is {width} wide, that of a whole panel {whole}",
                    width=Length(panel.width),
                    whole=Length(whole),
                )
                found.append((panel.width - whole, panel, problem))
        found.sort(key=lambda one: -one[0])
        remedy = message(
            "Move the first seam toward the end at which this panel lies, until its sheet is {whole} wide or less.",
            whole=Length(whole),
        )
        yield from worst_of(facts, RULE, SEVERITY, found, remedy, proposals=seams_elsewhere(facts.layout))
