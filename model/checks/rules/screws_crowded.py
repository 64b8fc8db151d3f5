"""Two screws of a row stand too near to each other.

**Finds** two screws that follow each other in one row of a piece at less than the limit.

**Fix** Take one of them out, or lay the piece longer so that its screws find room.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...message import Length, message
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan, ScrewRow
from ..proposals import with_screws
from ..record import Finding, Severity

RULE = "screws-crowded"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Heads of screws and the screw gun need the room, and two holes so near tear into one.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece with screws too near to each other; the nearest two speak for it."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            pairs = [
                (float(gap), row, k) for row in facts.rows[span.mark] for k, gap in enumerate(np.diff(row.at))
            ]
            if not pairs:
                continue
            apart, row, k = min(pairs, key=lambda pair: pair[0])
            if apart < least - TAPE:
                values = {"apart": Length(apart), "least": Length(least)}
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    span.low + float(row.at[k : k + 2].mean()),
                    message("two screws stand {apart} apart, nearer than {least}", **values),
                    message("Take one of them out, or make the piece longer and lay its screws again."),
                    measured=apart,
                    proposals=_proposals(facts, span, row, k),
                )


def _proposals(facts: Facts, span: PartSpan, row: ScrewRow, number: int) -> tuple[Changes, ...]:
    """Return the changes that take out one of two screws that are placed by hand; the ends keep theirs."""
    out = float(row.at[number + 1 if number + 2 < len(row.at) else number])
    placed = sorted(facts.layout.scene.screws.placed.get(span.mark, ()), key=lambda at: abs(at - out))
    return with_screws(facts.layout, span.mark, placed[1:])
