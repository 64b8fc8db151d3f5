"""The leg that is fastened to the deck is too narrow.

**Finds** eave or rake trim whose fastening leg is narrower than the limit, to the outside of its bends.

**Fix** Choose a profile with a wider top leg.

**Source** IBC 2018 1507.2.8.3, for the drip edge of shingle roofs; a standing-seam roof asks for no less.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...profiles.leg_words import leg_words
from ..facts import Facts, narrow_legs
from ..proposals import wider
from ..record import Finding, Severity

RULE = "narrow-flange"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Water that gets under the panel runs over a narrow leg, and screws land near its edge.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each eave or rake run whose fastening leg is too narrow."""
    least = facts.layout.limits.number(RULE)
    for run, leg, width in narrow_legs(facts, least, lambda leg: leg.fastened):
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            facts.spans[run.name],
            run.length / 2,
            message(
                "the {leg} of {profile} is {width} wide, less than {least}",
                leg=leg_words(leg.name),
                profile=run.section.profile,
                width=Length(width),
                least=Length(least),
            ),
            message("Choose a profile with a wider leg on the deck."),
            measured=width,
            place=message("the whole run"),
            proposals=wider(run, facts.layout.scene, leg, least - width),
        )
