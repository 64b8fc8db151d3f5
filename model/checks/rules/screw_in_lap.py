"""A screw stands in a lap.

**Finds** a screw whose head reaches into the length where two pieces lie over each other.

**Fix** Move the screw clear of the lap.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...message import Length, message
from ...scene.draft import Changes
from ...tolerances import POINT
from ..facts import Facts, PartSpan, and_more
from ..proposals import with_screws
from ..record import Finding, Severity

RULE = "screw-in-lap"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "A screw in a lap pins both pieces, so that neither can move with the heat, and makes a hole where "
    "water is held; in the covered piece it lifts the lap."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that has a screw in a lap; the deepest speaks for it."""
    clear = facts.layout.limits.number(RULE)
    reach = facts.layout.scene.screws.head / 2 + clear
    for name in facts.spans:
        for lower, upper in facts.laps(name):
            start, end = upper.low - reach, lower.high + reach
            for span, other in ((lower, upper), (upper, lower)):
                at = np.array(list(dict.fromkeys(facts.screws[span.mark][:, 0].tolist()))) + span.low
                inside = np.minimum(at - start, end - at)
                count = int((inside > POINT).sum())
                if not count:
                    continue
                worst = int(inside.argmax())
                depth = float(inside[worst])
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span, other),
                    float(at[worst]),
                    and_more(
                        message("the screw's head reaches {depth} into the lap", depth=Length(depth)), count
                    ),
                    message("Move it {depth} away from the lap.", depth=Length(depth)),
                    measured=clear - depth,
                    proposals=_proposals(facts, span, span is lower, start - lower.low, end - upper.low),
                    place=message("{mark} at the lap with {other}", mark=span.mark, other=other.mark),
                )


def _proposals(facts: Facts, span: PartSpan, lower: bool, start: float, end: float) -> tuple[Changes, ...]:
    """Return the changes that take the screws of a piece that are placed by hand out of a lap.

    Args:
        facts: The layout.
        span: The piece.
        lower: Whether it is the lower one of the two.
        start: Where the lap begins, from the low end of the lower piece, inches; a screw's own room counted in.
        end: Where it ends, from the low end of the upper piece.
    """
    layout = facts.layout
    show, (least, _) = layout.scene.tape, layout.limits.band("end-screw")
    placed = layout.scene.screws.placed.get(span.mark, ())
    if lower:
        good = show.down(min(start, span.length - least))
        kept = [min(at, good) for at in placed]
    else:
        good = show.up(max(end, least))
        kept = [max(at, good) for at in placed]
    return with_screws(layout, span.mark, kept)
