"""The first screw of a run stands too far up.

**Finds** a run that climbs and whose first screw is farther up than the limit, measured from where the
metal begins in its row. An eighth of an inch is let pass. A low end up at the ridge, among other caps, is no corner
that the wind gets hold of first: it has its screws where other ends have them.

**Fix** Put a screw where the limit says.

**Source** Common practice, no source: about 6 in from the low end. High wind asks for less.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, Place, message
from ...scene.draft import Changes
from ...tolerances import HAND
from ..facts import Facts, PartSpan, is_sloping
from ..proposals import left_out, with_screws
from ..record import Finding, Severity

RULE = "screw-first"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Wind lifts trim at the corner first.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each sloping run whose first screw is too far up."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not spans or not is_sloping(run) or spans[0].part.ends.low.kind.aloft:
            continue
        lowest = spans[0]
        first = max((float(row.at[0]) - row.metal[0] for row in facts.rows[lowest.mark]), default=0.0)
        if first > most + HAND:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (lowest,),
                lowest.low + first,
                message(
                    "the first screw is {distance} from the low end, more than {most}",
                    distance=Length(first),
                    most=Length(most),
                ),
                message("Put a screw at {place}.", place=Place(most)),
                measured=first,
                proposals=_proposals(facts, lowest, most),
            )


def _proposals(facts: Facts, lowest: PartSpan, most: float) -> tuple[Changes, ...]:
    """Return the changes that put the first screw where it belongs: one more by hand, or what the rule set asks."""
    layout = facts.layout
    placed = layout.scene.screws.placed.get(lowest.mark)
    if placed is not None:
        begins = min(row.metal[0] for row in facts.rows[lowest.mark])
        return with_screws(layout, lowest.mark, [*placed, layout.scene.tape.down(begins + most)])
    ways = (tuple(left_out(layout.scene, "first")), tuple(left_out(layout.scene, "first", "ends")))
    return tuple(way for way in dict.fromkeys(ways) if way)
