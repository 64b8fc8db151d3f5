"""A piece is heavier than one man carries up a ladder.

**Finds** pieces of trim that weigh more than the limit.

**Fix** Carry it with two, hoist it, or give shorter stock.

**Source** NIOSH 94-110, load constant of the lifting equation: 51 lb is the most in the best posture, and a ladder is
none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...metals import METALS
from ..facts import Facts
from ..proposals import stock_up_to
from ..record import Finding, Severity

RULE = "too-heavy"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Whoever carries more than that on a ladder or a roof falls, or hurts the back.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece that two should carry."""
    most = facts.layout.limits.number(RULE)
    density = METALS[facts.layout.scene.metal.kind].density
    for name, spans in facts.spans.items():
        section = facts.runs[name].section
        longest = most / (section.width * section.thickness * density)
        for span in spans:
            pounds = span.length * section.width * section.thickness * density
            if pounds > most:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    facts.runs[name],
                    (span,),
                    (span.low + span.high) / 2,
                    message(
                        "it weighs {pounds} lb, more than {most} lb", pounds=round(pounds), most=round(most)
                    ),
                    message(
                        "Carry it with two or hoist it, or lay the run from lengths of {longest} or less.",
                        longest=Length(facts.layout.scene.tape.down(longest)),
                    ),
                    measured=pounds,
                    proposals=stock_up_to(facts.layout.scene, longest),
                )
