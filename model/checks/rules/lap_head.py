"""An unsealed lap holds back too little water.

**Finds** an unsealed lap whose high end is less above its low end than the limit: the head of water that it
keeps out.

**Fix** Set the lap in sealant, or lap farther.

**Source** The project's own, from published figures: a 3 in lap (CDA handbook 9.7) at 3:12, the least slope
of unsealed laps (IBC 1507.4.2). Prefinished metal is sealed, not soldered (SMACNA).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import Fine, Length, message
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "lap-head"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Wind pushes water up a flat lap; a level lap without sealant has no head at all.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each unsealed lap that holds back less than the limit."""
    least, up = facts.layout.limits.number(RULE), facts.layout.scene.tape.up
    for name in facts.spans:
        run = facts.runs[name]
        if run.spec.sealed:
            continue
        rise = math.sin(run.edge.slope)
        for lower, upper in facts.laps(name):
            lap = lower.high - upper.low
            head = lap * rise
            if lap >= 0 and head < least - 1e-4:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (lower, upper),
                    (upper.low + lower.high) / 2,
                    message(
                        "the unsealed lap holds back {head} of water, less than {least}",
                        head=Fine(head),
                        least=Fine(least),
                    ),
                    message(
                        "Set the lap in sealant, or lap {longer}.",
                        longer=Length(up(least / rise)),
                    )
                    if rise * run.length > least
                    else message("Set the lap in sealant."),
                    measured=head,
                    proposals=for_run(run, facts.layout.scene, "sealed", True),
                )
