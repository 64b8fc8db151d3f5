"""A pitch is so low that another number may be meant.

**Finds** pitches, in a scene of feet and inches, that are 3 to 12 whole degrees or percent and no whole inches in 12,
for where roofs are measured in inches ``6 deg`` is more often a slip for 6/12; and pitches of tenths of an inch, such
as 0.6/12.

**Fix** Write 6/12 for 6 in of rise on 12. Where the roof is as flat as this, accept the finding with the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import Slope, message
from ...scene.draft import Change
from ...units import is_whole
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key
from .steep_pitch import pitches

RULE = "flat-pitch"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("A roof laid out much flatter than it is built has every rake and every panel too short.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pitch that may be inches in 12."""
    if facts.layout.scene.unit not in ("in", "ft"):
        return
    least, most = facts.layout.limits.band(RULE)
    for key, pitch in pitches(facts):
        rise = 12 * math.tan(pitch)
        if is_whole(4 * rise):
            continue
        numbers = (10 * rise, math.degrees(pitch), 100 * math.tan(pitch))
        meant = [round(one) for one in numbers if is_whole(one) and least <= round(one) <= most]
        if meant:
            yield at_key(
                facts,
                RULE,
                SEVERITY,
                key,
                message("it comes to {pitch}, which is nearly flat", pitch=Slope(pitch)),
                message(
                    "Write {meant}/12 if that is meant; if not, accept it with the reason.", meant=meant[0]
                ),
                measured=float(meant[0]),
                proposals=((Change(key, f"{meant[0]}/12"),),),
            )
