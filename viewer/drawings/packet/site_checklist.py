"""What to tick before any trim goes on, and where to write what was measured on the roof."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout
from trimwright.model.message import Fine
from trimwright.model.metals import METAL_WORDS

from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke, Words
from ..ink.letters import wrapped
from ..ink.shapes import lines, rectangle
from ..ink.style import BODY, INK, LINE
from ..paper.flow import GAP, Block, TableColumn, heading, high, kept, space, table
from ..paper.page import Room

SIGNED = 8 / 72
"""Size of the words under a line to sign on, inches."""

WRITTEN = 0.12
"""Room above and below the text of a row to write in where the page leaves it, inches."""


def site_checklist(layout: Layout, room: Room, say: Speaker) -> list[Block]:
    """Return the list to tick before trim goes on, with a line to write each edge's measured length.

    Args:
        layout: The layout.
        room: What a page leaves for it.
        say: Puts it into words.
    """
    blocks: list[Block] = []
    for title, points in _lists(layout, say):
        blocks += [heading(title, BODY * 1.1), *(_tick(point, room.width) for point in points)]
    blocks += [_signature(room.width, say), space(0.1)]
    over = heading(say("Each edge, measured on the roof"), BODY * 1.1)
    edges = _edges(layout, room.width, say, GAP)
    left = room.height - high([*blocks, over, *edges])
    gap = GAP + min(max(left / len(edges) / 2, 0.0), WRITTEN - GAP)
    return [*blocks, *kept([over, *_edges(layout, room.width, say, gap)])]


def _edges(layout: Layout, width: float, say: Speaker, gap: float) -> list[Block]:
    """Return a table of the edges with room to write what was measured."""
    columns = (
        TableColumn(say("Edge"), 3.0, bold=True),
        TableColumn(say("Run"), 0.5),
        TableColumn(say("Drawn"), 1, right=True),
        TableColumn("", 0.24),
        TableColumn(say("Measured"), 1.36),
        TableColumn(say("Straight and sound"), 1.6),
    )
    codes = {run.name: run.code for run in layout.runs}
    rows = [
        (named(edge.name, say), codes.get(edge.name) or say("bare"), say.tape(edge.length), "", "", "")
        for edge in layout.roof.edges
    ]
    return table(columns, rows, width, gap=gap)


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


def _tick(text: str, width: float) -> Block:
    texts = wrapped(text, BODY, width - 0.3)
    box = rectangle(0.02, -0.175, 0.16, -0.035)
    items: list[Item] = [
        Stroke(box, 0.012, INK, closed=True, name="tick"),
        *lines(texts, (0.3, -0.035), BODY),
    ]
    return Block(BODY * LINE * len(texts) + 0.045, tuple(items))


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
