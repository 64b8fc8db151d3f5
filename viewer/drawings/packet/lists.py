"""Lists on paper: the pieces, what to buy, and the cutting diagram."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length
from trimwright.model.takeoff.record import Takeoff

from ...buy.lists import List, lists_of, noted, proofs, texts
from ...display.ends import meets
from ...words.speaker import Speaker
from ..ink.drawing import Drawing
from ..ink.style import SMALL, SOFT
from ..paper.flow import Block, TableColumn, flow, heading, kept, paragraph, space, table
from ..paper.page import Imprint, Paper, body_of, paged
from ..paper.phrases import HANDS
from .cutting_diagram import diagram_blocks

LEFT_TO_SPREADSHEETS = ("cutting",)
"""Lists that the packet shows as a drawing."""


def piece_list(layout: Layout, sheets: Mapping[str, int], paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return a row for each piece.

    Args:
        layout: The layout.
        sheets: The page of each piece's cut sheet, by mark.
        paper: Its size.
        imprint: What every page says.
    """
    box, say = body_of(paper, imprint), imprint.say
    columns = (
        TableColumn(say("Mark"), 0.8, bold=True),
        TableColumn(say("Profile"), 1.1),
        TableColumn(say("Hand"), 0.55),
        TableColumn(say("Length"), 1.5, right=True),
        TableColumn(say("Low end"), 2.45),
        TableColumn(say("High end"), 2.45),
        TableColumn(say("Screws"), 0.75, right=True),
        TableColumn(say("Sheet"), 0.65, right=True),
    )
    rows = [_piece(part, layout, sheets.get(part.mark), say) for part in layout.parts]
    pages = flow(table(columns, rows, box.width), box)
    aside = say.counted("{count} piece", "{count} pieces", count=len(layout.parts))
    return paged(say("Piece list"), pages, paper, imprint, (aside,))


def _piece(part: Part, layout: Layout, sheet: int | None, say: Speaker) -> tuple[str, ...]:
    hand = part.piece.hand or part.run.hand
    fit = layout.sureness is not None and layout.sureness.pieces[part.mark].fit
    return (
        part.mark,
        part.run.section.profile,
        say(HANDS[hand]) if hand else "",
        say("{length}, to fit", length=Length(part.length)) if fit else say.tape(part.length),
        say(meets(part.ends.low)),
        say(meets(part.ends.high)),
        str(len(layout.screws_of(part.mark))),
        "" if sheet is None else str(sheet),
    )


def shopping_list(layout: Layout, takeoff: Takeoff, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return what to buy."""
    box, say = body_of(paper, imprint), imprint.say
    pages = flow(_shopping(layout, takeoff, box.width, say), box)
    weight = takeoff.weight
    heavy = f"{weight:.0f} lb" if layout.scene.show == "feet" else f"{weight * 0.45359237:.0f} kg"
    if takeoff.price is None:
        aside = say("trim {weight}", weight=heavy)
    else:
        aside = say("trim {weight}, {price}", weight=heavy, price=f"{takeoff.price:,.2f}")
    return paged(say("Shopping list"), pages, paper, imprint, (aside,))


def cutting_pages(takeoff: Takeoff, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the cutting diagram on as many pages as it takes."""
    box, say = body_of(paper, imprint), imprint.say
    pages = flow(diagram_blocks(takeoff, say, box.width), box)
    aside = say.counted(
        "{count} length, {waste} waste",
        "{count} lengths, {waste} waste",
        count=len(takeoff.lengths),
        waste=f"{takeoff.waste:.1%}",
    )
    return paged(say("Cutting diagram"), pages, paper, imprint, (aside,))


def _shopping(layout: Layout, takeoff: Takeoff, width: float, say: Speaker) -> Iterator[Block]:
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


def _fitted(
    columns: list[TableColumn], rows: list[list[str]]
) -> tuple[list[TableColumn], list[list[str]], float]:
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
        heads += [TableColumn("", 0.2), *columns]
    return heads, wide, 1.0


def _columns(each: List, say: Speaker) -> list[TableColumn]:
    return [
        TableColumn(say(field.name), field.share, right=field.kind != "text" and place > 0)
        for place, field in enumerate(each.fields)
    ]
