"""What to tick before any trim goes on, and the cautions: the page that is read first on site."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trimwright.model.layout import Layout
from trimwright.model.message import Fine, Listed, Message, message
from trimwright.model.metals import METAL_WORDS

from ...display.order import runs_in_order
from ...words.speaker import Speaker
from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, INK, LARGE, LINE, WASH
from ..paper.flow import Block, TableColumn, flow, heading, kept, space, table
from ..paper.page import Imprint, Paper, body_of, paged


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt people, and what is done about it.

    Attributes:
        name: What it is.
        says: What is done about it.
    """

    name: Message
    says: Message


CAUTIONS = (
    Caution(
        message("Falls"),
        message(
            "From 6 ft up everybody is protected from falling (OSHA 29 CFR 1926.501); an anchor holds 5,000 lb for "
            "each person tied to it (1926.502). Above all at the peak and at the eaves."
        ),
    ),
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

SIGNED = 8 / 72
"""Size of the words under a line to sign on, inches."""


def site_checklist(layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the list to tick before trim goes on, with a line to write each edge's measured length."""
    box, say = body_of(paper, imprint), imprint.say
    pages = flow(_blocks(layout, box.width, say), box)
    return paged(say("Before trim goes on"), pages, paper, imprint, (say("Tick, date and sign"),))


def _blocks(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    yield _cautions(width, say)
    yield space(0.06)
    for title, points in _lists(layout, say):
        yield heading(title, BODY * 1.1)
        for point in points:
            yield _tick(point, width)
    yield _signature(width, say)
    yield space(0.1)
    yield from kept(
        [heading(say("Each edge, measured on the roof"), BODY * 1.1), *_edges(layout, width, say)]
    )


def _edges(layout: Layout, width: float, say: Speaker) -> list[Block]:
    """Return a table of the edges with room to write what was measured."""
    columns = (
        TableColumn(say("Edge"), 2.2, bold=True),
        TableColumn(say("Run"), 0.5),
        TableColumn(say("Drawn"), 1, right=True),
        TableColumn("", 0.24),
        TableColumn(say("Measured"), 1.36),
        TableColumn(say("Straight and sound"), 1.6),
    )
    codes = {run.name: run.code for run in layout.runs}
    rows = [
        (edge.name, codes.get(edge.name) or say("bare"), say.tape(edge.length), "", "", "")
        for edge in layout.roof.edges
    ]
    return table(columns, rows, width)


def _lists(layout: Layout, say: Speaker) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what is looked at before trim goes on, by what it is about."""
    yield (
        say("Edges of the deck"),
        (
            say(
                "Nothing stands proud where trim will sit: nails, screws and staples are driven home or drawn."
            ),
            say(
                "Every edge is straight and sound: a string along it shows no bow or dip, and soft deck is replaced."
            ),
            say(
                "Where a measured length differs from the drawn one, nothing is cut for that edge until it is settled."
            ),
        ),
    )
    yield (
        say("Underlayment"),
        (
            say(
                "It is on, whole and dry. Common practice, no source: at the eaves it ends on top of the trim, at the "
                "rakes it ends under it. Its maker and the local code decide."
            ),
        ),
    )
    yield say("Metal and tools"), _tools(layout, say)
    yield say("Order of setting"), tuple(_order(layout, say))


def _tools(layout: Layout, say: Speaker) -> tuple[str, ...]:
    scene = layout.scene
    return (
        say(
            "Trim and panels agree with the shopping list: {metal} {thickness}, color, profiles, lengths.",
            metal=METAL_WORDS[scene.metal.kind],
            thickness=Fine(scene.metal.thickness),
        ),
        say(
            "Screws are of {kind}; sealant suits the metal and its paint.",
            kind=METAL_WORDS[scene.screws.kind],
        ),
        say(
            "At hand: tape, square, scriber, snips that cut left and right, folding pliers, driver and bits."
        ),
        say("The bar on the full-size templates measures true before one is used."),
    )


def _order(layout: Layout, say: Speaker) -> Iterator[str]:
    """Yield what is set one after another, a run or the panels of a face at a time."""
    yield say(
        "What lies under goes on first: the upslope piece over the downslope one, and level laps away from the wind."
    )
    for steps in runs_in_order(layout):
        titles = tuple(step.title for step in steps)
        if steps[0].kind == "panels":
            yield say(titles[0])
        else:
            yield say("{run}: {pieces}", run=steps[0].place, pieces=Listed(titles, "comma"))


def _tick(text: str, width: float) -> Block:
    texts = wrapped(text, BODY, width - 0.3)
    box = rectangle(0.02, -0.175, 0.16, -0.035)
    items: list[Item] = [
        Stroke(box, 0.012, INK, closed=True, name="tick"),
        *lines(texts, (0.3, -0.035), BODY),
    ]
    return Block(BODY * LINE * len(texts) + 0.045, tuple(items))


def _cautions(width: float, say: Speaker) -> Block:
    names = [say(caution.name) for caution in CAUTIONS]
    left = max(1.25, *(0.15 + width_of(name, BODY, bold=True) + 0.1 for name in names))
    items: list[Item] = []
    y = -0.38
    for name, caution in zip(names, CAUTIONS, strict=True):
        texts = wrapped(say(caution.says), BODY, width - left - 0.2)
        items.append(Words(name, (0.15, y - BODY * 0.95), BODY, bold=True, color=INK, name="caution"))
        items += lines(texts, (left, y), BODY)
        y -= BODY * LINE * len(texts) + 0.03
    ring = rectangle(0.0, y - 0.06, width, 0.0)
    title = Words(say("Cautions"), (0.15, -0.26), LARGE, bold=True, color=INK, name="cautions")
    box = Stroke(ring, 0.025, INK, closed=True, name="cautions")
    return Block(-y + 0.1, (Area((ring,), WASH, "cautions"), box, title, *items))


def _signature(width: float, say: Speaker) -> Block:
    third = (width - 0.6) / 3
    items: list[Item] = []
    deepest = 1
    for k, name in enumerate((say("Checked by"), say("Date"), say("Tie-off checked by"))):
        x = k * (third + 0.3)
        texts = wrapped(name, SIGNED, third)
        deepest = max(deepest, len(texts))
        items.append(Stroke(((x, -0.3), (x + third, -0.3)), 0.01, INK, name="line"))
        items += [
            Words(text, (x, -0.44 - SIGNED * LINE * row), SIGNED, color=INK, name="signature")
            for row, text in enumerate(texts)
        ]
    return Block(0.5 + SIGNED * LINE * (deepest - 1), tuple(items))
