"""A sliver of a panel stands at the end of a roof.

**Finds** an end panel that covers less of the deck, from its seam to the edge, than the limit. Panels that end in a
point under a hip are none.

**Fix** Leave the start of the panels to the layout, or give the first seam another place.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...tolerances import TAPE
from ..facts import Facts
from ..panel_place import worst_of
from ..proposals import seams_elsewhere
from ..record import Finding, Severity

RULE = "narrow-panel"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "A sliver of a panel shows, is hard to fold and hook, and its seam stands over the screws of the rake."
)
BORDERS = {"hooked", "turned down", "turned up", "plain"}


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with a sliver at one of its ends."""
    least = facts.layout.limits.number(RULE)
    for index, face in enumerate(facts.layout.roof.faces):
        found = []
        for panel in facts.layout.panels_of(index):
            if not BORDERS & set(panel.edges):
                continue
            right = panel.placement[:3, 1]
            across = face.outline @ right
            own = panel.outline @ right
            width = float(min(own.max(), across.max()) - max(own.min(), across.min()))
            if width < least - TAPE:
                problem = message(
                    "it covers {width} of the deck, less than {least}",
                    width=Length(width),
                    least=Length(least),
                )
                found.append((width, panel, problem))
        found.sort(key=lambda one: one[0])
        remedy = message(
            "Let the first seam stand elsewhere, so that the panels at both ends cover {least} or more.",
            least=Length(least),
        )
        yield from worst_of(facts, RULE, SEVERITY, found, remedy, proposals=seams_elsewhere(facts.layout))
