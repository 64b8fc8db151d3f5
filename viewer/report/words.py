"""Sentences and short texts that the command line, the lists and the pages share."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence

from trimwright.model.checks.groups import marks_of as pieces_of
from trimwright.model.checks.record import Finding, Severity
from trimwright.model.checks.run import why
from trimwright.model.limits.record import Limit
from trimwright.model.message import Angle, Fine, Length, Listed, Message, counted, message
from trimwright.model.source import Trust
from trimwright.model.units import Tape

from .changes import remedy_told

CAUTIONS = message(
    "Cautions: protect against falls, above all at the eaves and at the peak; keep ladders footed, tied and well "
    "clear of power lines; cut edges are sharp: wear gloves and eye protection. Wind and structural figures are "
    "advice: the local code, the metal's maker and licensed practice decide."
)
"""Goes on everything that is carried to the roof."""

TRUST: dict[Trust, Message] = {
    "pub": message("read in the published source"),
    "pub2": message("read in another page's copy of the source"),
    "practice": message("common practice of the trade, no published source"),
    "memory": message("from memory"),
    "scene": message("set by the scene"),
}
"""What the words of trust mean."""

SEVERITY: dict[Severity, Message] = {
    "error": message("error"),
    "warning": message("warning"),
    "note": message("note"),
}
"""What a finding of each severity is called."""

UNDER = "  "
"""Stands before what follows from another finding, under its cause."""

_COUNTED = {
    "pieces": counted("{count} piece", "{count} pieces", count=0),
    "beads": counted("{count} bead", "{count} beads", count=0),
    "edges": counted("{count} edge", "{count} edges", count=0),
    "ends": counted("{count} end", "{count} ends", count=0),
    "laps": counted("{count} lap", "{count} laps", count=0),
    "metals": counted("{count} metal", "{count} metals", count=0),
    "screws": counted("{count} screw", "{count} screws", count=0),
}
"""How so many of what a limit counts are called, by its unit."""

_MEASURED = {
    "rows a side": Message("{number} rows a side"),
    "sheet thicknesses": Message("{number} sheet thicknesses"),
    "sheets": Message("{number} sheets"),
    "standard errors": Message("{number} standard errors"),
    "of 100": Message("{number} of 100"),
}
"""The same for what need not be whole."""


KILOGRAM = 0.45359237
"""What a pound is."""

METRIC = {"lb": ("kg", KILOGRAM), "lb/in³": ("kg/m³", 27679.9), "fl oz": ("ml", 29.5735)}
"""Units that are told in others beside millimeters, with what one of them is of those.

Source: the avoirdupois pound is 0.45359237 kg, the inch 25.4 mm, the US fluid ounce 1/128 of 231 cubic inches (NIST
Special Publication 811, appendix B; from memory).
"""


def amount(value: float, unit: str, show: Tape) -> Message:
    """Return a number with its unit: a length too small for the tape ``show`` as decimals."""
    if show.style == "mm" and unit == "in per ft":
        return message("{angle}°", angle=Angle(math.atan(value / 12), 1))
    if show.style == "mm" and unit in METRIC:
        unit, factor = METRIC[unit]
        value *= factor
    number = f"{value:.4g}"
    if unit == "in":
        on_tape = abs(value * show.denominator - round(value * show.denominator)) < 1e-6
        return message("{length}", length=Length(value) if abs(value) >= 1 or on_tape else Fine(value))
    if unit in ("", "1"):
        return message("{number}", number=number)
    if unit in _COUNTED and value == int(value):
        return _COUNTED[unit].filled(count=int(value))
    if unit in _MEASURED:
        return _MEASURED[unit].filled(number=number)
    return message("{number} {unit}", number=number, unit=unit)


def limit_words(limit: Limit, show: Tape) -> Message:
    """Return a limit's value, or both ends of its band, with its unit; of what must not be at all, that."""
    if limit.value == 0 and limit.unit != "in":
        return message("none allowed")
    if isinstance(limit.value, tuple):
        least, most = (amount(end, limit.unit, show) for end in limit.value)
        return message("{least} to {most}", least=least, most=most)
    return amount(limit.value, limit.unit, show)


def limit_told(limit: Limit, show: Tape) -> Message:
    """Return a limit and where it comes from: of one that the scene sets, what it departs from, and why."""
    if limit.instead_of is None:
        return message("{limit}, {source}", limit=limit_words(limit, show), source=limit.source.title)
    return message(
        "set by the scene: {limit} ({source}: {published}), reason: {reason}",
        limit=limit_words(limit, show),
        source=limit.instead_of.source.title,
        published=limit_words(limit.instead_of, show),
        reason=reason_of(limit),
    )


def reason_of(limit: Limit) -> str | Message:
    """Return why the scene overrides a limit."""
    return limit.reason.rstrip(".") if limit.reason else message("no reason given")


def sentence_of(finding: Finding, show: Tape) -> Message:
    """Return a finding in sentences: what, why it matters, what to do, which limit, and why it is accepted."""
    values = {
        "finding": finding.message,
        "why": why(finding),
        "remedy": remedy_told(finding),
        "limit": limit_told(finding.limit, show),
    }
    if not finding.accepted:
        return message("{finding} {why} {remedy} (Limit: {limit}.)", **values)
    return message(
        "{finding} {why} {remedy} (Limit: {limit}.) Accepted: {reason}.",
        **values,
        reason=finding.accepted.rstrip("."),
    )


def group_told(group: Sequence[Finding], show: Tape) -> Message:
    """Return a group of alike findings in sentences: how many, on which pieces, and the first of them whole."""
    first = sentence_of(group[0], show)
    if len(group) == 1:
        return first
    return message(
        "{count} alike: {marks}. The first: {finding}",
        count=len(group),
        marks=Listed(pieces_of(group), "comma"),
        finding=first,
    )


def totals(findings: Iterable[Finding]) -> Message:
    """Return how many findings there are of each severity: ``2 errors, 1 warning``."""
    count = Counter(finding.severity for finding in findings)
    if not count:
        return message("no findings")
    each: dict[Severity, Message] = {
        "error": counted("{count} error", "{count} errors", count=count["error"]),
        "warning": counted("{count} warning", "{count} warnings", count=count["warning"]),
        "note": counted("{count} note", "{count} notes", count=count["note"]),
    }
    there = tuple(words for severity, words in each.items() if count[severity])
    return message("{findings}", findings=Listed(there, "comma"))


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
