"""Full-size templates of faces and kicks: what is scribed along a corner, at 1:1, painted side up, to cut out.

Only ends whose face is not cut square have one. Both hands of an end stand beside each other; one that is wider than
the paper is parted into tiles that share a strip to glue.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from trimwright.model.layout import Layout
from trimwright.model.tolerances import TAPE

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import rectangle
from ..ink.style import BODY, INK, LINE, SMALL, SOFT
from ..paper.flow import Block
from . import pattern
from .end_kinds import EndKind, PieceEnd, kinds_of
from .placement import Placement

OVERLAP = 0.25
"""How far neighbouring tiles share what they show, inches: the strip to glue."""

ROOM = 0.5
"""How far a template runs on past the last cut of its end, inches."""

LABEL = 0.65
"""Room beside it for the words of its bends at least, inches."""

ABOVE = 0.38
"""Room over a template for what it is, inches."""

APART = 0.15
"""White between two of them, inches."""

BARS = ((4.0, "4 in"), (100 / 25.4, "100 mm"))
"""Lengths to check the printer's scale with."""

STEP = 0.22
"""From one bar to the next at least, inches."""

BESIDE = 0.12
"""White between the longest bar and what is said of it, inches."""


def templates(layout: Layout, width: float, say: Speaker) -> Iterator[Block]:
    """Yield the templates of all kinds of ends whose face is cut to fit a corner, as many to a page as it holds.

    Args:
        layout: The layout.
        width: To fill, inches.
        say: Puts them into words.
    """
    tiles = [
        tile
        for kind in kinds_of(layout)
        if _shaped(kind)
        for hand in (True, False)
        if kind.hand(hand)
        for tile in _tiles(kind, kind.hand(hand)[0], width, say)
    ]
    if not tiles:
        return
    bars = bars_for(width, say)
    yield bars
    row: list[Tile] = []
    for tile in tiles:
        if row and sum(each.wide + APART for each in row) + tile.wide > width:
            yield _row(row, bars, say)
            row = []
        row.append(tile)
    yield _row(row, bars, say)


def _shaped(kind: EndKind) -> bool:
    """Return whether the face of an end is cut other than square across."""
    one = kind.first
    if one.end.lap is not None or one.part.run.section.leg("face") is None:
        return False
    shown = _face(one).intersection(one.part.sheet.pattern)
    edge = one.part.sheet.pattern.boundary.intersection(_face(one).buffer(-TAPE))
    us = [u for line in shapely.get_parts(edge) for u, _ in shapely.get_coordinates(line)]
    middle = (shown.bounds[0] + shown.bounds[2]) / 2
    own = [u for u in us if (u < middle) == (one.end.at == "low")]
    return bool(own) and max(own) - min(own) > TAPE


def _face(one: PieceEnd) -> shapely.Polygon:
    """Return the part of the sheet outboard of the bend over the face."""
    section = one.part.run.section
    low, high = one.part.sheet.extent
    _, _, _, last = one.part.sheet.pattern.bounds
    return shapely.box(low - 1, float(section.v[section.strip_of("face")]), high + 1, last + 1)


@dataclass(frozen=True, slots=True, eq=False)
class Tile:
    """A template, or as much of one as the paper is wide.

    Attributes:
        kind: The kind of end.
        one: The end that is drawn.
        window: What of the sheet it shows, ``(u, v)``.
        label: Room for the words of bends beyond the metal, inches; 0 where another tile has them.
        wide: Its width, inches.
        tall: Its height without what stands over it, inches.
        number: Its place among the tiles of its template, from 1.
        count: How many there are.
    """

    kind: EndKind
    one: PieceEnd
    window: shapely.Polygon
    label: float
    wide: float
    tall: float
    number: int
    count: int


def _tiles(kind: EndKind, one: PieceEnd, width: float, say: Speaker) -> list[Tile]:
    """Return the template of one end in tiles, from the end of its blank inward."""
    shown = _face(one).intersection(one.part.sheet.pattern)
    end = one.end
    edge = shapely.LineString(end.cut.edge).intersection(_face(one))
    us = [u for line in shapely.get_parts(edge) for u, _ in shapely.get_coordinates(line)]
    low, high = one.part.sheet.extent
    near, far = (
        (min(us), min(max(us) + ROOM, high)) if end.at == "low" else (max(us), max(min(us) - ROOM, low))
    )
    words = [width_of(say(pattern.bend_words(bend)), SMALL) for bend, _ in pattern.bend_lines(one.part)]
    label = max([LABEL, *(wide + 0.1 for wide in words)])
    first, last = shown.bounds[1], shown.bounds[3]
    long = abs(far - near)
    count = 1 if long + label <= width else max(2, math.ceil((long + label - OVERLAP) / (width - OVERLAP)))
    step = long if count == 1 else width - OVERLAP
    way = 1.0 if far > near else -1.0
    tiles = []
    for k in range(count):
        begin, finish = k * step, min(long, k * step + (step if count == 1 else width))
        a, b = sorted((near + way * begin, near + way * finish))
        own = label if k == count - 1 else 0.0
        tiles.append(
            Tile(kind, one, shapely.box(a, first, b, last), own, b - a + own, last - first, k + 1, count)
        )
    return tiles


def _row(tiles: Sequence[Tile], bars: Block, say: Speaker) -> Block:
    """Return templates beside each other."""
    items: list[Item] = []
    x, deepest = 0.0, 0.0
    for tile in tiles:
        items += moved(_drawn(tile, say), (x, 0.0))
        x += tile.wide + APART
        deepest = max(deepest, tile.tall)
    return Block(ABOVE + deepest + APART, tuple(items), bars)


def _drawn(tile: Tile, say: Speaker) -> Iterator[Item]:
    """Yield what a tile shows: the metal, its bends and folds, and the strip to glue."""
    one, (u0, first, u1, _) = tile.one, tile.window.bounds
    mirrored, at_left = is_mirrored(one.part), one.at_left
    x0 = 0.0 if at_left else tile.label
    place = Placement(u0, (x0 + (u1 - u0 if mirrored else 0.0), -ABOVE + first), 1.0, mirrored)
    code = (
        say("{code}, at the left", code=tile.kind.code)
        if at_left
        else say("{code}, at the right", code=tile.kind.code)
    )
    if tile.count > 1:
        code = say("{code}: tile {number} of {count}", code=code, number=tile.number, count=tile.count)
    marks = ", ".join(each.part.mark for each in tile.kind.hand(at_left)[:4])
    yield Words(code, (0.0, -0.14), BODY, bold=True, color=INK, name="template")
    yield Words(marks, (0.0, -0.3), SMALL, color=SOFT, name="marks")
    window = tile.window.buffer(1e-6, join_style="mitre")
    yield from pattern.metal_items(one.part, place, window, 0.012)
    yield from pattern.bend_items(one.part, place, window, 0.007)
    yield from pattern.tab_folds(one.end, place, window)
    if tile.label:
        x = x0 + (u1 - u0) + 0.06 if at_left else x0 - 0.06
        for bend, v in pattern.bend_lines(one.part):
            if first <= v:
                words = say(pattern.bend_words(bend))
                at = (x, place.y(v) - SMALL * 0.36)
                yield Words(words, at, SMALL, "start" if at_left else "end", name="bend")
    if tile.count > 1:
        frame = rectangle(x0, -ABOVE - tile.tall, x0 + u1 - u0, -ABOVE)
        yield Stroke(frame, 0.004, SOFT, (0.02, 0.04), True, "tile")


def bars_for(width: float, say: Speaker) -> Block:
    """Return the bars that show whether the printer kept the scale, with what is said of each."""
    room = width - BARS[0][0] - BESIDE
    (inches, first_name), (metric, second_name) = BARS
    told = (
        say(
            "Full size, painted side up. {length}: if this bar is not, print again at 100 %.",
            length=first_name,
        ),
        say("{length}. If this bar is not, print again at 100 %, unfitted.", length=second_name),
    )
    items: list[Item] = []
    y = -0.14
    for says, length, name in zip(told, (inches, metric), (first_name, second_name), strict=True):
        texts = wrapped(says, SMALL, room)
        items.append(Stroke(((0.0, y), (length, y)), 0.012, INK, name=f"bar {name}"))
        items += [Stroke(((x, y - 0.06), (x, y + 0.06)), 0.008, INK, name="tick") for x in (0.0, length)]
        first = y - SMALL * 0.36 + SMALL * LINE * (len(texts) - 1) / 2
        for row, text in enumerate(texts):
            at = (BARS[0][0] + BESIDE, first - SMALL * LINE * row)
            items.append(Words(text, at, SMALL, name="bar"))
        y -= max(STEP, len(texts) * SMALL * LINE + 0.04)
    return Block(-y + 0.06, tuple(items), keep=True)
