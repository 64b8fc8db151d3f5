"""A vented closure stands on a slope so low that wind drives rain through it.

**Finds** a run with vented closures over a face that slopes less than the limit; exactly at the limit passes.

**Fix** Take closed ones there, and let the air out elsewhere.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import message
from ..facts import Facts, rising
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "vent-on-low-slope"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Rain and fine snow are blown up a low slope, and the holes let them in.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run with vented closures on too low a slope."""
    layout = facts.layout
    least = layout.limits.number(RULE)
    for vent in layout.vents:
        run = facts.runs[vent.at]
        faces = {closure.face for closure in layout.closures if closure.at == vent.at}
        rise = min(12 * math.tan(layout.roof.faces[face].slope) for face in faces)
        if rise < least - 1e-6:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                facts.spans[vent.at],
                run.length / 2,
                message(
                    "its vented closures stand on a slope of {slope}, less than {least}",
                    slope=rising(rise),
                    least=rising(least),
                ),
                message("Take closed closures here, and let the air out elsewhere."),
                measured=rise,
                place=message("the whole run"),
                proposals=for_run(run, layout.scene, "closure", "Z"),
            )
