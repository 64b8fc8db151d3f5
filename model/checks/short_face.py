"""The face of the trim hangs too little over the edge.

**Finds** eave or rake trim whose face is shorter than the limit, to the outside of its bends.

**Fix** Choose a profile with a longer face.

**Source** IBC 2018 1507.2.8.3, for the drip edge of shingle roofs; a standing-seam roof asks for no less.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from ..tolerances import TAPE
from ..trim_kinds import KINDS
from .facts import Facts, outside_width
from .record import Finding, Severity

RULE = "short-face"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Water creeps back under a short face to the edge of the deck, and wind gets a hold on it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each eave or rake run whose face is too short."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        face = run.section.leg("face")
        if KINDS[run.trim].panels != "hook" or face is None:
            continue
        length = outside_width(run.section, face)
        if length < least - TAPE:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                spans,
                run.length / 2,
                message(
                    "the face of {profile} is {length} long, less than {least}",
                    profile=run.section.profile,
                    length=Length(length),
                    least=Length(least),
                ),
                message("Choose a profile with a longer face."),
                measured=length,
                place=message("the whole run"),
            )
