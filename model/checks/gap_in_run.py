"""Part of an edge has no metal on it.

**Finds** a gap between two pieces of a run, and an end of an edge that its pieces do not reach.

**Matters because** water and wind get at the deck.

**Fix** Lengthen a hand-placed piece, or let the lengths be worked out.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..message import Length, message
from .facts import Facts
from .record import Finding, Severity

RULE = "gap-in-run"
LIMITS = (RULE,)
SEVERITY: Severity = "error"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each stretch of a run without metal."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not spans:
            continue
        stretches = [(0.0, spans[0].low, spans[:1]), (spans[-1].high, run.length, spans[-1:])]
        stretches += [(a.high, b.low, (a, b)) for a, b in facts.laps(name)]
        for start, end, beside in stretches:
            if end - start > most:
                yield facts.found(
                    RULE, SEVERITY, run, beside, (start + end) / 2,
                    message("{gap} of the edge has no metal on it", gap=Length(end - start)),
                    message("Lengthen {mark} by {gap} and the lap.", mark=beside[0].mark, gap=Length(end - start)),
                    measured=end - start,
                )  # fmt: skip
