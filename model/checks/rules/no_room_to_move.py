"""A fixed run has no room to move with the heat.

**Finds** a run fastened so that it cannot move, which would grow or shrink by more than the limit.

**Fix** Let the laps slide, or fasten with slotted holes or cleats from one fixed point.

**Source** Growth = length x expansion x temperature swing, with the figures of `trimwright.model.metals`;
40 ft of steel over 160 degrees F move 0.51 in (article after *The NRCA Roofing Manual*, 2016). The limit is
common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, Length, Swing, message
from ...metals import METALS
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "no-room-to-move"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The metal buckles, or works its screws loose.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each fixed run that moves too much."""
    most = facts.layout.limits.number(RULE)
    metal = facts.layout.scene.metal
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not spans or not run.spec.fixed:
            continue
        length = spans[-1].high - spans[0].low
        growth = METALS[metal.kind].growth(length, metal.design_heat)
        if growth > most:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                spans,
                run.length / 2,
                message(
                    "fixed over {length}, it moves {growth} over {swing}, more than {most}",
                    length=Length(length),
                    growth=Fine(growth),
                    swing=Swing(metal.design_heat),
                    most=Fine(most),
                ),
                message("Let the laps slide, or fasten with slotted holes from one fixed point."),
                measured=growth,
                place=message("the whole run"),
                proposals=for_run(run, facts.layout.scene, "fixed", False),
            )
