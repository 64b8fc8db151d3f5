"""The face of the trim hangs too little over the edge.

**Finds** eave or rake trim whose face is shorter than the limit, to the outside of its bends.

**Fix** Choose a profile with a longer face.

**Source** IBC 2018 1507.2.8.3, for the drip edge of shingle roofs; a standing-seam roof asks for no less.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ..facts import Facts, narrow_legs
from ..proposals import for_run, wider
from ..record import Finding, Severity

RULE = "short-face"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Water creeps back under a short face to the edge of the deck, and wind gets a hold on it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each eave or rake run whose face is too short."""
    least, scene = facts.layout.limits.number(RULE), facts.layout.scene
    for run, leg, length in narrow_legs(facts, least, lambda leg: leg.name == "face"):
        longer = for_run(run, scene, "face", scene.tape.typed(scene.tape.up(least)))
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            facts.spans[run.name],
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
            proposals=(*longer, *wider(run, scene, leg, least - length)),
        )
