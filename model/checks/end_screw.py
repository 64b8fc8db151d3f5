"""The last screw before an end of a piece is out of its band.

**Finds** an end of a piece whose nearest screw, in any row, is nearer to the end than the band, or farther
from where the metal ends in its row. An eighth of an inch is let pass, and the first screw of a run that
climbs has its own rule.

**Matters because** nearer, the screw tears the metal or lands in the lap; farther, the end lifts.

**Fix** Move the screw into the band, or add one; a piece too short for the band at both ends has to be longer.

**Source** Common practice, no source: within 6 to 8 in of the end.
"""

from __future__ import annotations

from collections.abc import Iterator

from .facts import HAND, Facts, Row, is_sloping
from .record import Finding, Severity

RULE = "end-screw"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each end of a piece whose screw is out of the band; the worst row speaks for it."""
    least, most = facts.layout.limits.band(RULE)
    show = facts.show
    for name, spans in facts.spans.items():
        for span in spans:
            rows = facts.rows[span.mark]
            if not rows:
                continue
            first = span is spans[0] and is_sloping(facts.runs[name])
            for end, near, far in (
                ("low", *_low_end(rows)),
                ("high", *_high_end(rows, span.length)),
            ):
                if near < least - HAND:
                    distance, wrong = near, f"nearer than {show(least)}"
                elif far > most + HAND and not (first and end == "low"):
                    distance, wrong = far, f"more than {show(most)}"
                else:
                    continue
                remedy = f"Put it {show(least)} to {show(most)} from the {end} end."
                if span.length < 2 * least:
                    remedy = (
                        f"The piece is too short for that: make it {show(2 * least)} long or longer, and lay its "
                        "screws again."
                    )
                yield facts.found(
                    RULE, SEVERITY, facts.runs[name], (span,),
                    span.low + distance if end == "low" else span.high - distance,
                    f"the screw at the {end} end is {show(distance)} from it, {wrong}",
                    remedy,
                    measured=distance,
                )  # fmt: skip


def _low_end(rows: tuple[Row, ...]) -> tuple[float, float]:
    """Return the least distance of a first screw from the tip, and the most from its own row's metal."""
    return min(float(row.at[0]) for row in rows), max(float(row.at[0]) - row.metal[0] for row in rows)


def _high_end(rows: tuple[Row, ...], length: float) -> tuple[float, float]:
    """Return the same for the last screws and the high end."""
    return (
        min(length - float(row.at[-1]) for row in rows),
        max(row.metal[1] - float(row.at[-1]) for row in rows),
    )
