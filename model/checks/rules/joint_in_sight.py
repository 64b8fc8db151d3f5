"""A joint of the trim stands where people look at it, or walk under it.

**Finds** laps of level trim over a door or nearer to it than the limit, and eave, rake and high trim on the side of the
street with more laps than its length takes, where a scene says where the doors are and which side is the street's. A
run longer than the longest stock has laps wherever it is laid: these are not told.

**Fix** Lay the run from longer stock, from another end, or with its lengths given by hand, so that the joint lands
elsewhere; where it has to stand there, accept the finding.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate

from ...message import Length, counted, message
from ...runs import Run
from ...scene.draft import Changes
from ..facts import Facts, PartSpan
from ..proposals import laid_out_again, lengths_by_hand, started
from ..record import Finding, Severity
from ..sight import doors_under, fewest_laps, is_over, seen_laps

RULE = "joint-in-sight"
STREET = "joint-in-sight-street"
LIMITS = (RULE, STREET)
SEVERITY: Severity = "note"
WHY = message(
    "A lap is a line across the finish that everybody sees, and where it leaks it drips on whoever enters."
)
STEP = 1.0
"""Lengths of a first piece are tried this far apart, inches."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap over a door, and for each run on the street's side with laps too many."""
    spans = {span.mark: span for own in facts.spans.values() for span in own}
    on_street: dict[str, list[tuple[PartSpan, PartSpan]]] = {}
    for lap in seen_laps(facts.layout):
        pair = (spans[lap.lower.mark], spans[lap.upper.mark])
        if lap.over_door:
            yield _over_door(facts, lap.run, *pair)
        elif facts.layout.scene.street is not None:
            on_street.setdefault(lap.run.name, []).append(pair)
    for name, laps in on_street.items():
        more = len(laps) - fewest_laps(facts.layout, facts.runs[name])
        if more > facts.layout.limits.number(STREET):
            yield _on_street(facts, facts.runs[name], laps, more)


def _over_door(facts: Facts, run: Run, lower: PartSpan, upper: PartSpan) -> Finding:
    """Return the finding of a lap over a door."""
    return facts.found(
        RULE,
        SEVERITY,
        run,
        (lower, upper),
        (upper.low + lower.high) / 2,
        message("the lap is over a door"),
        message(
            "Lay the run from longer stock, or with one piece more, so that no lap comes nearer to the door than "
            "{least}.",
            least=Length(facts.layout.limits.number(RULE)),
        ),
        proposals=tuple(_off_the_doors(facts, run)),
    )


def _on_street(facts: Facts, run: Run, laps: list[tuple[PartSpan, PartSpan]], more: int) -> Finding:
    """Return the finding of a run on the street's side that has more laps than it needs."""
    return facts.found(
        RULE,
        SEVERITY,
        run,
        tuple(dict.fromkeys(span for pair in laps for span in pair)),
        (laps[0][1].low + laps[0][0].high) / 2,
        counted(
            "on the side of the street it has {count} lap more than its length takes",
            "on the side of the street it has {count} laps more than its length takes",
            count=more,
        ),
        message("Lay the run in full lengths."),
        measured=float(more),
        limit=facts.limit(STREET),
        proposals=started(run, facts.layout.scene, ("shared", "low"))
        or (laid_out_again(run, facts.layout.scene),),
    )


def _off_the_doors(facts: Facts, run: Run) -> Iterator[Changes]:
    """Yield the ways to lay a run with no lap near a door: of as many pieces, then of one more.

    Of the lengths of a first piece that clear the doors, the longest is taken.
    """
    layout, lap = facts.layout, run.spec.lap
    parts, stock = layout.parts_of(run.name), layout.scene.metal.stock[-1]
    least, doors = layout.limits.number("short-end-piece"), doors_under(layout, run)
    for count in (len(parts), len(parts) + 1):
        metal = sum(part.length for part in parts) + (count - len(parts)) * lap
        for step in range(int((stock - least) / STEP) + 1):
            first = stock - step * STEP
            lengths = [first, *[stock] * (count - 2), metal - first - (count - 2) * stock]
            ends = [
                parts[0].low + reach - number * lap for number, reach in enumerate(accumulate(lengths[:-1]))
            ]
            if least <= lengths[-1] <= stock and not any(
                is_over(layout, run, doors, end - lap, end) for end in ends
            ):
                yield from lengths_by_hand(layout, run, lengths)
                break
