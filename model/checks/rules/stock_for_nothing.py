"""Stock is listed for a profile that no trim is made of.

**Finds** lengths under ``[buy]`` whose profile no run of the roof has.

**Fix** Give the profile that the trim is made of, or take the stock out.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from ...message import Listed, message
from ...scene.draft import Change
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key

RULE = "stock-for-nothing"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("Metal that is there and paid for is passed over, and the same is bought anew.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each stock that nothing is cut from because of its profile."""
    made_of = tuple(dict.fromkeys(run.section.profile for run in facts.layout.runs))
    for number, stock in enumerate(facts.layout.scene.buy.stock):
        if made_of and stock.profile is not None and stock.profile not in made_of:
            yield at_key(
                facts,
                RULE,
                SEVERITY,
                ("buy", "stock", number, "profile"),
                message("no trim of this roof is made of '{profile}'", profile=stock.profile),
                message("Give one of {profiles}, or take it out.", profiles=Listed(made_of, "or")),
                proposals=[
                    (Change(("buy", "stock", number, "profile"), meant),)
                    for meant in get_close_matches(stock.profile, made_of, len(made_of), 0.0)
                ],
            )
