"""The crew page: who sets what in which order, where the short pieces land, and the cautions: carried to the roof."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trimwright.model.layout import Layout
from trimwright.model.message import Length, Message, Round, message

from ...display.setting_steps import SettingStep, runs_in_order
from ...report.short import short_pieces
from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, INK, LARGE, LINE, SMALL, WASH
from ..paper.flow import Block, TableColumn, heading, kept, paragraph, space, table


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt people, and what is done about it.

    Attributes:
        name: What it is.
        says: What is done about it.
    """

    name: Message
    says: Message


FALLS = message(
    "From {height} up everybody is protected from falling (OSHA 29 CFR 1926.501); an anchor holds {load} for each "
    "person tied to it (1926.502). Above all at the peak and at the eaves.",
    height=Round(72, 1800),
    load="5,000 lb",
)

FALLS_METRIC = FALLS.filled(height=Round(72, 1800), load="22.2 kN")
"""The same where lengths are in millimeters, as the rule has it in brackets."""

CAUTIONS = (
    Caution(message("Falls"), FALLS),
    Caution(
        message("Ladders"),
        message("Footed, tied and on firm ground; three points of contact; no long metal carried up one."),
    ),
    Caution(
        message("Power lines"),
        message("Found before anything is lifted; long metal stays well clear, on the ground too."),
    ),
    Caution(
        message("Edges"),
        message(
            "Cut metal is sharp. Gloves, sleeves and eye protection; offcuts go into a bin, not over the edge."
        ),
    ),
    Caution(
        message("Wind and wet"),
        message("A length of trim is a sail, and painted metal is slippery with dew, frost or dust."),
    ),
    Caution(
        message("Limits"),
        message(
            "Figures for wind and structure are advice. The local code, the metal's maker and licensed practice decide."
        ),
    ),
)
"""On the page that is carried to the roof. Source: OSHA 29 CFR 1926.501, .502 (pub2)."""

LONG = Round(96, 2400)
"""Longer lengths are carried and set by two: common practice, no source."""


def crew_page(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the crew page, ``width`` inches wide."""
    yield _cautions(width, say)
    yield space(0.04)
    rule = say(
        "What lies under goes on first: the upslope piece over the downslope one, and level laps away from the wind. "
        "Two carry and set what is longer than {length}, and every panel: one at each end. Whoever is on the ground "
        "cuts, labels and hands up; whoever is on the roof sets and screws.",
        length=LONG,
    )
    yield paragraph(rule, width, BODY)
    yield from _order(layout, width, say)
    yield space(0.08)
    yield from _short(layout, width, say)


def _order(layout: Layout, width: float, say: Speaker) -> list[Block]:
    """Return what is set one after another: a run, or the panels of a face, a line."""
    columns = (
        TableColumn("", 0.25),
        TableColumn(say("Turn"), 0.35, right=True, bold=True),
        TableColumn(say("Edge or face"), 1.5),
        TableColumn(say("Pieces, in this order"), 2.6, bold=True),
        TableColumn(say("People"), 1.15),
        TableColumn(say("Over what is there"), 1.4),
        TableColumn(say("Screws"), 0.5, right=True),
    )
    groups = list(runs_in_order(layout))
    rows = [("", str(number), *_set(steps, layout, say)) for number, steps in enumerate(groups, 1)]
    head, *body = table(columns, rows, width, gap=0.035)
    return [head, *(_ticked(row) for row in body)]


def _ticked(row: Block) -> Block:
    """Return a row with a box to tick."""
    middle = -row.height / 2
    box = rectangle(0.03, middle - 0.06, 0.15, middle + 0.06)
    tick = Stroke(box, 0.012, INK, closed=True, name="tick")
    return Block(row.height, (*row.items, tick), row.head, row.keep)


def _set(steps: tuple[SettingStep, ...], layout: Layout, say: Speaker) -> tuple[str, ...]:
    """Return the cells of one line: where, which pieces, who, over what, and how many screws."""
    place = named(steps[0].place, say)
    if steps[0].kind == "panels":
        return (place, say(steps[0].says), "2", "", "")
    parts = [layout.part(mark) for step in steps for mark in step.names]
    own = {part.mark for part in parts}
    over = tuple(dict.fromkeys(mark for step in steps for mark in step.over if mark not in own))
    two = any(part.length > LONG.inches for part in parts)
    aloft = any(end.kind.aloft for part in parts for end in part.ends)
    who = "2" if two else "1"
    if aloft:
        who = say("{count}, tied off aloft", count=who)
    marks = (say("{mark} (short)", mark=part.mark) if part.piece.short else part.mark for part in parts)
    screws = sum(len(layout.screws_of(part.mark)) for part in parts)
    return place, ", ".join(marks), who, ", ".join(over), str(screws) if screws else ""


def _short(layout: Layout, width: float, say: Speaker) -> list[Block]:
    """Return where the short pieces land."""
    title = heading(say("Where the short pieces land"), BODY * 1.15)
    found = short_pieces(layout)
    if not found:
        return [title, paragraph(say("There are none: every run comes out in whole lengths."), width)]
    each = (
        message(
            "{mark}, {length}, {where} of {run}",
            mark=one.mark,
            length=Length(one.length),
            where=one.spot.at,
            run=named(one.run, say),
        )
        for one in found
    )
    texts = [say(line) for line in each]
    widest = max(width_of(text, SMALL) for text in texts)
    columns = 2 if widest < width / 2 - 0.1 else 1
    high = -(-len(texts) // columns)
    rows = []
    for k in range(high):
        beside = enumerate(texts[k::high])
        cells = [(wrapped(text, SMALL, width / columns), column * width / columns) for column, text in beside]
        items = [item for cell, x in cells for item in lines(cell, (x, 0.0), SMALL)]
        rows.append(Block(SMALL * LINE * max(len(cell) for cell, _ in cells), tuple(items)))
    return kept([title, *rows])


def _said(caution: Caution, say: Speaker) -> Message:
    """Return what is done about it, in the reader's units."""
    return FALLS_METRIC if caution.says is FALLS and say.tape.style == "mm" else caution.says


def _cautions(width: float, say: Speaker) -> Block:
    names = [say(caution.name) for caution in CAUTIONS]
    left = max(1.25, *(0.15 + width_of(name, BODY, bold=True) + 0.1 for name in names))
    items: list[Item] = []
    y = -0.38
    for name, caution in zip(names, CAUTIONS, strict=True):
        texts = wrapped(say(_said(caution, say)), BODY, width - left - 0.2)
        items.append(Words(name, (0.15, y - BODY * 0.95), BODY, bold=True, color=INK, name="caution"))
        items += lines(texts, (left, y), BODY)
        y -= BODY * LINE * len(texts) + 0.03
    ring = rectangle(0.0, y - 0.06, width, 0.0)
    title = Words(say("Cautions"), (0.15, -0.26), LARGE, bold=True, color=INK, name="cautions")
    box = Stroke(ring, 0.025, INK, closed=True, name="cautions")
    return Block(-y + 0.1, (Area((ring,), WASH, "cautions"), box, title, *items))
