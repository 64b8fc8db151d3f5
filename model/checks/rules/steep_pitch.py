"""A pitch is steeper than roofs are built.

**Finds** a pitch above the limit, and one that is no whole number of inches in 12 but would be if it were turned round:
12/10 for 10/12.

**Fix** Write the rise first and the run last: 6/12 rises 6 in on 12. Where the pitch is right, accept the finding with
the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...errors import Key
from ...message import Message, Slope, message
from ...scene.draft import Change
from ...units import is_whole
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key

RULE = "steep-pitch"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("A rise and a run that were exchanged, or degrees for inches, make every length of it wrong.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pitch that is hardly meant."""
    most = facts.layout.limits.number(RULE)
    for key, pitch in pitches(facts):
        rise, turned = 12 * math.tan(pitch), 12 / math.tan(pitch)
        upside_down = rise > 12 and is_whole(turned) and not _is_written(pitch)
        if rise <= most + 1e-6 and not upside_down:
            continue
        yield at_key(
            facts,
            RULE,
            SEVERITY,
            key,
            message("{pitch} is steeper than roofs are built", pitch=Slope(pitch)),
            _remedy(turned),
            measured=rise,
            proposals=((Change(key, f"{round(turned)}/12"),),) if is_whole(turned) else (),
        )


def pitches(facts: Facts) -> Iterator[tuple[Key, float]]:
    """Yield every pitch that the scene gives: its key, and its angle from level, radians."""
    roof = facts.layout.scene.roof
    for name in ("pitch", "far_pitch", "end_pitch"):
        pitch = getattr(roof, name, None)
        if pitch is not None:
            yield ("roof", name), pitch
    for number, side in getattr(roof, "sides", {}).items():
        if side.pitch is not None:
            yield ("roof", "sides", str(number), "pitch"), side.pitch


def _remedy(turned: float) -> Message:
    """Return what may have been meant."""
    if is_whole(turned):
        return message(
            "Write {meant}/12 if that is meant; if it is as steep as this, accept it with the reason.",
            meant=round(turned),
        )
    return message("Measure again; if it is as steep as this, accept it with the reason.")


def _is_written(pitch: float) -> bool:
    """Return whether a pitch is one that people write: halves of an inch in 12, or whole degrees."""
    return is_whole(24 * math.tan(pitch)) or is_whole(math.degrees(pitch))
