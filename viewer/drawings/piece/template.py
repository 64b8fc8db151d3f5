"""Full-size templates: what is scribed along a corner, at 1:1, painted side up, to cut out.

See ``template_shapes`` for what has one. One that is wider than the paper is parted into tiles that share a strip to
glue.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import Message, message

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker
from ..ink.drawing import Item, Point, Stroke, Words, moved
from ..ink.letters import width_of, wrapped
from ..ink.shapes import rectangle
from ..ink.style import BODY, INK, LINE, SMALL, SOFT
from ..paper.flow import Block, space
from ..paper.page import Room
from . import pattern
from .end_kinds import EndKind
from .template_shapes import Shape, shapes_of

OVERLAP = 0.25
"""How far neighboring tiles share what they show, inches: the strip to glue."""

ROOM = 0.5
"""How far a template runs on past the last cut of its end, inches."""

STRIP = 0.25
"""How much of a wing a template shows inside of the fold of its flap at least, inches."""

HEM_STRIP = 1.5
"""How much at most: a hem's cut that begins farther in has its number on the sheet and is marked by the tape."""

INSIDE = 0.05
"""From the words of a bend to its line and to the metal's side, inches."""

ABOVE = 0.36
"""Room over a template for what it is, inches."""

HEADED = 1.65
"""How wide what stands over a template is before it is broken, inches; as wide as the metal, where that is wider."""

APART = 0.1
"""White between two of them, inches."""

BARS = ((4.0, "4 in"), (100 / 25.4, "100 mm"))
"""Lengths to check the printer's scale with."""

STEP = 0.17
"""From one bar to the next at least, inches."""

BESIDE = 0.12
"""White between the longest bar and what is said of it, inches."""


def templates(kinds: Iterable[EndKind], room: Room, say: Speaker) -> Iterator[Block]:
    """Yield the templates of all ends that are cut to fit a corner, as many to a page as it holds.

    Args:
        kinds: The kinds of ends, with the letters of their sheets.
        room: What a page leaves for them.
        say: Puts them into words.
    """
    tiles = [tile for shape in shapes_of(kinds) for tile in tiles_of(shape, room.width, say)]
    if not tiles:
        return
    bars = bars_for(room.width, say)
    yield bars
    rows: list[list[Tile]] = []
    for tile in sorted(tiles, key=lambda tile: -round(tile.high, 1)):
        if not rows or sum(each.wide + APART for each in rows[-1]) + tile.wide > room.width:
            rows.append([])
        rows[-1].append(tile)
    for row in _filling(rows, room.height - bars.height):
        yield _row(row, bars, say)
        yield space(APART)


def _filling(rows: Sequence[list[Tile]], high: float) -> Iterator[list[Tile]]:
    """Yield rows in an order in which they fill pages that are ``high`` inches high."""
    waiting, left = list(rows), high
    while waiting:
        fits = (k for k, row in enumerate(waiting) if _deep(row) <= left + 1e-9)
        row = waiting.pop(next(fits, 0))
        left = (left if _deep(row) <= left + 1e-9 else high) - _deep(row) - APART
        yield row


def _deep(row: Sequence[Tile]) -> float:
    return max(tile.high for tile in row)


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """How a flat sheet lies on the paper at full size, painted side up.

    Attributes:
        matrix: ``(2, 2) float``: from ``(u, v)`` to the paper's directions.
        origin: ``(2,) float``: where ``(0, 0)`` of the sheet lies, inches.
    """

    matrix: Array
    origin: Array

    def __call__(self, points: Array) -> tuple[Point, ...]:
        """Return ``(n, 2)`` sheet points on the paper."""
        return tuple((float(x), float(y)) for x, y in points @ self.matrix.T + self.origin)

    def back(self, shape: shapely.Geometry) -> shapely.Geometry:
        """Return what lies on the paper as it is on the sheet."""
        return shapely.transform(shape, lambda points: (points - self.origin) @ self.matrix)

    def moved(self, by: Point) -> Laid:
        """Return it moved on the paper by so many inches."""
        return Laid(self.matrix, self.origin + np.array(by))


def _laid(shape: Shape) -> Laid:
    """Return how a shape lies: a face with its bends level, a wing with the fold of its flap level."""
    flat = np.array([[-1.0 if is_mirrored(shape.one.part) else 1.0, 0.0], [0.0, -1.0]])
    hinge = shape.hinge
    if hinge is None:
        return Laid(flat, np.zeros(2))
    x, y = flat @ (hinge[-1] - hinge[0])
    angle = -math.atan2(y, x)
    angle -= math.pi * round(angle / math.pi)
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    return Laid(turn @ flat, np.zeros(2))


@dataclass(frozen=True, slots=True, eq=False)
class Tile:
    """A template, or as much of one as the paper is wide.

    Attributes:
        shape: What it is of.
        laid: How the sheet lies, the upper left corner of what is shown at ``(0, 0)``.
        size: Width and height of what is shown, inches.
        title: The lines of what it is, over it.
        told: Those of whose it is, and how it is laid on, under its title.
        number: Its place among the tiles of its template, from 1.
        count: How many there are.
    """

    shape: Shape
    laid: Laid
    size: Point
    title: tuple[str, ...]
    told: tuple[str, ...]
    number: int
    count: int

    @property
    def above(self) -> float:
        """Room over the metal for what it is, inches."""
        return ABOVE + LINE * (BODY * (len(self.title) - 1) + SMALL * (len(self.told) - 1))

    @property
    def wide(self) -> float:
        """Its width, inches."""
        titles = (width_of(text, BODY, bold=True) for text in self.title)
        return max(self.size[0], *titles, *(width_of(text, SMALL) for text in self.told))

    @property
    def high(self) -> float:
        """Its height with what stands over it, inches."""
        return self.above + self.size[1]

    @property
    def window(self) -> shapely.Polygon:
        """What of the sheet it shows."""
        return self.laid.back(shapely.box(0.0, -self.size[1], self.size[0], 0.0))


def tiles_of(shape: Shape, width: float, say: Speaker) -> list[Tile]:
    """Return a template in tiles, from the left."""
    laid = _laid(shape)
    worked = shapely.transform(shape.worked, lambda points: np.array(laid(points)))
    metal = shapely.transform(shape.metal, lambda points: np.array(laid(points)))
    left, low, right, top = _shown(shape, laid, worked, metal, say)
    long = right - left
    count = 1 if long <= width else math.ceil((long - OVERLAP) / (width - OVERLAP))
    tiles = []
    for k in range(count):
        begin = left + k * (width - OVERLAP)
        end = right if count == 1 else min(right, begin + width)
        bottom, upper = low, top
        if k and shape.wings:
            _, bottom, _, upper = worked.intersection(shapely.box(begin, low, end, top)).buffer(ROOM).bounds
            bottom, upper = max(bottom, low), min(upper, top)
        room = max(end - begin, HEADED)
        title, *told = shape.head(k + 1, count, _middle(shape, laid), say)
        over = (
            wrapped(title, BODY, room, bold=True),
            tuple(line for text in told for line in wrapped(text, SMALL, room)),
        )
        size = (end - begin, upper - bottom)
        tiles.append(Tile(shape, laid.moved((-begin, -upper)), size, *over, k + 1, count))
    return tiles


def _middle(shape: Shape, laid: Laid) -> Message | None:
    """Return at which side of a wing's template the middle bend of the cap lies; None of a face."""
    if shape.hinge is None:
        return None
    first, last = shape.hinge[0], shape.hinge[-1]
    middle = shape.one.part.run.section.width / 2
    near, far = (first, last) if abs(first[1] - middle) < abs(last[1] - middle) else (last, first)
    [(near_x, _), (far_x, _)] = laid(np.array([near, far]))
    return message("middle bend at the left") if near_x < far_x else message("middle bend at the right")


def _shown(
    shape: Shape, laid: Laid, worked: shapely.Geometry, metal: shapely.Geometry, say: Speaker
) -> tuple[float, float, float, float]:
    """Return what of the metal is shown, ``left, low, right, top`` on the paper: the cut and room inside of it."""
    left, low, right, top = metal.bounds
    first, under, last, upper = worked.bounds
    if shape.flap is not None:
        fold, *flap = (y for _, y in laid(np.vstack([shape.flap.hinge[:1], shape.flap.flap])))
        if min(flap) < fold:
            upper = fold + min(max(upper - fold, STRIP), HEM_STRIP)
        else:
            under = fold - min(max(fold - under, STRIP), HEM_STRIP)
        return max(first, left), max(under, low), min(last, right), min(upper, top)
    words = (width_of(say(pattern.bend_words(bend)), SMALL) for bend, _ in shape.bends)
    room = max([ROOM, *(wide + 2 * INSIDE for wide in words)])
    if shape.one.at_left:
        return first, low, min(last + room, right), top
    return max(first - room, left), low, last, top


def _row(tiles: Sequence[Tile], bars: Block, say: Speaker) -> Block:
    """Return templates beside each other."""
    items: list[Item] = []
    x = 0.0
    for tile in tiles:
        items += moved(_drawn(tile, say), (x, 0.0))
        x += tile.wide + APART
    return Block(_deep(tiles), tuple(items), bars)


def _drawn(tile: Tile, say: Speaker) -> Iterator[Item]:
    """Yield what a tile shows: the metal, its bends and folds, and the strip to glue."""
    one, laid = tile.shape.one, tile.laid.moved((0.0, -tile.above))
    for k, text in enumerate(tile.title):
        yield Words(text, (0.0, -0.14 - BODY * LINE * k), BODY, bold=True, color=INK, name="template")
    under = -0.3 - BODY * LINE * (len(tile.title) - 1)
    for k, text in enumerate(tile.told):
        yield Words(text, (0.0, under - SMALL * LINE * k), SMALL, color=SOFT, name="marks")
    window = tile.window.buffer(1e-6, join_style="mitre")
    yield from pattern.metal_items(one.part, laid, window, 0.012)
    yield from pattern.bend_items(one.part, laid, window, 0.007)
    yield from pattern.tab_folds(one.end, laid, window)
    if tile.shape.hinge is None and tile.number == (tile.count if one.at_left else 1):
        yield from _bends(tile, laid, say)
    if tile.count > 1:
        frame = rectangle(0.0, -tile.above - tile.size[1], tile.size[0], -tile.above)
        yield Stroke(frame, 0.004, SOFT, (0.02, 0.04), True, "tile")


def _bends(tile: Tile, laid: Laid, say: Speaker) -> Iterator[Words]:
    """Yield the words of the bends, on the metal inside of the cut."""
    at_left = tile.shape.one.at_left
    for bend, v in tile.shape.bends:
        [(_, y)] = laid(np.array([[0.0, v]]))
        up = INSIDE if y + tile.above < -SMALL - 2 * INSIDE else -SMALL - INSIDE
        at = (tile.size[0] - INSIDE if at_left else INSIDE, y + up)
        yield Words(say(pattern.bend_words(bend)), at, SMALL, "end" if at_left else "start", name="bend")


def bars_for(width: float, say: Speaker) -> Block:
    """Return the bars that show whether the printer kept the scale, with what is said of each."""
    room = width - BARS[0][0] - BESIDE
    bars = BARS if say.tape.style == "feet" else BARS[1:]
    told = [
        say(
            "Full size, painted side up. {length}: if this bar is not, print again at 100 %.",
            length=bars[0][1],
        ),
        *(
            say("{length}. If this bar is not, print again at 100 %, unfitted.", length=name)
            for _, name in bars[1:]
        ),
    ]
    items: list[Item] = []
    y = -0.14
    for says, (length, name) in zip(told, bars, strict=True):
        texts = wrapped(says, SMALL, room)
        items.append(Stroke(((0.0, y), (length, y)), 0.012, INK, name=f"bar {name}"))
        items += [Stroke(((x, y - 0.06), (x, y + 0.06)), 0.008, INK, name="tick") for x in (0.0, length)]
        first = y - SMALL * 0.36 + SMALL * LINE * (len(texts) - 1) / 2
        for row, text in enumerate(texts):
            at = (BARS[0][0] + BESIDE, first - SMALL * LINE * row)
            items.append(Words(text, at, SMALL, name="bar"))
        y -= max(STEP, len(texts) * SMALL * LINE + 0.04)
    return Block(-y + 0.06, tuple(items), keep=True)
