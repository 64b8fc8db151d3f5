"""The sheets of the ends: what it takes to mark, cut and fold each kind of end, and which pieces have it.

Ends that are cut alike share a sheet, whatever the length of their pieces; the mirror image stands beside. What is
only cut square across is a line in a table.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from trimwright.model.layout import Layout
from trimwright.model.message import Listed, Message, Value, message

from ...display.ends import meets
from ...report.sureness import fit_told
from ...words.speaker import Speaker
from ..ink.drawing import Item, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import INK, LINE, SMALL, SOFT
from ..paper.badge import badged
from ..paper.flow import Block, TableColumn, heading, high, kept, paragraph, space, table
from ..paper.packing import packed
from ..paper.page import Room
from ..paper.phrases import AT_END
from .end_figure import figure, width_for
from .end_kinds import EndKind, PieceEnd, kinds_of, lettered
from .formed import FormedView, placed
from .sheet_legend import forming_told, legend
from .step_pictures import DrawnStep, drawn_steps, finished, side_by_side, step_cells

GUTTER = 0.14
"""White between two steps, inches."""

CELL, WIDEST = 1.13, 1.9
"""Width of a step at least and at most, inches."""

TALL, TALLER, TALLEST = 1.22, 1.4, 1.95
"""Height of the metal of enlarged ends at most: of both hands, of one, and of those with many steps, inches."""

SLACKS = (0.2, 0.9, 1.5, 3.0)
"""How far steps may reach down below the figure that they stand beside, inches: what makes the sheet lowest."""

MANY = 8
"""Steps that fill a page by themselves."""

SHARES, SMALLER = (1.0, 0.9, 0.8, 0.7), 1.0
"""Of that height, where the sheet gets shorter by it: by how many inches at least for all of it."""

HALF, ALONE = 4.3, 0.6
"""Height of two sheets that share a page, and what it is worth to keep to it, inches."""

NAMED = 2.3
"""Room for a finished end with its pieces beside it at least, inches; in less, they stand below it."""

LISTED = 1.9
"""Room for the list of pieces beside the enlarged ends at least, inches."""

UNDER = 0.08
"""White under a sheet, inches."""

DONE = 0.72
"""Height of the picture of the finished end, inches."""


TO_FIT = message(
    "What is cut to fit is measured on the roof before its last end is cut; the piece list says between which lengths."
)


@dataclass(frozen=True, slots=True)
class EndSheets:
    """The sheets of all ends of a layout.

    Attributes:
        kinds: The kinds of ends, with letters in the order in which their sheets stand on the pages.
        blocks: The sheets.
    """

    kinds: tuple[EndKind, ...]
    blocks: tuple[Block, ...]


def end_sheets(layout: Layout, room: Room, left: float, say: Speaker) -> EndSheets:
    """Return the sheets of all kinds of ends of a layout, and the table of the square ones.

    Args:
        layout: The layout.
        room: What a page leaves for them.
        left: Height left on the page on which they begin, inches.
        say: Puts them into words.
    """
    flat, width = layout.scene.shop.forming == "after cutting", room.width
    fit = {part.mark for part in layout.parts if fit_told(layout, part.mark) is not None}
    told = [paragraph(say(words), width, SMALL) for words in forming_told(flat)]
    opening = [replace(block, keep=True) for block in (*told, *legend(width, say), space(0.06))]
    kinds = [kind for kind in kinds_of(layout) if not kind.square]
    square = [kind for kind in kinds_of(layout) if kind.square]
    spreads = [_fitted(kind, width, say, flat, fit) for kind in kinds]
    sheets = [_titled(*each, width, say) for each in zip(kinds, spreads, strict=True)]
    table_of = [_square(square, width, say, fit)] if square else []
    order = packed(opening, [*sheets, *table_of], left, room.height)
    places = [k for k in order if k < len(kinds)]
    named = dict(zip(places, lettered(kinds[k] for k in places), strict=True))
    blocks = opening
    for k in order:
        blocks += _titled(named[k], spreads[k], width, say) if k in named else table_of[0]
    return EndSheets((*named.values(), *square), tuple(blocks))


def _titled(kind: EndKind, spread: Sequence[Block], width: float, say: Speaker) -> list[Block]:
    """Return the sheet of one kind of end: what is spread under its title."""
    words = kind_words(kind)
    further = _title(kind, width, say, message("{kind}, continued", kind=words))
    return [
        _title(kind, width, say, words),
        *kept([spread[0], *(replace(row, head=further) for row in spread[1:])]),
    ]


def _fitted(kind: EndKind, width: float, say: Speaker, flat: bool, fit: Collection[str]) -> list[Block]:
    """Return the figure of one kind of end and its pieces, then its steps, in a size that fits the page."""
    title = _title(kind, width, say, kind_words(kind))
    steps = drawn_steps(kind, say, flat)
    both = bool(kind.hand(True) and kind.hand(False))
    tallest = TALLEST if len(steps) > MANY else TALL if both else TALLER
    done = tuple(finished(ends[0]) for left in (True, False) if (ends := kind.hand(left)))

    def cost(share: float) -> float:
        """Return how high the sheet gets with its figure so much smaller, and what that is worth at least."""
        spread = _spread(kind, steps, done, tallest * share, width, say, flat, fit, False)
        tall = high(spread)
        return tall + SMALLER * (1 - share) + (ALONE if title.height + tall + UNDER > HALF else 0.0)

    spread = _spread(kind, steps, done, tallest * min(SHARES, key=cost), width, say, flat, fit, True)
    return [*spread[:-1], replace(spread[-1], height=spread[-1].height + UNDER)]


def _spread(
    kind: EndKind,
    steps: Sequence[DrawnStep],
    done: Sequence[FormedView],
    tall: float,
    width: float,
    say: Speaker,
    flat: bool,
    fit: Collection[str],
    drawn: bool,
) -> list[Block]:
    """Return the figure, the pieces and the steps in as little height as they take, the metal ``tall`` at most."""
    figured = min(width, width_for(kind, tall, width, say, flat))
    block, first = figure(kind, figured, tall, say, flat), []
    start = figured + GUTTER
    both = bool(kind.hand(True) and kind.hand(False))
    if both and width - start > LISTED:
        first = [_who(kind, done, width - start, say, fit)]
    else:
        alone = width - start < CELL
        block = _above(block, _who(kind, done, width if alone else figured, say, fit))
    ways = [(most, under, slack) for most in range(7) for under in (True, False) for slack in SLACKS]
    bare, dry = [Block(one.height, ()) for one in (block, *first)], _cells_of(steps, drawn=False)
    best = min(ways, key=lambda way: high(_arranged(bare[0], bare[1:], steps, dry, start, width, way)))
    if not drawn:
        return _arranged(bare[0], bare[1:], steps, dry, start, width, best)
    return _arranged(block, first, steps, _cells_of(steps, drawn=True), start, width, best)


Cells = Callable[[int, float, bool], Sequence[Block]]
"""Blocks of the steps from one on, so many inches wide; whether one without a picture stands under the one before."""


def _cells_of(steps: Sequence[DrawnStep], drawn: bool) -> Cells:
    """Return the blocks of steps, made once for each way in which they are asked for; only as high if not ``drawn``."""
    return cache(lambda first, width, under: step_cells(steps[first:], width, under, drawn))


def _arranged(
    block: Block,
    first: Sequence[Block],
    steps: Sequence[DrawnStep],
    cells: Cells,
    start: float,
    width: float,
    way: tuple[int, bool, float],
) -> list[Block]:
    """Return a figure and steps: some beside it in rows, for as long as they are not much higher, others below.

    Args:
        block: The figure.
        first: What stands beside it before any step.
        steps: All of them.
        cells: Their blocks.
        start: Where there is room beside it, inches.
        width: Of all, inches.
        way: Steps beside each other there, 0 for none; whether one without a picture stands under the one before;
            how far they may reach down below the figure, inches.
    """
    most, under, slack = way
    cell = (width - start + GUTTER) / most - GUTTER if most else 0.0
    rows = list(first)
    used = 0
    if cell >= CELL:
        own = cells(0, min(cell, WIDEST), under)
        numbers = [k for k, step in enumerate(steps) if not k or not under or step.view is not None]
        for begin in range(0, len(own), most):
            row = side_by_side(own[begin : begin + most], min(cell, WIDEST) + GUTTER)
            if rows and high(rows) + row.height > block.height + slack:
                break
            rows.append(row)
            used = numbers[begin + most] if begin + most < len(numbers) else len(steps)
    below = [list(_in_rows(cells, used, width, abreast, under)) for abreast in (4, 5, 6)]
    return [_beside(block, rows, start), *min(below, key=high)]


def _in_rows(cells: Cells, first: int, width: float, abreast: int, under: bool) -> Iterator[Block]:
    """Yield steps from one on in rows over the whole width."""
    cell = (width - (abreast - 1) * GUTTER) / abreast
    own = cells(first, cell, under)
    for begin in range(0, len(own), abreast):
        yield side_by_side(own[begin : begin + abreast], cell + GUTTER)


def _beside(block: Block, rows: Sequence[Block], start: float) -> Block:
    """Return a block with others under each other beside it, from ``start`` inches on."""
    items, used = block.items, 0.0
    for row in rows:
        items += moved(row.items, (start, -used))
        used += row.height
    return Block(max(block.height, used), items)


def _above(upper: Block, lower: Block) -> Block:
    """Return a block with another under it, as one."""
    return Block(upper.height + lower.height, (*upper.items, *moved(lower.items, (0.0, -upper.height))))


def kind_words(kind: EndKind) -> Message:
    """Return what a kind of end is called: ``eave-rake, the piece on top``."""
    match kind.first.end.lies:
        case "over":
            return message("{joint}, the piece on top", joint=kind.first.end.kind.words)
        case "under":
            return message("{joint}, the piece underneath", joint=kind.first.end.kind.words)
    return kind.first.end.kind.words


def kind_title(kind: EndKind, say: Speaker) -> str:
    """Return the title of the sheet of a kind of end, and of which profile it is."""
    return say("{kind}, {profile}", kind=kind_words(kind), profile=kind.first.part.run.section.profile)


def _title(kind: EndKind, width: float, say: Speaker, words: Message) -> Block:
    """Return the head of a sheet: its letter, what it is, of which profile, and whether it is bedded."""
    one, title = kind.first, say(words)
    profile = one.part.run.section.profile
    if one.end.sealed:
        aside = say("{profile}, in sealant", profile=profile)
    elif one.end.lap is not None:
        aside = say("{profile}, no sealant", profile=profile)
    else:
        aside = profile
    return badged(kind.code, title[:1].upper() + title[1:], aside, width, name=kind.code)


def _who(
    kind: EndKind, done: Sequence[FormedView], width: float, say: Speaker, fit: Collection[str]
) -> Block:
    """Return the finished end of each hand, with the pieces that have it: the mirror image below the first."""
    items: list[Item] = []
    used = 0.0
    hands = [ends for left in (True, False) if (ends := kind.hand(left))]
    for ends, view in zip(hands, done, strict=True):
        block = _hand(ends, view, width, say, fit)
        items += moved(block.items, (0.0, -used))
        used += block.height
    heed = []
    if kind.first.end.kind.aloft:
        heed.append(say("It is made at the top of the roof: tie off before you carry it up."))
    if any(one.part.mark in fit for one in kind.ends):
        heed.append(say(TO_FIT))
    for words in heed:
        told = wrapped(words, SMALL, width, bold=True)
        items += lines(told, (0.0, -used), SMALL, bold=True)
        used += SMALL * LINE * len(told)
    return Block(used + 0.08, tuple(items))


def _hand(
    ends: Sequence[PieceEnd], view: FormedView, width: float, say: Speaker, fit: Collection[str]
) -> Block:
    """Return one finished end, and a table of the pieces that have it."""
    left, low, right, top = view.box
    scale = min(1.0 / (right - left), (DONE - 0.1) / (top - low))
    items: list[Item] = list(placed(view, scale, (-left * scale, -0.05 - top * scale)))
    beside = width >= NAMED
    x, y = (1.12, -0.02) if beside else (0.0, -DONE)
    name = message("Finished, at the left of:") if ends[0].at_left else message("Finished, at the right of:")
    head = wrapped(say(name), SMALL, width - x, bold=True)
    items += lines(head, (x, y), SMALL, bold=True, color=SOFT)
    listed = _listed([(one.part.mark, _which(one, say, fit)) for one in ends], width - x)
    items += moved(listed.items, (x, y - SMALL * LINE * len(head)))
    return Block(max(DONE, SMALL * LINE * len(head) + listed.height - y + 0.06), tuple(items))


def _listed(cells: Sequence[tuple[str, str]], width: float) -> Block:
    """Return pieces and what they do, in as many columns as there is room for, down one and then the next."""
    mark = max(width_of(text, SMALL, bold=True) for text, _ in cells) + 0.08
    wide = mark + max(width_of(text, SMALL) for _, text in cells) + 0.15
    count = max(1, int(width // wide))
    high = -(-len(cells) // count)
    items: list[Item] = []
    foot = 0.0
    for column in range(0, len(cells), high):
        x, y = column // high * wide, 0.0
        for text, which in cells[column : column + high]:
            texts = wrapped(which, SMALL, max(width - x - mark, 0.5) if count == 1 else wide)
            items.append(Words(text, (x, y - SMALL * 0.95), SMALL, bold=True, color=INK, name="mark"))
            items += lines(texts, (x + mark, y), SMALL)
            y -= SMALL * LINE * len(texts)
        foot = max(foot, -y)
    return Block(foot, tuple(items))


def _which(one: PieceEnd, say: Speaker, fit: Collection[str]) -> str:
    """Return which end of a piece it is, what it lies over or under there, and whether the piece is cut to fit."""
    told = _lies(one, say)
    return say("{end}; to fit", end=told) if one.part.mark in fit else told


def _lies(one: PieceEnd, say: Speaker) -> str:
    """Return which end of a piece it is, and what it lies over or under there."""
    if not one.end.others or one.end.lies is None:
        return say(AT_END[one.end.at])
    values: dict[str, Value] = {"end": AT_END[one.end.at], "others": Listed(one.end.others, "comma")}
    if one.end.lies == "over":
        return say("{end}, over {others}", **values)
    return say("{end}, under {others}", **values)


def _square(kinds: Sequence[EndKind], width: float, say: Speaker, fit: Collection[str]) -> list[Block]:
    """Return the table of the ends that are only cut square across."""
    columns = (
        TableColumn(say("Square ends"), 4.2),
        TableColumn(say("Profile"), 0.8),
        TableColumn(say("What is done"), 2.5),
    )
    rows = [
        (
            _named(kind, say, fit),
            kind.first.part.run.section.profile,
            " ".join(say(kind.told(step)) for step in kind.first.end.steps),
        )
        for kind in kinds
    ]
    title = [heading(say("Square ends: no sheet needed"))]
    if any(one.part.mark in fit for kind in kinds for one in kind.ends):
        title.append(paragraph(say(TO_FIT), width, SMALL, bold=True))
    return kept([*title, *table(columns, rows, width, SMALL, gap=0.03)])


def _named(kind: EndKind, say: Speaker, fit: Collection[str]) -> str:
    """Return the pieces that have a square end, each with what it meets there."""
    each = [
        say(
            "{mark} {end}: {meets}",
            mark=one.part.mark,
            end=AT_END[one.end.at],
            meets=message("{meets} (to fit)", meets=meets(one.end))
            if one.part.mark in fit
            else meets(one.end),
        )
        for one in kind.ends
    ]
    return "; ".join(text.replace(" ", "\N{NO-BREAK SPACE}") for text in each)
