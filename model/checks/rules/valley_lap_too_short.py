"""The pans of a valley lap too little for its slope.

**Finds** two pans of a valley that overlap by less than the limit for the slope of the valley itself, which is less
than that of the faces beside it.

**Fix** Give the valley a longer lap, or leave it out: the usual one is as long as the limit.

**Source** CDA handbook 9.5: laps of 8 in, in the direction of the flow. Longer ones in flatter valleys and shorter
ones in steep valleys are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, Slope, message
from ...runs import VALLEY_LAPS, valley_lap
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity
from ..valleys import valleys_of

RULE = "valley-lap-too-short"
LIMITS = tuple(name for _, name in VALLEY_LAPS)
SEVERITY: Severity = "error"
WHY = message(
    "Water of two slopes runs down a valley; it backs up under a short lap, the farther the flatter it is."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap of a valley that is too short for its slope."""
    scene = facts.layout.scene
    for run, _ in valleys_of(facts):
        limit = facts.limit(valley_lap(run.edge.slope))
        least = facts.layout.limits.number(limit.rule)
        for lower, upper in facts.laps(run.name):
            lap = lower.high - upper.low
            if 0 <= lap < least - TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message(
                        "the lap is {lap}, less than {least} for a valley that slopes {slope}",
                        lap=Length(lap),
                        least=Length(least),
                        slope=Slope(run.edge.slope),
                    ),
                    message("Lap the pans {least} or more.", least=Length(least)),
                    measured=lap,
                    limit=limit,
                    proposals=for_run(run, scene, "lap", scene.tape.typed(scene.tape.up(least))),
                )
