"""Lists on paper: the pieces, what to buy, and the cutting diagram."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trimwright.model.layout import Layout, Part
from trimwright.model.message import ENGLISH
from trimwright.model.takeoff.record import Takeoff

from ...buy.lists import List, lists_of, noted, proofs, texts
from ...display.ends import meets
from ...words.speaker import Speaker, speaker_of
from ..ink.drawing import Drawing
from ..ink.style import SMALL, SOFT
from ..paper.flow import Block, Column, flow, heading, kept, paragraph, space, table
from ..paper.page import Imprint, Paper, body_of, framed
from .cutting_diagram import diagram_blocks

LEFT_TO_SPREADSHEETS = ("cutting",)
"""Lists that the packet shows as a drawing."""


def piece_list(layout: Layout, sheets: Mapping[str, int], paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return a row for each piece.

    Args:
        layout: The layout.
        sheets: The page of each piece's cut sheet, by mark.
        paper: Its size.
        imprint: What every leaf says.
    """
    box = body_of(paper)
    columns = (
        Column("Mark", 0.8, bold=True),
        Column("Profile", 1.1),
        Column("Hand", 0.55),
        Column("Length", 1.2, right=True),
        Column("Low end", 2.6),
        Column("High end", 2.6),
        Column("Screws", 0.75, right=True),
        Column("Sheet", 0.65, right=True),
    )
    rows = [
        _piece(part, len(layout.screws_of(part.mark)), sheets.get(part.mark), layout) for part in layout.parts
    ]
    pages = flow(table(columns, rows, box.width), box)
    return _leaves("Piece list", pages, paper, imprint, f"{len(layout.parts)} pieces")


def shopping_list(layout: Layout, takeoff: Takeoff, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return what to buy."""
    box = body_of(paper)
    pages = flow(_shopping(layout, takeoff, box.width), box)
    weight = takeoff.weight
    heavy = f"{weight:.0f} lb" if layout.scene.show == "feet" else f"{weight * 0.45359237:.0f} kg"
    price = "" if takeoff.price is None else f", {takeoff.price:,.2f}"
    return _leaves("Shopping list", pages, paper, imprint, f"trim {heavy}{price}")


def cutting_pages(layout: Layout, takeoff: Takeoff, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the cutting diagram on as many leaves as it takes."""
    box = body_of(paper)
    pages = flow(diagram_blocks(takeoff, layout.scene.tape, box.width), box)
    aside = f"{len(takeoff.lengths)} lengths, {takeoff.waste:.1%} waste"
    return _leaves("Cutting diagram", pages, paper, imprint, aside)


def _leaves(title: str, pages: list, paper: Paper, imprint: Imprint, aside: str) -> list[Drawing]:  # type: ignore[type-arg]
    return [
        framed(title if number == 1 else f"{title}, continued", items, paper, imprint, aside)
        for number, items in enumerate(pages, 1)
    ]


def _piece(part: Part, screws: int, sheet: int | None, layout: Layout) -> tuple[str, ...]:
    show = layout.scene.tape
    low, high = (meets(end).said(ENGLISH, show) for end in part.ends)
    return (
        part.mark,
        part.run.section.profile,
        part.piece.hand or part.run.hand or "",
        show(part.length),
        low,
        high,
        str(screws),
        "" if sheet is None else str(sheet),
    )


def _shopping(layout: Layout, takeoff: Takeoff, width: float) -> Iterator[Block]:
    say = speaker_of(layout.scene)
    for each in lists_of(layout, takeoff):
        if each.key in LEFT_TO_SPREADSHEETS:
            continue
        columns, rows, share = _fitted(_columns(each, say), list(texts(each, say)))
        blocks = [heading(say(each.name).capitalize()), *table(columns, rows, width * share)]
        if each.notes:
            blocks += [space(0.05), paragraph(noted(each, say), width, SMALL, color=SOFT)]
        yield from kept(blocks)
        yield space(0.1)
        if each.key == "trim-to-buy":
            for line in proofs(takeoff):
                yield paragraph(say(line), width, SMALL)


def _fitted(columns: list[Column], rows: list[list[str]]) -> tuple[list[Column], list[list[str]], float]:
    """Return a table and its share of the page's width; a long one of few columns stands side by side."""
    abreast = 4 if len(columns) == 2 else 3 if len(columns) == 3 else 1
    if abreast == 1 or len(rows) < 2 * abreast:
        return columns, rows, min(1.0, 0.32 * len(columns))
    high = -(-len(rows) // abreast)
    blank = [""] * len(columns)
    wide: list[list[str]] = []
    for k in range(high):
        cells: list[str] = []
        for place in range(k, high * abreast, high):
            cells += ([""] if cells else []) + (rows[place] if place < len(rows) else blank)
        wide.append(cells)
    heads = list(columns)
    for _ in range(abreast - 1):
        heads += [Column("", 0.2), *columns]
    return heads, wide, 1.0


def _columns(each: List, say: Speaker) -> list[Column]:
    return [
        Column(say(field.name), field.share, right=field.kind != "text" and place > 0)
        for place, field in enumerate(each.fields)
    ]
