"""Foam closures let a cap's screws pin panels that move.

**Finds** a run on strips of foam whose screws go through the panels into the deck where heat moves the panels by more
than the limit.

**Fix** Take closures of metal, whose flange holds the screws above the pan, or fix the panels at that end.

**Source** Common practice, no source; how far a panel moves is its length x expansion x temperature swing.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, message
from ...metals import METALS
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "closure-pins-panel"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The panel tears the hole long and it leaks, or the panel buckles.")

FREE = {"eave": 1.0, "middle": 0.5, "top": 0.0}
"""Which share of a panel's length lies between its fixed point and its upper end."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run on foam over panels that move."""
    layout = facts.layout
    metal, share = layout.scene.metal, FREE[layout.scene.panels.fixed]
    most = layout.limits.number(RULE)
    lengths = {panel.name: panel.length for panel in layout.panels}
    longest: dict[str, float] = {}
    for closure in layout.closures:
        if closure.foam:
            longest[closure.at] = max(longest.get(closure.at, 0.0), lengths[closure.panel])
    for name, length in longest.items():
        moves = METALS[metal.kind].growth(length * share, metal.design_heat)
        if moves > most:
            run = facts.runs[name]
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                facts.spans[name],
                run.length / 2,
                message(
                    "its screws go through foam into the deck, and pin panels that move {moves} there",
                    moves=Fine(moves),
                ),
                message("Take closures of metal: their flange holds the screws above the pan."),
                measured=moves,
                place=message("the whole run"),
                proposals=for_run(run, layout.scene, "closure", "Z"),
            )
