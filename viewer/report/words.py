"""Sentences and short texts that the command line and the lists share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.units import Tape

CAUTIONS = (
    "Cautions: protect against falls, above all at the eaves and at the peak; keep ladders footed, tied and well "
    "clear of power lines; cut edges are sharp: wear gloves and eye protection. Wind and structural figures are "
    "advice: the local code, the metal's maker and licensed practice decide."
)
"""Goes on everything that is carried to the roof."""


def sentence_of(finding: Finding) -> str:
    """Return a finding in sentences: what, what to do, which limit, and why it is accepted."""
    remedy = finding.remedy.rstrip(".")
    source = finding.limit.source.partition(": ")[0]
    limit = f"{_number(finding.limit.value)} {finding.limit.unit}, {source}"
    words = f"{finding.message.rstrip('.')}. {remedy}. (Limit: {limit}.)"
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


def _number(value: float | tuple[float, float]) -> str:
    ends = value if isinstance(value, tuple) else (value,)
    return " to ".join(f"{end:g}" for end in ends)
