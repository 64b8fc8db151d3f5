"""A piece has too few screws.

**Finds** a piece with fewer screws on a fastening leg than the limit. Where the closure under one wing of a cap is too
short for two screws, one is enough if no end of the wing is farther from it than an end screw may be: the other wing's
keep the cap from swinging round it.

**Fix** Add screws.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...message import Message, counted, message
from ...profiles.leg_words import leg_words
from ...profiles.section import Leg
from ...runs import Run
from ...screw_lines import face_under
from ...screws import holds_one
from ..facts import Facts, ScrewRow, fastening_legs
from ..proposals import with_screws
from ..record import Finding, Severity

RULE = "screws-per-piece"
LIMITS = (RULE, "end-screw")
SEVERITY: Severity = "error"
WHY = message("A piece with one screw swings round it, and one with none falls.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each fastening leg with too few screws."""
    usual = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        legs = fastening_legs(run.section)
        for span in spans:
            for leg in legs:
                rows = [row for row in facts.rows[span.mark] if row.leg == leg]
                least = 1.0 if len(legs) > 1 and _is_held_by_one(facts, run, leg, rows) else usual
                count = sum(len(row.at) for row in rows)
                if count < least:
                    yield facts.found(
                        RULE,
                        SEVERITY,
                        run,
                        (span,),
                        (span.low + span.high) / 2,
                        _too_few(count, least, leg.name) if len(legs) > 1 else _too_few_in_all(count, least),
                        counted(
                            "Put {count} more screw into {mark}.",
                            "Put {count} more screws into {mark}.",
                            count=round(least - count),
                            mark=span.mark,
                        ),
                        measured=float(count),
                        proposals=with_screws(facts.layout, span.mark, ()),
                    )


def _is_held_by_one(facts: Facts, run: Run, leg: Leg, rows: Sequence[ScrewRow]) -> bool:
    """Return whether one screw is all that the closures under a wing have room for, and holds it to its ends."""
    held = facts.held.get((run.name, face_under(run, leg.strip)))
    _, most = facts.layout.limits.band("end-screw")
    return (
        held is not None and holds_one(held) and all(row.metal[1] - row.metal[0] <= 2 * most for row in rows)
    )


def _too_few(count: int, least: float, leg: str) -> Message:
    """Return that one leg of a piece has too few screws."""
    if count == 0:
        return message(
            "the piece has no screw on its {leg}, less than {least}", leg=leg_words(leg), least=f"{least:g}"
        )
    return counted(
        "the piece has only one screw on its {leg}, less than {least}",
        "the piece has only {count} screws on its {leg}, less than {least}",
        count=count,
        leg=leg_words(leg),
        least=f"{least:g}",
    )


def _too_few_in_all(count: int, least: float) -> Message:
    """Return that a piece has too few screws."""
    if count == 0:
        return message("the piece has no screw, less than {least}", least=f"{least:g}")
    return counted(
        "the piece has only one screw, less than {least}",
        "the piece has only {count} screws, less than {least}",
        count=count,
        least=f"{least:g}",
    )
