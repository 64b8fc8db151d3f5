"""What the tape does not tell well enough could turn a finding.

**Finds** a run whose pieces may come out shorter than may stand though they do not as drawn, or long enough though they
do not look it; pieces placed by hand that may not cover their run; and a miter that may gape more than sealant bridges
if it is cut as drawn. It speaks where a scene says how well its roof was measured, under `[survey]`.

**Fix** Measure the edge once more before anything is cut for it, and correct the scene. Miters are scribed in place.

**Source** The project's own: shares are counted over roofs drawn by chance within what the measures may be off.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, Length, Message, Value, message
from ...sureness.record import MiterSureness, RunSureness
from ...tolerances import MITER_GAP
from ..facts import Facts
from ..record import Finding, Severity

RULE = "length-in-doubt"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Metal is cut once: what the tape left open is better settled before than after.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run and each miter that may come out otherwise than it is drawn."""
    sure = facts.layout.sureness
    if sure is None:
        return
    most = facts.layout.limits.number(RULE)
    for run in sure.runs.values():
        for share, problem in _of_run(facts, run):
            if most < 100 * share < 100 - most:
                yield _found(facts, run.run, 100 * share, problem)
    for miter in sure.miters:
        if 100 * miter.open > most:
            yield _gaping(facts, miter)


def _of_run(facts: Facts, sure: RunSureness) -> Iterator[tuple[float, Message]]:
    """Yield what may turn on a run, and in what share of roofs it does."""
    least = facts.layout.limits.number("short-end-piece")
    spans = facts.spans[sure.run]
    is_short = len(spans) > 1 and min(span.length for span in spans) < least
    values: dict[str, Value] = {
        "least": Length(least),
        "share": _of_100(1 - sure.short if is_short else sure.short),
    }
    if is_short:
        yield (
            1 - sure.short,
            message("in {share} of 100 roofs that measure so, no piece is shorter than {least}", **values),
        )
    else:
        yield (
            sure.short,
            message("in {share} of 100 roofs that measure so, a piece is shorter than {least}", **values),
        )
    yield (
        sure.bare,
        message(
            "in {share} of 100 roofs that measure so, the pieces placed by hand do not cover it",
            share=_of_100(sure.bare),
        ),
    )


def _found(facts: Facts, name: str, share: float, problem: Message) -> Finding:
    run = facts.runs[name]
    return facts.found(
        RULE,
        SEVERITY,
        run,
        (),
        run.length / 2,
        problem,
        message("Measure this edge once more before anything is cut for it."),
        measured=share,
    )


def _gaping(facts: Facts, miter: MiterSureness) -> Finding:
    run = facts.runs[miter.run]
    span = facts.spans[miter.run][0 if miter.at == "low" else -1]
    return facts.found(
        RULE,
        SEVERITY,
        run,
        (span,),
        0.0 if miter.at == "low" else run.length,
        message(
            "in {share} of 100 roofs that measure so, the miter gapes more than {gap} if it is cut as drawn",
            share=_of_100(miter.open),
            gap=Fine(MITER_GAP),
        ),
        message("Scribe it in place, or measure the pitch again."),
        measured=100 * miter.open,
    )


def _of_100(share: float) -> str:
    return f"{100 * share:.0f}"
