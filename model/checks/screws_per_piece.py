"""A piece has too few screws.

**Finds** a piece with fewer screws on a fastening leg than the limit. Where the closure under one wing of a cap is too
short for two screws, one is enough there: the other wing's keep the cap from swinging round it.

**Fix** Add screws.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Message, counted, message
from ..profiles.leg_words import leg_words
from ..profiles.section import Leg
from ..runs import Run
from ..screw_lines import face_under
from ..screws import holds_one
from .facts import Facts, fastening_legs
from .proposals import with_screws
from .record import Finding, Severity

RULE = "screws-per-piece"
LIMITS = (RULE,)
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
                least = 1.0 if len(legs) > 1 and _has_room_for_one(facts, run, leg) else usual
                count = sum(len(row.at) for row in facts.rows[span.mark] if row.leg == leg)
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


def _has_room_for_one(facts: Facts, run: Run, leg: Leg) -> bool:
    """Return whether the closures under a leg are so short that only one screw has room in them."""
    held = facts.held.get((run.name, face_under(run, leg.strip)))
    return held is not None and holds_one(held)


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
