"""Two screws of a run are too far apart.

**Finds** two neighbouring screws of a row, on one piece or across a lap, farther apart than the limit. An
eighth of an inch is let pass; the widest gap of a row speaks for all of them.

**Matters because** the trim between them can flutter and lift.

**Fix** Put another screw between them. More screws than asked are always allowed.

**Source** Common practice, no source; sources disagree by purpose (3, 4, 6, 10, 12 and 20 in), so choose
the rule set that fits the site.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .facts import HAND, Facts, Row, Span
from .record import Finding, Severity

RULE = "screw-spacing"
LIMITS = (RULE,)
SEVERITY: Severity = "error"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each pair of screws that is too far apart."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        rows = {(row.leg.strip, number) for span in spans for number, row in _numbered(facts.rows[span.mark])}
        for strip, number in sorted(rows):
            yield from _along(facts, name, spans, strip, number, most)


def _along(
    facts: Facts, name: str, spans: tuple[Span, ...], strip: int, number: int, most: float
) -> Iterator[Finding]:
    """Yield the findings of one row of screws, followed through all pieces of a run."""
    places, owners = [], []
    for span in spans:
        for i, row in _numbered(facts.rows[span.mark]):
            if (row.leg.strip, i) == (strip, number):
                places.append(row.at + span.low)
                owners += [span] * len(row.at)
    at = np.concatenate(places)
    order = np.argsort(at, kind="stable")
    at = at[order]
    gaps = np.diff(at)
    wide = np.flatnonzero(gaps > most + HAND).tolist()
    if not wide:
        return
    worst = max(wide, key=lambda i: float(gaps[i]))
    gap = float(gaps[worst])
    pieces = dict.fromkeys(owners[order[i + k]] for i in wide for k in (0, 1))
    more = f", and so in {len(wide) - 1} more places" if len(wide) > 1 else ""
    yield facts.found(
        RULE, SEVERITY, facts.runs[name], tuple(pieces), float(at[worst] + gap / 2),
        f"two screws are {facts.show(gap)} apart, more than {facts.show(most)}{more}",
        f"Put {sum(int(np.ceil(gaps[i] / most - 1e-9)) - 1 for i in wide)} more in between.",
        measured=gap,
    )  # fmt: skip


def _numbered(rows: tuple[Row, ...]) -> list[tuple[int, Row]]:
    """Return each row with its number among the rows on its leg."""
    seen: dict[int, int] = {}
    numbered = []
    for row in rows:
        seen[row.leg.strip] = number = seen.get(row.leg.strip, -1) + 1
        numbered.append((number, row))
    return numbered
