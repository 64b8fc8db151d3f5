"""Metal runs on too far past its row of screws.

**Finds** a fastening leg whose nearest row of screws is farther from the leg's own edge than the limit.

**Fix** Set the row of screws nearer to the edge, or add a row.

**Source** UFGS 07612N 3.3.2 for high wind: at most 1 in past a fastener; common practice, no source, for
the rest. Structural figures are advice: local codes, the metal's maker and licensed practice decide.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...profiles.leg_words import leg_words
from ...tolerances import TAPE
from ..facts import Facts, fastening_legs
from ..record import Finding, Severity

RULE = "loose-edge"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Wind gets under the loose edge and peels the trim off its screws.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run with a loose edge; the loosest piece speaks for it."""
    most = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        lines = run.section.v
        for leg in fastening_legs(run.section):
            first, last = lines[leg.strip : leg.strip + 2]
            loose = {
                span: min(min(row.across - first, last - row.across) for row in rows)
                for span in spans
                if (rows := [row for row in facts.rows[span.mark] if row.leg == leg])
            }
            over = [span for span, width in loose.items() if width > most + TAPE]
            if not over:
                continue
            worst = max(over, key=lambda span: loose[span])
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                tuple(over),
                (worst.low + worst.high) / 2,
                message(
                    "the {leg} runs on {loose} past its screws, more than {most}",
                    leg=leg_words(leg.name),
                    loose=Length(loose[worst]),
                    most=Length(most),
                ),
                message("Set the row of screws {most} or less from the edge.", most=Length(most)),
                measured=loose[worst],
                place=worst.mark,
            )
