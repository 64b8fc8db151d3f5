"""A lap is too short.

**Finds** two pieces of a run that overlap by less than the limit, measured between the ends of their metal.

**Fix** Give the run a longer lap.

**Source** CDA handbook 9.7 and UFGS 07600 3.1.15 for edge metal; IBC 2018 1507.2.8.3 for the drip edge of
shingle roofs.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan
from ..proposals import for_run, laid_out_again, with_lengths
from ..record import Finding, Severity

RULE = "lap-too-short"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Wind drives water through a short lap, and heat pulls it open.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap shorter than the limit."""
    least = facts.layout.limits.number(RULE)
    for name in facts.spans:
        for lower, upper in facts.laps(name):
            lap = lower.high - upper.low
            if 0 <= lap < least - TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message("the lap is {lap}, less than {least}", lap=Length(lap), least=Length(least)),
                    message("Lap the pieces {least} or more.", least=Length(least)),
                    measured=lap,
                    proposals=_proposals(facts, name, (lower, upper), least - lap),
                )


def _proposals(
    facts: Facts, name: str, beside: tuple[PartSpan, PartSpan], missing: float
) -> tuple[Changes, ...]:
    """Return the changes that make a lap longer: another lap, or either of the pieces that are placed by hand."""
    run, scene = facts.runs[name], facts.layout.scene
    least = facts.layout.limits.number(RULE)
    if run.spec.lap < least - TAPE:
        asked = for_run(run, scene, "lap", scene.tape.typed(scene.tape.up(least)))
        return asked if run.spec.pieces is None else (*asked, (*asked[-1], *laid_out_again(run, scene)))
    if run.spec.pieces is None:
        return ()
    ways = [with_lengths(run, scene, {span.part.piece.number: missing}) for span in beside]
    return (*(longer for way in ways for longer in way), laid_out_again(run, scene))
