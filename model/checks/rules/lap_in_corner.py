"""A lap reaches into the cuts of a corner.

**Finds** the lap of a run's first or last piece that comes nearer than the limit to where the corner's cuts and tabs
are.

**Fix** Make the end piece longer, so that its lap lies clear of the corner.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan
from ..proposals import laid_out_again, started, with_lengths
from ..record import Finding, Severity

RULE = "lap-in-corner"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "Three sheets and a tab in one place cannot be folded close, and no sealant reaches between them."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each end of a run with a lap in its corner."""
    least = facts.layout.limits.number(RULE)
    for name, run in facts.runs.items():
        spans = facts.spans[name]
        if len(spans) < 2:
            continue
        low, high = spans[0].part.ends.low, spans[-1].part.ends.high
        for end, clear, u in (
            (spans[:2], spans[1].low - low.innermost, spans[1].low),
            (spans[-2:], high.innermost - spans[-2].high, spans[-2].high),
        ):
            if clear < least - TAPE:
                piece = end[0] if end[0] is spans[0] and u == spans[1].low else end[1]
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    end,
                    u,
                    message(
                        "the lap ends {clear} from the corner's cuts, nearer than {least}",
                        clear=Length(max(clear, 0.0)),
                        least=Length(least),
                    )
                    if clear >= 0
                    else message("the lap lies {depth} inside the corner's cuts", depth=Length(-clear)),
                    message(
                        "Make {mark} {more} longer or more.", mark=piece.mark, more=Length(least - clear)
                    ),
                    measured=clear,
                    proposals=_proposals(facts, run, piece, least - clear),
                )


def _proposals(facts: Facts, run: Run, piece: PartSpan, more: float) -> tuple[Changes, ...]:
    """Return the changes that make an end piece longer."""
    scene = facts.layout.scene
    if run.spec.pieces is None:
        return started(run, scene, ("shared", "even", "low"))
    return *with_lengths(run, scene, {piece.part.piece.number: more}), laid_out_again(run, scene)
