"""Stick-on labels: one for each piece, to cut out or to print on a sheet of thirty, three by ten."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import segno

from trimwright.model.layout import Layout, Part
from trimwright.model.message import message

from ...display.ends import lies
from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Point, Stroke, Words, moved
from ..ink.letters import shortened, width_of
from ..ink.shapes import arrow, rectangle
from ..ink.style import BODY, FAINT, INK, LINE, SMALL, SOFT
from ..paper.flow import Block, paragraph
from ..paper.phrases import HANDED

ABREAST = 3
"""Labels beside each other."""

HIGH, CODED = 0.76, 0.83
"""Height of a label, and of one with a code, which wants white round it, inches: eleven or ten fill a page."""

MARK = 18 / 72
"""Size of the mark, inches: read at arm's length."""

CODE = 0.66
"""Side of the square code that opens the piece on the page, inches."""


def labels(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the labels of all pieces, in rows."""
    address = layout.scene.shop.page
    told = say("Stick or tie each to the back of its piece before it is cut. The arrow points up the roof.")
    yield paragraph(told, width, SMALL)
    wide, high = width / ABREAST, CODED if address else HIGH
    for first in range(0, len(layout.parts), ABREAST):
        items: list[Item] = []
        for k, part in enumerate(layout.parts[first : first + ABREAST]):
            items += moved(_label(part, (wide, high), address, say), (k * wide, 0.0))
        yield Block(high, tuple(items))


def _label(part: Part, size: Point, address: str | None, say: Speaker) -> list[Item]:
    """Return one label of so much width and height, its upper left corner at (0, 0)."""
    wide, high = size
    ring = rectangle(0.0, -high, wide, 0.0)
    items: list[Item] = [Stroke(ring, 0.006, FAINT, (0.04, 0.04), True, "cut")]
    right = wide - 0.1
    if address:
        right -= CODE + 0.06
        items += _code(f"{address}#{part.mark}", (wide - 0.1 - CODE, -(high - CODE) / 2))
    items.append(Words(part.mark, (0.3, -0.245), MARK, bold=True, color=INK, name="mark"))
    items += arrow((0.15, -0.405), (0.15, -0.065), 0.03, INK, 0.14)
    after = 0.3 + width_of(part.mark, MARK, bold=True) + 0.1
    hand = say(HANDED[part.run.hand]) if part.run.hand else ""
    length = say.tape(part.length)
    items.append(Words(length, (after, -0.155), BODY, bold=True, color=INK, name="length"))
    items.append(Words(shortened(hand, SMALL, right - after), (after, -0.285), SMALL, color=INK, name="hand"))
    name = named(part.run.name, say)
    name = name if width_of(name, SMALL) <= right - 0.3 else part.run.name
    texts = [shortened(name, SMALL, right - 0.3), *_lies(part, right - 0.1, say)]
    for k, text in enumerate(texts[:3]):
        at = (0.3 if k == 0 else 0.1, -0.415 - SMALL * LINE * k)
        items.append(Words(text, at, SMALL, color=SOFT if k == 0 else INK, name="text"))
    return items


def _lies(part: Part, room: float, say: Speaker) -> list[str]:
    """Return what a piece lies over or under at each of its ends, the ends that meet nothing left out."""
    names = {"low": message("low"), "high": message("high")}
    found = []
    for end in part.ends:
        told = lies(end)
        if told is not None:
            text = say("{end}: {lies}", end=names[end.at], lies=told)
            if width_of(text, SMALL) > room:
                text = say.alone()("{end}: {lies}", end=names[end.at], lies=told)
            found.append(shortened(text, SMALL, room))
    return found


def _code(text: str, corner: tuple[float, float]) -> list[Item]:
    """Return the square code of a text, its upper left corner at ``corner``."""
    rows: Sequence[Sequence[int]] = [list(row) for row in segno.make_qr(text, error="l").matrix]
    step = CODE / len(rows)
    items: list[Item] = []
    for y, row in enumerate(rows):
        x = 0
        while x < len(row):
            end = x
            while end < len(row) and row[end]:
                end += 1
            if end > x:
                left, top = corner[0] + x * step, corner[1] - y * step
                ring = rectangle(left, top - step, corner[0] + end * step, top)
                items.append(Area((ring,), "#000000", "code"))
            x = max(end, x + 1)
    return items
