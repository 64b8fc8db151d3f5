"""Findings on paper: each with what was measured, the limit and where it comes from, and what was accepted and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from trimwright.model.checks.groups import marks_of
from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import why
from trimwright.model.layout import Layout
from trimwright.model.message import Listed, Value

from ...report.changes import remedy_told
from ...report.terms import told_first
from ...report.words import SEVERITY, TRUST, amount, limit_told, limit_words
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, FAINT, INK, LINE, SMALL, SOFT
from ..paper.flow import Block, paragraph, space
from ..paper.pins import FindingPin, draw_pin, numbers, pin_width, pins_of

INDENT = 0.3
"""How far what follows from another finding is set in, inches."""


def findings_list(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Iterator[Block]:
    """Yield the findings, headed by the terms by which they were found; of a roof without any, the terms alone."""
    for term in told_first(layout, findings, say.tape):
        yield paragraph(say(term), width, SMALL)
    if not findings:
        yield paragraph(say("Nothing was found."), width, BODY)
        return
    yield paragraph(
        say(
            "The numbers are those of the pins. Trust: {trust}.",
            trust="; ".join(say("{word}: {meaning}", word=word, meaning=TRUST[word]) for word in TRUST),
        ),
        width,
        SMALL,
        color=SOFT,
    )
    yield space(0.08)
    for _, alike in groupby(pins_of(findings), key=lambda pin: pin.finding.group):
        yield _card(tuple(alike), width, say)


def _card(pins: Sequence[FindingPin], width: float, say: Speaker) -> Block:
    """Return one group of findings, further in when it follows from another."""
    finding, number = pins[0].finding, numbers(pins)
    left = 0.0 if finding.cause is None else INDENT
    x = left + max(0.4, pin_width(number) + 0.12)
    rule = width_of(finding.rule, BODY, bold=True)
    state = say("accepted") if finding.accepted else say(SEVERITY[finding.severity])
    items: list[Item] = [
        *draw_pin(number, (left + pin_width(number) / 2, -0.15), finding.severity),
        Words(finding.rule, (x, -0.19), BODY, bold=True, color=INK, name="rule"),
        Words(state, (width, -0.19), BODY, "end", bold=True, color=INK, name="severity"),
        Words(finding.where, (x + rule + 0.15, -0.19), BODY, color=SOFT, name="where"),
    ]
    y = -0.24
    for words, size, color in _told([pin.finding for pin in pins], say):
        texts = wrapped(words, size, width - x)
        items += lines(texts, (x, y), size, color=color)
        y -= size * LINE * len(texts) + 0.02
    y -= 0.08
    items.append(Stroke(((0.0, y), (width, y)), 0.005, FAINT, name="rule"))
    return Block(-y, tuple(items))


def _told(group: Sequence[Finding], say: Speaker) -> list[tuple[str, float, str]]:
    """Return what a finding says, why it matters, what to do, where its limit comes from, and why it is accepted."""
    finding = group[0]
    told = [
        (say(finding.message), BODY, INK),
        (say(why(finding)), BODY, INK),
        (say("What to do: {remedy}", remedy=remedy_told(finding)), BODY, INK),
        (_limit(finding, say), SMALL, SOFT),
    ]
    if len(group) > 1:
        alike = say(
            "{count} alike: {marks}. The first:", count=len(group), marks=Listed(marks_of(group), "comma")
        )
        told.insert(0, (alike, BODY, INK))
    if finding.accepted:
        told.append((say("Accepted: {reason}", reason=finding.accepted), BODY, INK))
    return told


def _limit(finding: Finding, say: Speaker) -> str:
    """Return what was measured, the limit, and where it comes from."""
    limit = finding.limit
    published = limit.instead_of or limit
    values: dict[str, Value] = {
        "limit": limit_told(limit, say.tape) if limit.instead_of else limit_words(limit, say.tape),
        "source": published.source.whole,
        "trust": published.source.trust,
    }
    if finding.measured is None:
        return say("Limit {limit}. Source: {source}. Trust: {trust}.", **values)
    measured = amount(finding.measured, limit.unit, say.tape)
    return say(
        "Measured {measured}; limit {limit}. Source: {source}. Trust: {trust}.", measured=measured, **values
    )
