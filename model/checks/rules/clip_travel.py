"""A panel moves more with heat than its clips let it.

**Finds** a panel whose farthest clip from the point where it is fixed is passed by more metal, over the metal's swing
of temperature, than the travel of the clip.

**Fix** Fix the panels in the middle, take clips with more travel, or shorten the panels.

**Source** Travel of a tested clip, 13/16 in: the Copper Development Association's construction of a standing seam.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, message
from ...metals import METALS
from ...scene.draft import Change
from ..facts import Facts
from ..panel_place import worst_of
from ..record import Finding, Severity

RULE = "clip-travel"
LIMITS = (RULE, "clip-spacing")
SEVERITY: Severity = "warning"
WHY = message("The clip binds, and the seam or the clip's screws give way.")


MIDDLE = ((Change(("panels", "fixed"), "middle"),),)
"""From there a panel moves half as far at either end."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with panels that move too much."""
    layout = facts.layout
    metal, fixed = layout.scene.metal, layout.scene.panels.fixed
    travel = facts.layout.limits.number(RULE)
    for index in range(len(layout.roof.faces)):
        found = []
        for panel in layout.panels_of(index):
            if not panel.clips:
                continue
            first, last = min(panel.clips), max(panel.clips)
            far = {"eave": last, "top": last - first, "middle": (last - first) / 2}[fixed]
            moves = METALS[metal.kind].growth(far, metal.design_heat)
            if moves > travel:
                problem = message(
                    "it moves {moves} at its last clip, which lets it move {travel}",
                    moves=Fine(moves),
                    travel=Fine(travel),
                )
                found.append((moves, panel, problem))
        found.sort(key=lambda one: -one[0])
        remedy = message("Fix the panels in the middle, take clips with more travel, or shorten the panels.")
        yield from worst_of(facts, RULE, SEVERITY, found, remedy, proposals=MIDDLE)
