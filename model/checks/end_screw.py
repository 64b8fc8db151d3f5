"""The last screw before an end of a piece is out of its band.

**Finds** an end of a piece whose nearest screw, in any row, is nearer to the end or farther from it than
the band.

**Matters because** nearer, the screw tears the metal or lands in the lap; farther, the end lifts.

**Fix** Move the screw into the band, or add one.

**Source** Common practice, no source: within 6 to 8 in of the end.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..tolerances import TAPE
from .facts import Facts
from .record import Finding, Severity

RULE = "end-screw"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each end of a piece without a screw in the band."""
    least, most = facts.layout.limits.band(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            for row in facts.rows[span.mark]:
                low, high = float(row.at[0]), span.length - float(row.at[-1])
                for end, distance, at in (("low", low, span.low + low), ("high", high, span.high - high)):
                    if least - TAPE <= distance <= most + TAPE:
                        continue
                    near, far = f"nearer than {facts.show(least)}", f"more than {facts.show(most)}"
                    wrong = near if distance < least else far
                    yield facts.found(
                        RULE, SEVERITY, facts.runs[name], (span,), at,
                        f"the screw at the {end} end is {facts.show(distance)} from it, {wrong}",
                        f"Put it {facts.show(least)} to {facts.show(most)} from the {end} end.",
                        measured=distance,
                    )  # fmt: skip
