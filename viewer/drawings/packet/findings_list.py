"""Findings on paper: each with what was measured, the limit and where it comes from, and what was accepted and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Value

from ...report.words import SEVERITY, TRUST, amount, limit_words, totals
from ...words.speaker import Speaker
from ..ink.drawing import Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, FAINT, INK, LINE, SMALL, SOFT
from ..paper.flow import Block, TableColumn, flow, heading, paragraph, space, table
from ..paper.page import Imprint, Paper, body_of, paged
from ..paper.pins import FindingPin, draw_pin, pin_width, pins_of


def findings_list(
    layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint
) -> list[Drawing]:
    """Return the findings, the limits that the scene sets itself, and the rules that it does not ask."""
    box, say = body_of(paper, imprint), imprint.say
    pages = flow(_blocks(layout, findings, box.width, say), box)
    return paged(say("Findings"), pages, paper, imprint, (say(totals(findings)),))


def _blocks(layout: Layout, findings: Sequence[Finding], width: float, say: Speaker) -> Iterator[Block]:
    rules = layout.scene.rules
    yield paragraph(
        say(
            "Rules in force: {rules}. The numbers are those of the pins. Trust: {trust}.",
            rules=layout.limits.name,
            trust="; ".join(say("{word}: {meaning}", word=word, meaning=TRUST[word]) for word in TRUST),
        ),
        width,
        SMALL,
        color=SOFT,
    )
    yield space(0.08)
    if not findings:
        yield paragraph(say("Nothing was found."), width, BODY)
    for pin in pins_of(findings):
        yield _card(pin, width, say)
    yield from _own_limits(layout, width, say)
    if rules.off:
        yield heading(say("Rules that this scene does not ask"))
        yield from table(
            (TableColumn(say("Rule"), 1), TableColumn(say("Reason"), 3)), list(rules.off.items()), width
        )


def _own_limits(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the limits that the scene sets itself."""
    own = [limit for limit in layout.limits.by_rule.values() if limit.reason is not None]
    if not own:
        return
    yield heading(say("Limits that this scene sets itself"))
    columns = (
        TableColumn(say("Limit"), 1.4),
        TableColumn(say("Value"), 0.8),
        TableColumn(say("Reason"), 2.5),
        TableColumn(say("Source"), 2.3),
    )
    rows = [
        (limit.rule, say(limit_words(limit, say.tape)), limit.reason or "", say(limit.source.whole))
        for limit in own
    ]
    yield from table(columns, rows, width)


def _card(pin: FindingPin, width: float, say: Speaker) -> Block:
    """Return one finding."""
    finding, number = pin.finding, str(pin.number)
    x = max(0.4, pin_width(number) + 0.12)
    rule = width_of(finding.rule, BODY, bold=True)
    state = say("accepted") if finding.accepted else say(SEVERITY[finding.severity])
    items: list[Item] = [
        *draw_pin(number, (pin_width(number) / 2, -0.15), finding.severity),
        Words(finding.rule, (x, -0.19), BODY, bold=True, color=INK, name="rule"),
        Words(state, (width, -0.19), BODY, "end", bold=True, color=INK, name="severity"),
        Words(finding.where, (x + rule + 0.15, -0.19), BODY, color=SOFT, name="where"),
    ]
    y = -0.24
    for words, size, color in _told(finding, say):
        texts = wrapped(words, size, width - x)
        items += lines(texts, (x, y), size, color=color)
        y -= size * LINE * len(texts) + 0.02
    y -= 0.08
    items.append(Stroke(((0.0, y), (width, y)), 0.005, FAINT, name="rule"))
    return Block(-y, tuple(items))


def _told(finding: Finding, say: Speaker) -> list[tuple[str, float, str]]:
    """Return what a finding says, what to do, where its limit comes from, and why it is accepted."""
    told = [
        (say(finding.message), BODY, INK),
        (say("What to do: {remedy}", remedy=finding.remedy), BODY, INK),
        (_limit(finding, say), SMALL, SOFT),
    ]
    if finding.accepted:
        told.append((say("Accepted: {reason}", reason=finding.accepted), BODY, INK))
    return told


def _limit(finding: Finding, say: Speaker) -> str:
    """Return what was measured, the limit, and where it comes from."""
    limit = finding.limit
    values: dict[str, Value] = {
        "limit": limit_words(limit, say.tape),
        "source": limit.source.whole,
        "trust": limit.source.trust,
    }
    if limit.reason:
        values["reason"] = limit.reason.rstrip(".")
    if finding.measured is not None:
        values["measured"] = amount(finding.measured, limit.unit, say.tape)
    match finding.measured is None, bool(limit.reason):
        case True, False:
            return say("Limit {limit}. Source: {source}. Trust: {trust}.", **values)
        case True, True:
            return say(
                "Limit {limit}, set by the scene: {reason}. Source: {source}. Trust: {trust}.", **values
            )
        case False, False:
            return say("Measured {measured}; limit {limit}. Source: {source}. Trust: {trust}.", **values)
        case _:
            return say(
                "Measured {measured}; limit {limit}, set by the scene: {reason}. Source: {source}. Trust: {trust}.",
                **values,
            )
