"""The pan of a valley is too narrow.

**Finds** a valley whose pan reaches less far from its middle than the limit, or less far under the panels beside it;
and one whose panels leave less open between them than its length asks for.

**Fix** Choose a profile with wider wings; for a long valley, cut the panels farther back.

**Source** UBC 3203(d) in old editions: 8 in each side of the middle, for composition roofs. CDA handbook 9.5: roofing
laps 6 in onto the metal. *Copper Flashings* (1925) sec. 33, also where standing seams end at the valley: open 4 in at
the top, and 1 in more for each 8 ft downward. No code has a width for standing seams.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import Length, Message, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import wider
from ..record import Finding, Severity
from ..valleys import Pans, reach_of, valleys_of

RULE = "narrow-valley"
COVER, OPEN = "narrow-valley-cover", "narrow-valley-open"
LIMITS = (RULE, COVER, OPEN)
SEVERITY: Severity = "warning"
WHY = message("In a cloudburst water stands over the edges of a narrow pan and runs under the panels.")
WIDENS = 1 / 96
"""How much more is open for each inch of length from the top down: 1 in for each 8 ft. Source: see the rule."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield what is too narrow about each valley."""
    for run, pans in valleys_of(facts):
        if not pans:
            continue
        short, reach = KINDS[run.trim].short, reach_of(run.section)
        wanted = facts.layout.limits.number(OPEN) + run.length * WIDENS
        better = message("Choose a profile with wider wings.")
        back = message(
            "Snap a line {half} from the middle on each side at the foot, running in to {short} at the top, and cut "
            "the panels back to it.",
            half=Length(wanted / 2),
            short=Length(short),
        )
        measures = (
            (
                RULE,
                reach,
                None,
                message("its pan reaches {width} from the middle", width=Length(reach)),
                better,
            ),
            (
                COVER,
                reach - short,
                None,
                message("the panels lie {width} over its pan", width=Length(reach - short)),
                better,
            ),
            (
                OPEN,
                2 * short,
                wanted,
                message("the panels leave {width} of its pan open", width=Length(2 * short)),
                back,
            ),
        )
        for name, width, asked, says, remedy in measures:
            least = facts.layout.limits.number(name) if asked is None else asked
            if width < least - TAPE:
                yield _found(facts, run, pans, name, width, least, says, remedy)


def _found(
    facts: Facts, run: Run, pans: Pans, name: str, width: float, least: float, says: Message, remedy: Message
) -> Finding:
    return facts.found(
        RULE,
        SEVERITY,
        run,
        pans,
        0.0,
        message("{says}, less than {least}", says=says, least=Length(least)),
        remedy,
        measured=width,
        limit=facts.limit(name),
        place=message("the whole run"),
        proposals=() if name == OPEN else _wider(facts, run, least - width),
    )


def _wider(facts: Facts, run: Run, more: float) -> tuple[Changes, ...]:
    """Return the ways to make both wings of a pan wider, by what they lack, inches."""
    wings = [leg for leg in run.section.legs if leg.name in KINDS[run.trim].legs]
    left, right = (wider(run, facts.layout.scene, leg, more) for leg in wings)
    return tuple(
        tuple(dict.fromkeys(both)) for both in (one + other for one, other in zip(left, right, strict=True))
    )
