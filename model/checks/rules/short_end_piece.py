"""A piece is too short to hold and to look right.

**Finds** a piece shorter than the limit in a run of two pieces or more.

**Fix** Start the run with even lengths, or cut the piece beside it back so that the short one grows.

**Source** No minimum length is published; the limit is the project's own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...message import Length, Message, Value, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import POINT
from ..facts import Facts, PartSpan
from ..proposals import laid_out_again, started, with_lengths
from ..record import Finding, Severity

RULE = "short-end-piece"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "A short piece has little to hold it against wind, puts two laps close together, and draws the eye."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that is too short."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        if len(spans) < 2:
            continue
        run = facts.runs[name]
        for i, span in enumerate(spans):
            if span.length >= least - POINT:
                continue
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (span,),
                (span.low + span.high) / 2,
                message(
                    "the piece is {length} long, shorter than {least}",
                    length=Length(span.length),
                    least=Length(least),
                ),
                _remedy(spans, i, least),
                measured=span.length,
                proposals=_proposals(facts, run, spans, least),
            )


def _remedy(spans: Sequence[PartSpan], at: int, least: float) -> Message:
    """Return how the piece at ``at`` becomes long enough: by an even start, at its neighbor's cost, or either."""
    span, beside = spans[at], spans[at - 1] if at else spans[1]
    missing, even = least - span.length, sum(one.length for one in spans) / len(spans)
    evenly: dict[str, Value] = {"count": len(spans), "length": Length(even)}
    moved: dict[str, Value] = {"beside": beside.mark, "missing": Length(missing), "mark": span.mark}
    match even >= least, beside.length - missing >= least:
        case True, True:
            return message(
                "Start even ({count} pieces of about {length}) or cut {beside} {missing} shorter, "
                "and {mark} as much longer.",
                **evenly,
                **moved,
            )
        case True, False:
            return message("Start even ({count} pieces of about {length}).", **evenly)
        case False, True:
            return message("Cut {beside} {missing} shorter, and {mark} as much longer.", **moved)
    return message("Join it with its neighbor from a longer stock length.")


def _proposals(facts: Facts, run: Run, spans: Sequence[PartSpan], least: float) -> tuple[Changes, ...]:
    """Return the changes that make all short pieces of a run longer: at their neighbors' cost, or laid out anew."""
    scene = facts.layout.scene
    if run.spec.pieces is None:
        return started(run, scene, ("shared", "even", "low"))
    lengths = [span.length for span in spans]
    for at, length in enumerate(lengths):
        beside = max((k for k in (at - 1, at + 1) if 0 <= k < len(lengths)), key=lambda k: lengths[k])
        missing = max(0.0, least - length)
        lengths[at] += missing
        lengths[beside] -= missing
    added = {
        number: new - span.length for number, (span, new) in enumerate(zip(spans, lengths, strict=True), 1)
    }
    return *with_lengths(run, scene, added), laid_out_again(run, scene)
