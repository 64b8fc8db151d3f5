"""A pitch in whole degrees or percent is so low that inches in 12 may be meant.

**Finds** pitches of 3 to 12 whole degrees or percent in a scene of feet and inches that are no whole number of inches
in 12: where roofs are measured in inches, ``6 deg`` is more often a slip for 6/12.

**Fix** Write 6/12 for 6 in of rise on 12. Where degrees are meant, accept the finding with the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..message import Slope, message
from .facts import Facts
from .record import Finding, Severity
from .scene_place import at_key
from .steep_pitch import pitches

RULE = "pitch-in-degrees"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("A roof laid out a third as steep as it is built has every rake and every panel too short.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pitch that may be inches in 12."""
    scene = facts.layout.scene
    least, most = facts.layout.limits.band(RULE)
    if scene.unit not in ("in", "ft"):
        return
    for key, pitch in pitches(facts):
        rise = 12 * math.tan(pitch)
        for number in (math.degrees(pitch), 100 * math.tan(pitch)):
            whole = abs(number - round(number)) < 1e-6 and abs(rise - round(rise)) > 1e-6
            if whole and least - 1e-6 <= number <= most + 1e-6:
                yield at_key(
                    facts,
                    RULE,
                    SEVERITY,
                    key,
                    message("it comes to {pitch}, which is nearly flat", pitch=Slope(pitch)),
                    message(
                        "Write {meant}/12 if inches in 12 are meant; if not, accept it with the reason.",
                        meant=round(number),
                    ),
                    measured=number,
                )
                break
