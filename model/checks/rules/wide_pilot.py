"""A pilot hole is nearly as wide as the screw's head.

**Finds** pilot holes that leave the head less metal to bear on, on each side of the hole, than the limit.

**Fix** Drill a smaller hole, or take screws with a wider head.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, message
from ...scene.draft import Change
from ...units import Tape
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key, size

RULE = "wide-pilot"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The head pulls through a hole that is nearly as wide, and water follows the screw.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding when the head hardly covers its hole."""
    screws, least = facts.layout.scene.screws, facts.layout.limits.number(RULE)
    if screws.pilot is None:
        return
    rim = (screws.head - screws.pilot) / 2
    if rim < least - 1e-9:
        yield at_key(
            facts,
            RULE,
            SEVERITY,
            ("screws", "pilot"),
            message(
                "a hole of {pilot} under a head of {head} leaves it {rim} of metal all round",
                pilot=size(screws.pilot),
                head=size(screws.head),
                rim=Fine(rim),
            ),
            message("Drill {hole} or less, or take a wider head.", hole=size(screws.head - 2 * least))
            if screws.head > 2 * least + 1 / 32
            else message("Take screws with a wider head."),
            measured=rim,
            proposals=((Change(("screws", "pilot"), _drill(screws.head - 2 * least)),),),
        )


def _drill(most: float) -> str:
    """Return the largest hole of whole 64ths of an inch that is no wider than ``most``, inches."""
    drill = Tape("feet", 64)
    return drill.typed(drill.down(most))
