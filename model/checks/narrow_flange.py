"""The leg that is fastened to the deck is too narrow.

**Finds** eave or rake trim whose fastening leg is narrower than the limit, to the outside of its bends.

**Fix** Choose a profile with a wider top leg.

**Source** IBC 2018 1507.2.8.3, for the drip edge of shingle roofs; a standing-seam roof asks for no less.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from ..tolerances import TAPE
from ..trim_kinds import KINDS
from .facts import Facts, fastening_legs, outside_width
from .record import Finding, Severity

RULE = "narrow-flange"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Water that gets under the panel runs over a narrow leg, and screws land near its edge.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each eave or rake run whose fastening leg is too narrow."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if KINDS[run.trim].panels != "hook":
            continue
        for leg in fastening_legs(run.section):
            width = outside_width(run.section, leg)
            if width < least - TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    spans,
                    run.length / 2,
                    message(
                        "the {leg} of {profile} is {width} wide, less than {least}",
                        leg=leg.name,
                        profile=run.section.profile,
                        width=Length(width),
                        least=Length(least),
                    ),
                    message("Choose a profile with a wider leg on the deck."),
                    measured=width,
                    place=message("the whole run"),
                )
