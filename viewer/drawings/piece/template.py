"""Full-size templates: the ends of every piece at 1:1, painted side up, in tiles over the pages of a printer."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker
from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import rectangle
from ..ink.style import INK, LINE, SMALL, SOFT
from ..paper.page import Imprint, Paper, Room, body_of, paged
from ..paper.phrases import ENDS, SIDES
from . import pattern
from .batches import Batch, batches
from .placement import Placement

OVERLAP = 0.25
"""How far neighbouring tiles share what they show, inches: the strip to glue."""

ROOM = 1.0
"""How far a template runs on past the last cut of its end, inches."""

LABEL = 0.75
"""Room beside it for the words of its bends at least, inches."""

BARS = ((4.0, "4 in"), (100 / 25.4, "100 mm"))
"""Lengths to check the printer's scale with."""

STRIP = 0.62
"""Height of the strip with these bars at least, inches."""

STEP = 0.22
"""From one bar to the next at least, inches."""

BESIDE = 0.12
"""White between the longest bar and what is said of it, inches."""


def templates(layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return the templates of all distinct pieces: the ends that are cut to fit a corner, a page for each tile."""
    return [
        page
        for batch in batches(layout)
        for end in batch.first.ends.corners
        if not end.cut.is_square
        for page in template(batch, end, paper, imprint)
    ]


def template(batch: Batch, end: End, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return one end of the pieces of a batch at 1:1, in tiles.

    Args:
        batch: The pieces.
        end: The end of its first piece.
        paper: Its size.
        imprint: What every page says.
    """
    say, body = imprint.say, body_of(paper, imprint)
    bars = bars_for(body, say)
    room = Room(body.left, body.low + bars.height, body.right, body.top - 0.2)
    span = _span(batch.first, end, say)
    columns = _count(span.u1 - span.u0, room.width)
    rows = _count(span.v1 - span.v0, room.height)
    tiles = [
        Tile(batch.first, end, room, span, number % columns, number // columns, columns, rows)
        for number in range(rows * columns)
    ]
    pages = [list(_drawn(tile, say)) for tile in tiles]
    pages = [items for items in pages if any(isinstance(item, Area) for item in items)]
    asides = [
        say("tile {number} of {count}", number=number, count=len(pages)) if len(pages) > 1 else ""
        for number in range(1, len(pages) + 1)
    ]
    title = say("Template {pieces}, {end}", pieces=batch.title(say), end=ENDS[end.at])
    return paged(title, [[*items, *bars.drawn(body)] for items in pages], paper, imprint, asides)


@dataclass(frozen=True, slots=True)
class TemplateSpan:
    """What of the sheet a template shows, its words included, inches.

    Attributes:
        u0: Lowest place along the piece.
        u1: Highest.
        v0: Lowest place across it.
        v1: Highest.
        label: Room for the words of bends beyond the metal, in ``u``.
    """

    u0: float
    u1: float
    v0: float
    v1: float
    label: float


@dataclass(frozen=True, slots=True, eq=False)
class Tile:
    """What one page of a template shows.

    Attributes:
        part: The piece.
        end: The end that is shown.
        room: Where on the page.
        span: What all tiles show together.
        column: Its place among the tiles, from the left.
        row: The same, from the top.
        columns: How many there are beside each other.
        rows: How many below each other.
    """

    part: Part
    end: End
    room: Room
    span: TemplateSpan
    column: int
    row: int
    columns: int
    rows: int

    @property
    def placement(self) -> Placement:
        """Where the sheet lies on this page: moved by the tiles left of it and above it."""
        mirrored = is_mirrored(self.part)
        left = self.room.left - self.column * (self.room.width - OVERLAP)
        top = self.room.top + self.row * (self.room.height - OVERLAP)
        span = self.span
        return Placement(
            span.u0, (left + (span.u1 - span.u0 if mirrored else 0.0), top + span.v0), 1.0, mirrored
        )

    @property
    def inner(self) -> float:
        """``u`` where the metal that is shown ends and the words of its bends begin, inches."""
        return self.span.u1 - self.span.label if self.end.at == "low" else self.span.u0 + self.span.label

    @property
    def window(self) -> shapely.Polygon:
        """The part of the sheet that this page shows, in ``(u, v)``."""
        span, place = self.span, self.placement
        u0, u1 = (span.u0, self.inner) if self.end.at == "low" else (self.inner, span.u1)
        us = sorted(place.u(x) for x in (self.room.left, self.room.right))
        vs = sorted(place.v(y) for y in (self.room.low, self.room.top))
        return shapely.box(
            max(u0, us[0]) - 1e-6,
            max(span.v0, vs[0]) - 1e-6,
            min(u1, us[1]) + 1e-6,
            min(span.v1, vs[1]) + 1e-6,
        )


def _span(part: Part, end: End, say: Speaker) -> TemplateSpan:
    """Return what of the sheet an end's template shows."""
    low, high = part.sheet.extent
    near, far = end.reach
    words = [width_of(say(pattern.bend_words(bend)), SMALL) for bend, _ in pattern.bend_lines(part)]
    label = max([LABEL, *(width + 0.1 for width in words)])
    _, v0, _, v1 = part.sheet.pattern.bounds
    if end.at == "low":
        return TemplateSpan(near, min(far + ROOM, high) + label, v0, v1, label)
    return TemplateSpan(max(near - ROOM, low) - label, far, v0, v1, label)


def _count(length: float, room: float) -> int:
    """Return how many tiles ``room`` wide it takes to show ``length``, inches."""
    return max(1, math.ceil((length - OVERLAP) / (room - OVERLAP) - 1e-9))


def _drawn(tile: Tile, say: Speaker) -> Iterator[Item]:
    """Yield what one tile shows: the metal, its bends and folds, and the marks to join it to its neighbours."""
    part, place, window = tile.part, tile.placement, tile.window
    yield from pattern.metal_items(part, place, window, 0.012)
    yield from pattern.bend_items(part, place, window, 0.007)
    for bend, v in pattern.bend_lines(part):
        yield from _label(tile, say(pattern.bend_words(bend)), place.x(tile.inner), place.y(v))
    yield from pattern.tab_folds(tile.end, place, window)
    yield from _joining(tile)
    side = SIDES["right" if place.mirrored else "left"]
    says = say(
        "Full size, painted side up. Low end at the {side}. Check the bars below before you cut.", side=side
    )
    yield Words(says, (tile.room.left, tile.room.top + 0.07), SMALL, bold=True, color=INK, name="caption")


def _label(tile: Tile, text: str, inner: float, y: float) -> Iterator[Words]:
    """Yield a bend's words beside its inner end, or over it where the tile ends; clear of the crosses."""
    room = tile.room
    if not (room.left <= inner <= room.right and room.low <= y <= room.top):
        return
    long = width_of(text, SMALL)
    rightward = (tile.end.at == "low") != is_mirrored(tile.part)
    wanted = inner + 0.08 if rightward else inner - 0.08 - long
    x = min(max(wanted, room.left + OVERLAP), room.right - OVERLAP - long)
    rise = -SMALL * 0.36 if x == wanted else 0.04
    base = min(max(y + rise, room.low + OVERLAP), room.top - OVERLAP - SMALL)
    yield Words(text, (x, base), SMALL, name="bend")


def _joining(tile: Tile) -> Iterator[Item]:
    """Yield the frame of a tile, with a cross at both ends of every line where a neighbour goes on."""
    if tile.columns * tile.rows == 1:
        return
    room, half = tile.room, OVERLAP / 2
    frame = rectangle(room.left, room.low, room.right, room.top)
    yield Stroke(frame, 0.004, SOFT, (0.02, 0.04), True, "tile")
    upright = [room.left + half] * (tile.column > 0) + [room.right - half] * (tile.column < tile.columns - 1)
    level = [room.top - half] * (tile.row > 0) + [room.low + half] * (tile.row < tile.rows - 1)
    for share in (0.12, 0.88):
        for x in upright:
            yield from _cross(x, room.low + (room.top - room.low) * share)
        for y in level:
            yield from _cross(room.left + (room.right - room.left) * share, y)


def _cross(x: float, y: float) -> Iterator[Item]:
    yield Stroke(((x - 0.1, y), (x + 0.1, y)), 0.006, INK, name="register")
    yield Stroke(((x, y - 0.1), (x, y + 0.1)), 0.006, INK, name="register")


@dataclass(frozen=True, slots=True)
class Bars:
    """The bars that show whether the printer kept the scale, and what is said of each.

    Attributes:
        texts: The lines beside each bar.
        step: From one bar to the next, inches on the paper.
    """

    texts: tuple[tuple[str, ...], ...]
    step: float

    @property
    def height(self) -> float:
        """Of the strip that they take, inches."""
        return STRIP + 2 * (self.step - STEP)

    def drawn(self, body: Room) -> Iterator[Item]:
        """Yield them at the foot of a page."""
        for k, ((length, name), texts) in enumerate(zip(BARS, self.texts, strict=True)):
            y = body.low + STRIP - STEP * 2 - 0.04 + self.step * (1 - k)
            yield Stroke(((body.left, y), (body.left + length, y)), 0.012, INK, name=f"bar {name}")
            for x in (body.left, body.left + length):
                yield Stroke(((x, y - 0.06), (x, y + 0.06)), 0.008, INK, name="tick")
            first = y - SMALL * 0.36 + SMALL * LINE * (len(texts) - 1) / 2
            for row, text in enumerate(texts):
                at = (body.left + BARS[0][0] + BESIDE, first - SMALL * LINE * row)
                yield Words(text, at, SMALL, name="bar")


def bars_for(body: Room, say: Speaker) -> Bars:
    """Return the bars with what is said of them, broken to the room beside them."""
    room = body.width - BARS[0][0] - BESIDE
    texts = tuple(
        wrapped(
            say("{length}. If this bar is not, print again at 100 %, unfitted.", length=name), SMALL, room
        )
        for _, name in BARS
    )
    return Bars(texts, max(STEP, max(map(len, texts)) * SMALL * LINE + 0.04))
