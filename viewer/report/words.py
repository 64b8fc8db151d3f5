"""Sentences and short texts that the command line and the lists share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.limits.record import Limit, Trust
from trimwright.model.units import Tape

CAUTIONS = (
    "Cautions: protect against falls, above all at the eaves and at the peak; keep ladders footed, tied and well "
    "clear of power lines; cut edges are sharp: wear gloves and eye protection. Wind and structural figures are "
    "advice: the local code, the metal's maker and licensed practice decide."
)
"""Goes on everything that is carried to the roof."""

TRUST: dict[Trust, str] = {
    "pub": "read in the published source",
    "pub2": "read in another page's copy of the source",
    "practice": "common practice of the trade, no published source",
    "memory": "from memory",
}
"""What the words of trust mean."""


def amount(value: float, unit: str, show: Tape) -> str:
    """Return a number with its unit: lengths as the scene writes them, those too small for its tape as decimals."""
    if unit == "in":
        on_tape = abs(value * show.denominator - round(value * show.denominator)) < 1e-6
        return show(value) if abs(value) >= 1 or on_tape else show.fine(value)
    if unit in ("", "1"):
        return f"{value:.4g}"
    return f"{value:.4g} {unit[:-1] if value == 1 and unit.endswith('s') and ' ' not in unit else unit}"


def limit_words(limit: Limit, show: Tape) -> str:
    """Return a limit's value, or both ends of its band, with its unit; of what must not be at all, that."""
    if limit.value == 0 and limit.unit != "in":
        return "none allowed"
    ends = limit.value if isinstance(limit.value, tuple) else (limit.value,)
    return " to ".join(amount(end, limit.unit, show) for end in ends)


def sentence_of(finding: Finding, show: Tape) -> str:
    """Return a finding in sentences: what, what to do, which limit, and why it is accepted."""
    remedy = finding.remedy.rstrip(".")
    source = finding.limit.source.partition(": ")[0]
    limit = limit_words(finding.limit, show)
    words = f"{finding.message.rstrip('.')}. {remedy}. (Limit: {limit}, {source}.)"
    return f"{words} Accepted: {finding.accepted.rstrip('.')}." if finding.accepted else words


def counted(findings: Iterable[Finding]) -> str:
    """Return how many findings there are of each severity: ``2 errors, 1 warning``."""
    severities = [finding.severity for finding in findings]
    words = [
        f"{number} {name}{'s' if number > 1 else ''}"
        for name in ("error", "warning", "note")
        if (number := severities.count(name))
    ]
    return ", ".join(words) or "no findings"


def lengths_of(lengths: Sequence[float], show: Tape) -> str:
    """Return lengths in their order, those that follow each other and read the same counted together."""
    groups: list[tuple[int, str]] = []
    for text in map(show, lengths):
        if groups and groups[-1][1] == text:
            groups[-1] = (groups[-1][0] + 1, text)
        else:
            groups.append((1, text))
    return " + ".join(f"{count} x {text}" if count > 1 else text for count, text in groups)


def marks_of(at: Iterable[float], show: Tape) -> str:
    """Return tape marks in rising order; two rows that share a mark show it once."""
    return ", ".join(dict.fromkeys(show(mark) for mark in sorted(at)))
