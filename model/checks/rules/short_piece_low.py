"""The short piece lies at the low end, where eyes and water are.

**Finds** a run that climbs and has its remainder, or a hand-placed piece shorter than another, at its low
end.

**Fix** Start with a full length at the low end, so that the remainder ends up at the high end.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, is_sloping
from ..proposals import laid_out_again, started, with_lengths
from ..record import Finding, Severity

RULE = "short-piece-low"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "The low end is what is seen from the ground and where all the water of the run passes; by the ridge the "
    "same lap is out of sight and nearly dry."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each sloping run whose short piece is the lowest."""
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if len(spans) < 2 or not is_sloping(run):
            continue
        lowest, longest = spans[0], max(spans[1:], key=lambda span: span.length)
        piece = lowest.part.piece
        if (piece.short or piece.placed) and lowest.length < longest.length - TAPE:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (lowest,),
                (lowest.low + lowest.high) / 2,
                message(
                    "the short piece, {length}, lies where eyes and water are", length=Length(lowest.length)
                ),
                message("Start with a full length at the low end."),
                measured=1.0,
                proposals=_proposals(facts, run, longest.part.piece.number),
            )


def _proposals(facts: Facts, run: Run, longest: int) -> tuple[Changes, ...]:
    """Return the changes that bring a longer piece to the low end."""
    scene, pieces = facts.layout.scene, run.spec.pieces
    if pieces is None:
        return started(run, scene, ("shared", "low", "even"))
    more = pieces[longest - 1].length - pieces[0].length
    return *with_lengths(run, scene, {1: more, longest: -more}), laid_out_again(run, scene)
