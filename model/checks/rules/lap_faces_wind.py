"""A lap of a level run opens toward the wind.

**Finds** a lap of a level run where the piece on the lee side lies over the one on the windward side, when
the prevailing wind blows more along the run than across it.

**Fix** Lay the run from the lee end, so that each piece covers the one on its lee side.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import message
from ..facts import Facts, height_over, is_sloping
from ..proposals import unsaid
from ..record import Finding, Severity

RULE = "lap-faces-wind"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("The wind lifts the open edge and drives rain under it.")

FACES = {
    "left": message("the lap opens toward the wind from the left"),
    "right": message("the lap opens toward the wind from the right"),
    "front": message("the lap opens toward the wind from the front"),
    "back": message("the lap opens toward the wind from the back"),
}
FROM = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "front": (0.0, -1.0), "back": (0.0, 1.0)}


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap that opens toward the wind."""
    wind = facts.layout.scene.wind
    for name in facts.spans:
        run = facts.runs[name]
        toward = float(run.edge.direction[:2] @ FROM[wind])
        if is_sloping(run) or abs(toward) < math.sqrt(0.5):
            continue
        for first, second in facts.laps(name):
            if second.low >= first.high:
                continue
            over, under = (second, first) if height_over(first, second) > 0 else (first, second)
            if (over is second) != (toward > 0):
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (over, under),
                    (second.low + first.high) / 2,
                    FACES[wind],
                    message("Put {over} over {under}.", over=under.mark, under=over.mark),
                    measured=1.0,
                    place=message("{over} over {under}", over=over.mark, under=under.mark),
                    proposals=unsaid(run, facts.layout.scene, "lies", second.part.piece.number),
                )
