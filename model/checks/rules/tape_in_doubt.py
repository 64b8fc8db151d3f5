"""What was taped does not agree with itself: somebody misread the tape, or wrote it down wrong.

**Finds** a taped length or pitch whose misfit no chance explains: of all that could be wrong, the one that explains it
best, or, where several explain it as well, all of these.

**Fix** Tape it again, and correct it under `[roof.taped]`. One that is named alone is left out until then, and the roof
goes by the others; where several are named, all of them count.

**Source** The test of each misfit against its own standard error is Baarda's, *A testing procedure for use in geodetic
networks* (1968), from memory; a misfit beyond the limit comes about by chance once in a thousand.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Angle, Length, Listed, Message, Slope, counted, message
from ...survey.quantities import every_size
from ...survey.record import Doubt, Survey, Taped
from ...survey.telling import telling
from ..facts import Facts, at_place
from ..record import Finding, Severity

RULE = "tape-in-doubt"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "Metal that is cut to a wrong length does not fit, and a wrong corner moves every piece beside it."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each mistake that shows."""
    survey, roof = facts.layout.survey, facts.layout.roof
    if survey is None:
        return
    sizes = every_size(roof)
    for doubt in survey.doubts:
        first = survey.by_name[doubt.tapes[0]]
        yield Finding(
            RULE,
            SEVERITY,
            first.name,
            at_place(first.name, _problem(doubt, first)),
            (),
            roof.vertices[list(sizes[first.name].corners)].mean(axis=0),
            abs(first.score),
            facts.limit(RULE),
            _remedy(facts, doubt, survey),
        )


def _problem(doubt: Doubt, first: Taped) -> Message:
    if first.kind == "pitch":
        by = message("{angle}°", angle=Angle(abs(doubt.by), 1))
    else:
        by = message("{length}", length=Length(abs(doubt.by)))
    others = len(doubt.tapes) - 1
    if others and doubt.by > 0:
        return counted(
            "what was read here or in {count} other place is wrong; here it would be {by} too much",
            "what was read here or in one of {count} other places is wrong; here it would be {by} too much",
            count=others,
            by=by,
        )
    if others:
        return counted(
            "what was read here or in {count} other place is wrong; here it would be {by} too little",
            "what was read here or in one of {count} other places is wrong; here it would be {by} too little",
            count=others,
            by=by,
        )
    if doubt.by > 0:
        return message("what was read is {by} more than everything else that was taped allows", by=by)
    return message("what was read is {by} less than everything else that was taped allows", by=by)


def _remedy(facts: Facts, doubt: Doubt, survey: Survey) -> Message:
    first = survey.by_name[doubt.tapes[0]]
    if len(doubt.tapes) > 1:
        tapes, layout = Listed(doubt.tapes), facts.layout
        more = telling(layout.roof, tuple(survey.by_name), doubt.tapes, layout.scene.accuracy)
        if more:
            return message(
                "Tape these again: {tapes}. To be told which of them it is, tape as well: {more}.",
                tapes=tapes,
                more=Listed(more),
            )
        return message("Tape these again: {tapes}.", tapes=tapes)
    if first.kind == "pitch":
        return message(
            "Measure it again. Until then the roof goes by the others, with {now} here.",
            now=Slope(first.now),
        )
    return message(
        "Tape it again. Until then the roof goes by the others, with {now} here.", now=Length(first.now)
    )
