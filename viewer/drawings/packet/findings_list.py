"""Findings on paper: each with what was measured, the limit and where it comes from, and what was accepted and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Message, Value, message
from trimwright.model.units import Tape

from ...report.words import TRUST, amount, limit_words, totals
from ...words.speaker import Speaker, speaker_of
from ..ink.drawing import Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, FAINT, INK, LINE, SMALL, SOFT
from ..paper.flow import Block, Column, flow, heading, paragraph, space, table
from ..paper.page import Imprint, Paper, body_of, framed
from ..paper.pins import Pin, draw_pin, pin_width, pins_of


def findings_list(
    layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint
) -> list[Drawing]:
    """Return the findings, the limits that the scene sets itself, and the rules that it does not ask."""
    box = body_of(paper)
    pages = flow(_blocks(layout, findings, box.width), box)
    return [
        framed(
            "Findings" if number == 1 else "Findings, continued", items, paper, imprint, str(totals(findings))
        )
        for number, items in enumerate(pages, 1)
    ]


def _blocks(layout: Layout, findings: Sequence[Finding], width: float) -> Iterator[Block]:
    show, rules, say = layout.scene.tape, layout.scene.rules, speaker_of(layout.scene)
    words = "; ".join(f"{word}: {meaning}" for word, meaning in TRUST.items())
    yield paragraph(
        f"Rules in force: {layout.limits.name}. The numbers are those of the pins. Trust: {words}.",
        width, SMALL, color=SOFT,
    )  # fmt: skip
    yield space(0.08)
    if not findings:
        yield paragraph("Nothing was found.", width, BODY)
    for pin in pins_of(findings):
        yield _card(pin, say, width)
    own = [limit for limit in layout.limits.by_rule.values() if limit.reason is not None]
    if own:
        yield heading("Limits that this scene sets itself")
        columns = (Column("Limit", 1.4), Column("Value", 0.8), Column("Reason", 2.5), Column("Source", 2.3))
        rows = [
            (limit.rule, say(limit_words(limit, show)), limit.reason or "", say(limit.source.whole))
            for limit in own
        ]
        yield from table(columns, rows, width)
    if rules.off:
        yield heading("Rules that this scene does not ask")
        yield from table((Column("Rule", 1), Column("Reason", 3)), list(rules.off.items()), width)


def _card(pin: Pin, say: Speaker, width: float) -> Block:
    """Return one finding."""
    finding, text = pin.finding, str(pin.number)
    x = max(0.4, pin_width(text) + 0.12)
    items: list[Item] = [*draw_pin(text, (pin_width(text) / 2, -0.15), finding.severity)]
    state = "accepted" if finding.accepted else finding.severity
    items += [
        Words(finding.rule, (x, -0.19), BODY, bold=True, color=INK, name="rule"),
        Words(state, (width, -0.19), BODY, "end", bold=True, color=INK, name="severity"),
        Words(
            finding.where,
            (x + width_of(finding.rule, BODY, bold=True) + 0.15, -0.19),
            BODY,
            color=SOFT,
            name="where",
        ),
    ]
    y = -0.24
    parts = [
        (say(finding.message), BODY, INK),
        (say("What to do: {remedy}", remedy=finding.remedy), BODY, INK),
        (say(_measured(finding, say.tape)), SMALL, SOFT),
        (say("Accepted: {reason}", reason=finding.accepted) if finding.accepted else "", BODY, INK),
    ]
    for words, size, color in parts:
        texts = wrapped(words, size, width - x) if words else ()
        items += lines(texts, (x, y), size, color=color)
        y -= size * LINE * len(texts) + (0.02 if texts else 0.0)
    y -= 0.08
    items.append(Stroke(((0.0, y), (width, y)), 0.005, FAINT, name="rule"))
    return Block(-y, tuple(items))


def _measured(finding: Finding, show: Tape) -> Message:
    """Return what was measured, the limit, and where it comes from."""
    limit = finding.limit
    values: dict[str, Value] = {
        "limit": limit_words(limit, show),
        "source": limit.source.whole,
        "trust": limit.source.trust,
    }
    if limit.reason:
        values["reason"] = limit.reason.rstrip(".")
    if finding.measured is not None:
        values["measured"] = amount(finding.measured, limit.unit, show)
    match finding.measured is not None, bool(limit.reason):
        case True, True:
            return message(
                "Measured {measured}; limit {limit}, set by the scene: {reason}. Source: {source}. Trust: {trust}.",
                **values,
            )
        case True, False:
            return message("Measured {measured}; limit {limit}. Source: {source}. Trust: {trust}.", **values)
        case False, True:
            return message(
                "Limit {limit}, set by the scene: {reason}. Source: {source}. Trust: {trust}.", **values
            )
    return message("Limit {limit}. Source: {source}. Trust: {trust}.", **values)
