"""A piece given by hand is much longer than its run.

**Finds** runs of one piece whose length, as the scene gives it, is more than the limit longer than what lies there:
it is cut to the run.

**Fix** Give the length that the run takes, or look whether the piece is meant for another run.

**Source** Common practice, no source: more than a foot is no allowance.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ..facts import Facts
from ..proposals import laid_out_again, with_lengths
from ..record import Finding, Severity

RULE = "piece-cut-back"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Either the metal is cut off and lost, or the run is shorter here than on the roof.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each single piece that is much longer than its run."""
    most = facts.layout.limits.number(RULE)
    for name, run in facts.runs.items():
        if run.spec.pieces is None or len(run.spec.pieces) != 1:
            continue
        [span] = facts.spans[name]
        given, extra = run.spec.pieces[0].length, run.spec.pieces[0].length - span.length
        if extra > most + 1e-6:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (span,),
                run.length / 2,
                message(
                    "it is given as {given}, and the run takes {length}",
                    given=Length(given),
                    length=Length(span.length),
                ),
                message(
                    "Give {length}, or see whether it is meant for another run.", length=Length(span.length)
                ),
                measured=extra,
                proposals=(
                    *with_lengths(run, facts.layout.scene, {1: -extra}),
                    laid_out_again(run, facts.layout.scene),
                ),
            )
