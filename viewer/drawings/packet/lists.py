"""Lists on paper: the pieces, and what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from trimwright.model.joints.end import At, End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length
from trimwright.model.takeoff.record import Takeoff

from ...buy.lists import lists_of, noted, proofs, texts
from ...buy.panel_schedule import by_faces
from ...buy.record import List
from ...display.ends import meets
from ...report.sureness import fit_told
from ...report.words import KILOGRAM
from ...words.speaker import Speaker
from ..ink.style import SMALL, SOFT
from ..paper.flow import Block, TableColumn, has_room, heading, high, kept, paragraph, space, table
from ..paper.phrases import HANDS
from ..piece.end_kinds import EndKind

LEFT_TO_SPREADSHEETS = ("cutting",)
"""Lists that the packet shows as a drawing."""


WHOLE = 3.5
"""Height of a list that is not parted over pages, inches."""

LONG = 20
"""Rows of a broad list that stand in two halves beside each other."""

NARROW = (0.9, 0.7, 1.25, 1.0, 1.3, 1.0, 1.0)
"""Shares of the columns of panels."""

TIGHT = 0.03
"""Room above and below the text of a row of a long list, inches."""


def piece_list(layout: Layout, kinds: Iterable[EndKind], width: float, say: Speaker) -> Iterator[Block]:
    """Yield a row for each piece, its ends with the letter of their sheet."""
    columns = (
        TableColumn(say("Mark"), 0.7, bold=True),
        TableColumn(say("Profile"), 0.95),
        TableColumn(say("Hand"), 0.5),
        TableColumn(say("Length"), 1.05, right=True),
        TableColumn(say("Low end"), 2.6),
        TableColumn(say("High end"), 2.6),
        TableColumn(say("Screws"), 0.6, right=True),
    )
    codes = {(one.part.mark, one.end.at): kind.code for kind in kinds for one in kind.ends if kind.code}
    rows = [_piece(part, codes, layout, say) for part in layout.parts]
    yield paragraph(
        say(
            "Lengths are those of the blanks, laps and tabs included. A letter is the sheet of an end; one without is "
            "cut square. Seen from outside, the low end of a right-hand piece is at the right, of any other at the "
            "left."
        ),
        width,
        SMALL,
        keep=True,
    )
    yield from table(columns, rows, width, SMALL, gap=TIGHT)
    for part in layout.parts:
        if (fit := fit_told(layout, part.mark)) is not None:
            yield paragraph(say("{mark}: {fit}", mark=part.mark, fit=fit), width, SMALL)


def _piece(part: Part, codes: Mapping[tuple[str, At], str], layout: Layout, say: Speaker) -> tuple[str, ...]:
    hand = part.piece.hand or part.run.hand
    low, high = (_end(end, codes.get((part.mark, end.at)), say) for end in part.ends)
    return (
        part.mark,
        part.run.section.profile,
        say(HANDS[hand]) if hand else "",
        say("{length}, to fit", length=Length(part.length))
        if fit_told(layout, part.mark)
        else say.tape(part.length),
        low,
        high,
        str(len(layout.screws_of(part.mark))),
    )


def _end(end: End, code: str | None, say: Speaker) -> str:
    """Return what an end meets, after the letter of its sheet where it has one."""
    return say("{code}: {meets}", code=code, meets=meets(end)) if code else say(meets(end))


def shopping_list(layout: Layout, takeoff: Takeoff, width: float, say: Speaker) -> Iterator[Block]:
    """Yield what to buy."""
    for each in lists_of(layout, takeoff):
        if each.key in LEFT_TO_SPREADSHEETS:
            continue
        faces = tuple(by_faces(layout)) if each.key == "panel-schedule" else ()
        blocks = [heading(say(each.name).capitalize())]
        for one in faces or (each,):
            if faces:
                blocks.append(paragraph(say(one.name), width, SMALL, bold=True, keep=True))
            blocks += _listed(one, width, say)
        if each.notes:
            blocks += [space(0.05), paragraph(noted(each, say), width, SMALL, color=SOFT)]
        yield from blocks if high(blocks) > WHOLE else kept(blocks)
        yield space(0.1)
        if each.key == "trim-to-buy":
            for line in proofs(takeoff):
                yield paragraph(say(line), width, SMALL)


def _listed(each: List, width: float, say: Speaker) -> list[Block]:
    """Return the table of a list."""
    columns = _columns(each, say)
    if each.key == "panel-schedule":
        columns = [replace(column, share=share) for column, share in zip(columns, NARROW, strict=True)]
    columns, rows, share = _fitted(columns, list(texts(each, say)), width)
    return table(columns, rows, width * share, SMALL, gap=TIGHT)


def bought(takeoff: Takeoff, say: Speaker) -> str:
    """Return the weight of the trim to buy, and its price where it is known."""
    weight = takeoff.weight
    heavy = f"{weight:.0f} lb" if say.tape.style == "feet" else f"{weight * KILOGRAM:.0f} kg"
    if takeoff.price is None:
        return say("trim {weight}", weight=heavy)
    return say("trim {weight}, {price}", weight=heavy, price=f"{takeoff.price:,.2f}")


def wasted(takeoff: Takeoff, say: Speaker) -> str:
    """Return how many lengths are taken, and how much of them is waste."""
    return say.counted(
        "{count} length, {waste} waste",
        "{count} lengths, {waste} waste",
        count=len(takeoff.lengths),
        waste=f"{takeoff.waste:.1%}",
    )


def _fitted(
    columns: list[TableColumn], rows: list[list[str]], width: float
) -> tuple[list[TableColumn], list[list[str]], float]:
    """Return a table and its share of the page's width; a long one of few columns stands side by side.

    So many parts of it stand there as make it lowest, with room for each word and each length on one line.
    """
    most = {2: 4, 3: 3, 7: 2}.get(len(columns), 1)
    if len(rows) <= (LONG - 1 if len(columns) > 3 else most):
        most = 1
    plain = columns, rows, min(1.0, 0.32 * len(columns))
    beside = [(*_abreast(columns, rows, abreast), 1.0) for abreast in range(most, 1, -1)]
    fitting = [each for each in beside if has_room(each[0], each[1], width, SMALL)]
    return min((*fitting, plain), key=lambda each: _high(each[0], each[1], each[2] * width))


def _high(columns: Sequence[TableColumn], rows: Sequence[Sequence[str]], width: float) -> float:
    """Return how high a table is, inches."""
    return sum(block.height for block in table(columns, rows, width, SMALL, gap=TIGHT))


def _abreast(
    columns: list[TableColumn], rows: list[list[str]], abreast: int
) -> tuple[list[TableColumn], list[list[str]]]:
    """Return a table whose rows run on beside each other."""
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
    return heads, wide


def _columns(each: List, say: Speaker) -> list[TableColumn]:
    return [
        TableColumn(say(field.name), field.share, right=field.kind != "text" and place > 0)
        for place, field in enumerate(each.fields)
    ]
