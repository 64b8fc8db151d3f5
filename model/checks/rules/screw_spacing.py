"""Two screws of a run are too far apart.

**Finds** two neighboring screws of a row, on one piece or across a lap, farther apart than the limit. An
eighth of an inch is let pass; the widest gap of a run speaks for all of them.

**Fix** Put another screw between them. More screws than asked are always allowed.

**Source** Common practice, no source; sources disagree by purpose (3, 4, 6, 10, 12 and 20 in), so choose
the rule set that fits the site.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from ...message import Length, Message, message
from ...scene.draft import Change, Changes
from ...screw_lines import OFF_LAP
from ...tolerances import HAND
from ..facts import Facts, PartSpan, and_more
from ..proposals import for_run, left_out, screws_left_out
from ..record import Finding, Severity

RULE = "screw-spacing"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Trim between screws too far apart can flutter and lift.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run with screws too far apart; its widest gap speaks for all."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        gaps = sorted(_wide_gaps(facts, spans, most + HAND), key=lambda gap: -gap.width)
        if not gaps:
            continue
        worst = gaps[0]
        yield facts.found(
            RULE,
            SEVERITY,
            facts.runs[name],
            tuple(dict.fromkeys(s for gap in gaps for s in gap.beside)),
            worst.start + worst.width / 2,
            and_more(
                message(
                    "two screws are {gap} apart, more than {most}", gap=Length(worst.width), most=Length(most)
                ),
                len(gaps),
            ),
            _remedy(facts, gaps, most),
            measured=worst.width,
            proposals=_proposals(facts, gaps, most),
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Gap:
    """Two neighboring screws: where the first stands, how far the next is, and the pieces they go through."""

    start: float
    width: float
    beside: tuple[PartSpan, PartSpan]


def _wide_gaps(facts: Facts, spans: tuple[PartSpan, ...], most: float) -> Iterator[_Gap]:
    """Yield the gaps wider than ``most`` of every row, followed through all pieces of a run."""
    rows: dict[tuple[int, int], list[tuple[float, PartSpan]]] = {}
    for span in spans:
        count: dict[int, int] = {}
        for row in facts.rows[span.mark]:
            strip = row.leg.strip
            count[strip] = number = count.get(strip, 0) + 1
            rows.setdefault((strip, number), []).extend((span.low + at, span) for at in row.at.tolist())
    for row_of_run in rows.values():
        row_of_run.sort(key=lambda screw: screw[0])
        for (start, first), (end, second) in pairwise(row_of_run):
            if end - start > most:
                yield _Gap(start, end - start, (first, second))


def _remedy(facts: Facts, gaps: list[_Gap], most: float) -> Message:
    """Return how many screws are missing; over a lap that takes none, how long it may be."""
    if all(_over_long_lap(gap, most) for gap in gaps):
        return message(
            "No screw goes through a lap, and this one is too long to reach over: make the lap {lap} or shorter.",
            lap=Length(facts.layout.scene.tape.down(_longest_lap(most))),
        )
    missing = sum(math.ceil(gap.width / most - 1e-9) - 1 for gap in gaps)
    return message("Put {missing} more in between.", missing=missing)


def _longest_lap(most: float) -> float:
    """Return the longest lap that screws no farther than ``most`` apart reach over, inches."""
    return most - 2 * OFF_LAP


def _over_long_lap(gap: _Gap, most: float) -> bool:
    """Return whether a gap is over a lap so long that screws on both sides of it are too far apart."""
    lower, upper = gap.beside
    return lower is not upper and lower.high - upper.low > _longest_lap(most) + HAND


def _proposals(facts: Facts, gaps: list[_Gap], most: float) -> tuple[Changes, ...]:
    """Return the changes that close gaps: a shorter lap, screws by hand, the layout's own, the distance usual."""
    scene = facts.layout.scene
    if all(_over_long_lap(gap, most) for gap in gaps):
        run = gaps[0].beside[0].part.run
        return for_run(run, scene, "lap", scene.tape.typed(scene.tape.down(_longest_lap(most))))
    show, placed = scene.tape, scene.screws.placed
    beside = [span.mark for gap in gaps for span in gap.beside if span.mark in placed]
    if not beside:
        asked = tuple(left_out(scene, "spacing"))
        return (asked,) if asked else ()
    marks = {mark: list(placed[mark]) for mark in beside}
    for gap in gaps:
        lower, upper = gap.beside
        if lower is upper and lower.mark in marks:
            count = math.ceil(gap.width / most - 1e-9)
            first = gap.start - lower.low
            marks[lower.mark] += [show.down(first + gap.width * k / count) for k in range(1, count)]
    added = tuple(
        Change(("screws", "placed", mark), list(dict.fromkeys(show.typed(at) for at in sorted(own))))
        for mark, own in marks.items()
    )
    return added, screws_left_out(marks)
