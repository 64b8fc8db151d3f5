"""Two pieces of a run lie over each other much farther than a lap is long.

**Finds** laps longer than the limit: most often one of the lengths given by hand is too long for its run.

**Fix** Shorten the upper piece, or leave a piece out.

**Source** Common practice, no source: a valley at the least slope has laps of 12 in, and no other trim longer ones.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan
from ..proposals import for_run, laid_out_again, with_lengths
from ..record import Finding, Severity

RULE = "lap-too-long"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The metal under a long lap is bought and carried for nothing, and holds water and dirt.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap longer than the limit."""
    most = facts.layout.limits.number(RULE)
    for name, run in facts.runs.items():
        for lower, upper in facts.laps(name):
            lap = lower.high - upper.low
            if lap > most + TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message(
                        "they lie over each other by {lap}, more than {most}",
                        lap=Length(lap),
                        most=Length(most),
                    ),
                    message(
                        "Make {mark} {extra} shorter: a lap of {usual} is asked for.",
                        mark=upper.mark,
                        extra=Length(lap - min(run.spec.lap, most)),
                        usual=Length(min(run.spec.lap, most)),
                    ),
                    measured=lap,
                    proposals=_proposals(facts, run, upper, lap - min(run.spec.lap, most), most),
                )


def _proposals(facts: Facts, run: Run, upper: PartSpan, extra: float, most: float) -> tuple[Changes, ...]:
    """Return the changes that make a lap shorter: its piece, where that is placed by hand, or what is asked for."""
    scene = facts.layout.scene
    if run.spec.pieces is not None:
        shorter = with_lengths(run, scene, {upper.part.piece.number: -extra})
        return *shorter, laid_out_again(run, scene)
    return for_run(run, scene, "lap", scene.tape.typed(scene.tape.down(most)))
