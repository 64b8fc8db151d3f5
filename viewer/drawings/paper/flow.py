"""Blocks that follow each other down a page and on to the next: paragraphs, rows of a table, strips of a run."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from ..ink.drawing import Item, Stroke, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, FAINT, INK, LARGE, LINE, SMALL, SOFT
from .page import Room

GAP = 0.06
"""Room above and below the text of a row, inches."""


SHORT = 1.25
"""So much of an even part of a table's width a text may take that is not broken: the project's own."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something with a height that is not parted.

    Attributes:
        height: Inches.
        items: Drawn from its upper left corner, which is (0, 0): y is 0 or less.
        head: What is drawn again above it when it opens a page, such as a table's heading.
        keep: It stays on the page of the block after it.
        name: What it is looked up by, where its page is told elsewhere; empty for none.
    """

    height: float
    items: tuple[Item, ...]
    head: Block | None = None
    keep: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class TableColumn:
    """A column of a table.

    Attributes:
        name: Its heading.
        share: Its width, as a share of the widths of all.
        right: Its text ends at its right side, as numbers do.
        bold: Its text is bold.
    """

    name: str
    share: float
    right: bool = False
    bold: bool = False


def flow(blocks: Iterable[Block], box: Room) -> list[tuple[Item, ...]]:
    """Return the items of each page that the blocks take; at least one page.

    Blocks that want to stay together are parted when one page cannot hold them; a single block that is higher
    than the page has a page of its own. White space opens no page.
    """
    pages: list[tuple[Item, ...]] = []
    items: tuple[Item, ...] = ()
    y = box.top
    for group in groups_of(blocks, box.height):
        height = sum(block.height for block in group)
        white = not any(block.items for block in group)
        if items and y - height < box.low - 1e-9:
            if white:
                y = box.low
                continue
            pages.append(items)
            items, y = (), box.top
            head = group[0].head
            if head is not None:
                items, y = moved(head.items, (box.left, y)), y - head.height
        if white and not items:
            continue
        for block in group:
            items += moved(block.items, (box.left, y))
            y -= block.height
    return [*pages, items]


def groups_of(blocks: Iterable[Block], most: float) -> Iterator[list[Block]]:
    """Yield blocks that stay together; those that are more than ``most`` inches high are parted."""
    group: list[Block] = []
    for block in blocks:
        above = group[0].head.height if group and group[0].head else 0.0
        if group and above + sum(each.height for each in group) + block.height > most:
            yield group
            group = []
        group.append(block)
        if not block.keep:
            yield group
            group = []
    if group:
        yield group


def high(blocks: Iterable[Block]) -> float:
    """Return how high blocks are under each other, inches."""
    return sum(block.height for block in blocks)


def kept(blocks: Iterable[Block]) -> list[Block]:
    """Return blocks that stay on one page if it can hold them."""
    result = list(blocks)
    return [replace(block, keep=True) for block in result[:-1]] + result[-1:]


def space(height: float) -> Block:
    """Return white space."""
    return Block(height, ())


def heading(text: str, size: float = LARGE) -> Block:
    """Return a heading that stays with what follows it."""
    return Block(size * 1.9, (Words(text, (0.0, -size * 1.35), size, bold=True, color=INK),), keep=True)


def paragraph(
    text: str, width: float, size: float = BODY, bold: bool = False, color: str = INK, keep: bool = False
) -> Block:
    """Return ``text`` broken to ``width`` inches."""
    texts = wrapped(text, size, width, bold=bold)
    items = lines(texts, (0.0, 0.0), size, bold=bold, color=color)
    return Block(size * LINE * len(texts) + 0.05, tuple(items), keep=keep)


def table(
    columns: Sequence[TableColumn],
    rows: Iterable[Sequence[str]],
    width: float,
    size: float = 8.5 / 72,
    strong: Collection[int] = (),
    gap: float = GAP,
) -> list[Block]:
    """Return a table as its heading and a block for each row.

    Args:
        columns: Its columns.
        rows: Cells of each row, broken into lines where they are longer than their column.
        width: To fill, inches.
        size: Of the text, inches.
        strong: Rows that are bold: each stays with the row below it, whose heading it may be.
        gap: Room above and below the text of a row, inches.
    """
    rows = [tuple(row) for row in rows]
    widths = _widths(columns, _least(columns, rows, width, size, strong), width)
    names = _row([column.name for column in columns], columns, widths, SMALL, gap, heading=True)
    head = Block(names.height, (*names.items, _rule(-names.height, width, 0.012, INK)), keep=True)
    result = [head]
    for number, row in enumerate(rows):
        body = _row(row, columns, widths, size, gap, heading=False, strong=number in strong)
        ruled = (*body.items, _rule(-body.height, width, 0.005, FAINT))
        result.append(Block(body.height, ruled, head, keep=number in strong and number + 1 < len(rows)))
    return result


def _least(
    columns: Sequence[TableColumn],
    rows: Sequence[Sequence[str]],
    width: float,
    size: float,
    strong: Collection[int],
) -> list[float]:
    """Return how wide columns are at least: as their longest word where all fit, or else as that of their headings.

    A text that takes little more than an even part of the table stands on one line, where there is room for all such.
    """
    headings = [_longest(column.name, SMALL, bold=True) for column in columns]
    short = _unbroken(columns, rows, size, strong, SHORT * width / len(columns))
    least = _unbroken(columns, rows, size, strong)
    return next((each for each in (short, least, headings) if sum(each) <= width), [0.0] * len(columns))


def has_room(
    columns: Sequence[TableColumn], rows: Sequence[Sequence[str]], width: float, size: float
) -> bool:
    """Return whether a table ``width`` inches wide holds each of its words on one line."""
    return sum(_unbroken(columns, rows, size, ())) <= width


def _unbroken(
    columns: Sequence[TableColumn],
    rows: Sequence[Sequence[str]],
    size: float,
    strong: Collection[int],
    short: float = 0.0,
) -> list[float]:
    """Return how wide columns are that hold each of their words on one line, and all of a text up to ``short``."""
    least = [_longest(column.name, SMALL, True, short) for column in columns]
    for number, row in enumerate(rows):
        for k, (cell, column) in enumerate(zip(row, columns, strict=True)):
            least[k] = max(least[k], _longest(cell, size, column.bold or number in strong, short))
    return least


def _longest(text: str, size: float, bold: bool, short: float = 0.0) -> float:
    """Return how wide a cell is that holds each word of a text, or all of it where that is ``short`` at most."""
    if short and (whole := width_of(text, size, bold) + 0.11) <= short:
        return whole
    return max(
        (width_of(word, size, bold) + 0.11 for word in text.replace("\n", " ").split(" ") if word),
        default=0.0,
    )


def _widths(columns: Sequence[TableColumn], least: Sequence[float], width: float) -> list[float]:
    """Return how wide columns are: by their shares, but none narrower than its ``least``."""
    widths = [0.0] * len(columns)
    free = set(range(len(columns)))
    while True:
        room = width - sum(least[k] for k in range(len(columns)) if k not in free)
        total = sum(columns[k].share for k in free)
        widths = [room * columns[k].share / total if k in free else least[k] for k in range(len(columns))]
        narrow = {k for k in free if widths[k] < least[k]}
        if not narrow:
            return widths
        free -= narrow


def _row(
    cells: Sequence[str],
    columns: Sequence[TableColumn],
    widths: Sequence[float],
    size: float,
    gap: float,
    heading: bool,
    strong: bool = False,
) -> Block:
    items: list[Item] = []
    x, most = 0.0, 1
    for cell, column, width in zip(cells, columns, widths, strict=True):
        bold = heading or strong or column.bold
        texts = wrapped(cell, size, width - 0.1, bold=bold)
        most = max(most, len(texts))
        at = x + width - 0.08 if column.right else x + 0.02
        items += lines(
            texts, (at, -gap), size, "end" if column.right else "start", bold, SOFT if heading else INK
        )
        x += width
    return Block(size * LINE * most + 2 * gap, tuple(items))


def _rule(y: float, width: float, weight: float, color: str) -> Stroke:
    return Stroke(((0.0, y), (width, y)), weight, color, name="rule")
