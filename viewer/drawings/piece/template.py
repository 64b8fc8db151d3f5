"""Full-size templates: the ends of every piece at 1:1, painted side up, in tiles over the pages of a printer."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part

from ...data.traces import is_mirrored
from ..ink.drawing import Area, Drawing, Item, Stroke, Words
from ..ink.letters import width_of
from ..ink.shapes import rectangle
from ..ink.style import INK, SMALL, SOFT
from ..paper.page import Box, Imprint, Paper, body_of, framed
from . import pattern
from .batches import Batch, batches
from .placement import Plate, strokes

Array = NDArray[np.float64]

OVERLAP = 0.25
"""How far neighbouring tiles share what they show, inches: the strip to glue."""

ROOM = 1.0
"""How far a template runs on past the last cut of its end, inches."""

LABEL = 0.75
"""Room beside it for the words of its bends, inches."""

BARS = ((4.0, "4 in"), (100 / 25.4, "100 mm"))
"""Lengths to check the printer's scale with."""

STRIP = 0.62
"""Height of the strip with these bars, inches."""


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
    part = batch.first
    body = body_of(paper)
    tile = Box(body.left, body.low + STRIP, body.right, body.top - 0.2)
    u0, u1, v0, v1 = _extent(part, end)
    columns = _count(u1 - u0, tile.width)
    rows = _count(v1 - v0, tile.height)
    name = f"Template {batch.title}, {end.at} end"
    tiles = [
        list(_tile(part, end, tile, (u0, u1, v0, v1), (number % columns, number // columns), (columns, rows)))
        for number in range(rows * columns)
    ]
    tiles = [
        items for items in tiles if any(item.name == "metal" for item in items if isinstance(item, Area))
    ]
    return [
        framed(
            name if number == 1 else f"{name}, continued",
            [*items, *_bars(body)],
            paper,
            imprint,
            f"tile {number} of {len(tiles)}" if len(tiles) > 1 else "",
        )
        for number, items in enumerate(tiles, start=1)
    ]


def _extent(part: Part, end: End) -> tuple[float, float, float, float]:
    """Return the lowest and highest ``u`` and ``v`` that an end's template takes, its words included, inches."""
    low, high = part.sheet.extent
    near, far = end.reach
    u0, u1 = (
        (near, min(far + ROOM, high) + LABEL) if end.at == "low" else (max(near - ROOM, low) - LABEL, far)
    )
    _, inboard, _, outboard = part.sheet.pattern.bounds
    return u0, u1, inboard, outboard


def _count(length: float, room: float) -> int:
    """Return how many tiles ``room`` wide it takes to show ``length``, inches."""
    return max(1, math.ceil((length - OVERLAP) / (room - OVERLAP) - 1e-9))


def _tile(
    part: Part,
    end: End,
    tile: Box,
    extent: tuple[float, float, float, float],
    place: tuple[int, int],
    count: tuple[int, int],
) -> Iterator[Item]:
    """Yield what one tile shows: the metal, its bends and folds, and the marks to join it to its neighbours."""
    u0, u1, v0, v1 = extent
    mirrored = is_mirrored(part)
    across, down = place
    inner = u1 - LABEL if end.at == "low" else u0 + LABEL
    outward = 1.0 if (end.at == "low") != mirrored else -1.0
    shift_x, shift_y = across * (tile.width - OVERLAP), down * (tile.height - OVERLAP)
    # The paper's x of u0 on a page as wide as all tiles together, less what lies left of this tile.
    x = tile.left - shift_x + (u1 - u0 if mirrored else 0.0)
    plate = Plate(u0, (x, tile.top + shift_y + v0), 1.0, mirrored)
    ends = (plate.x(u0), plate.x(inner)) if end.at == "low" else (plate.x(inner), plate.x(u1))
    left, right = max(tile.left, min(ends)), min(tile.right, max(ends))
    low, high = max(tile.low, plate.y(v1)), min(tile.top, plate.y(v0))
    window = shapely.box(left - 1e-6, low - 1e-6, right + 1e-6, high + 1e-6)

    def cut(
        line: shapely.Geometry, width: float, color: str, dash: tuple[float, ...], name: str
    ) -> list[Item]:
        there = shapely.transform(line, lambda points: np.array(plate(points)).reshape(-1, 2))
        return strokes(there.intersection(window), _as_points, width, color, dash, name)

    flat = shapely.transform(part.sheet.pattern, lambda points: np.array(plate(points)).reshape(-1, 2))
    for piece in shapely.get_parts(flat.intersection(window)):
        if piece.geom_type == "Polygon" and not piece.is_empty:
            rings = (piece.exterior, *piece.interiors)
            yield Area(
                tuple(_as_points(shapely.get_coordinates(r)[:-1]) for r in rings), pattern.METAL, "metal"
            )
    outline = shapely.LinearRing(part.sheet.outline)
    yield from cut(outline, 0.012, INK, (), "outline")
    for hole in part.sheet.holes:
        yield from cut(shapely.LinearRing(hole), 0.012, INK, (), "outline")
    for bend, v in pattern.bend_lines(part):
        line = shapely.LineString([(u0 - 1, v), (u1 + 1, v)]).intersection(
            shapely.Polygon(part.sheet.outline)
        )
        away = bend.angle > 0
        yield from _label(pattern.bend_words(bend), plate.x(inner), plate.y(v), outward, tile)
        dash = pattern.DOWN if away else pattern.UP
        yield from cut(line, 0.007, INK, dash, "bend down" if away else "bend up")
    for tab in end.cut.tabs:
        yield from cut(shapely.LineString(tab.hinge), 0.012, pattern.GREEN, pattern.FOLD, "fold")
    yield from _joining(tile, place, count)
    side = "right" if mirrored else "left"
    says = f"Full size, painted side up. Low end at the {side}. Check the bars below before you cut."
    yield Words(says, (tile.left, tile.top + 0.07), SMALL, bold=True, color=INK, name="caption")


def _label(text: str, inner: float, y: float, outward: float, tile: Box) -> Iterator[Words]:
    """Yield a bend's words beside its inner end, or over it where the tile ends; clear of the crosses."""
    if not (tile.left <= inner <= tile.right and tile.low <= y <= tile.top):
        return
    long = width_of(text, SMALL)
    wanted = inner + 0.08 if outward > 0 else inner - 0.08 - long
    x = min(max(wanted, tile.left + OVERLAP), tile.right - OVERLAP - long)
    rise = -SMALL * 0.36 if x == wanted else 0.04
    base = min(max(y + rise, tile.low + OVERLAP), tile.top - OVERLAP - SMALL)
    yield Words(text, (x, base), SMALL, name="bend")


def _as_points(points: Array) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in points)


def _joining(tile: Box, place: tuple[int, int], count: tuple[int, int]) -> Iterator[Item]:
    """Yield the frame of a tile, with a cross at both ends of every line where a neighbour goes on."""
    (across, down), (columns, rows) = place, count
    if columns * rows == 1:
        return
    yield Stroke(
        rectangle(tile.left, tile.low, tile.right, tile.top), 0.004, SOFT, (0.02, 0.04), True, "tile"
    )
    half = OVERLAP / 2
    lines = []
    if across > 0:
        lines.append(((tile.left + half, tile.low), (tile.left + half, tile.top)))
    if across < columns - 1:
        lines.append(((tile.right - half, tile.low), (tile.right - half, tile.top)))
    if down > 0:
        lines.append(((tile.left, tile.top - half), (tile.right, tile.top - half)))
    if down < rows - 1:
        lines.append(((tile.left, tile.low + half), (tile.right, tile.low + half)))
    for (x0, y0), (x1, y1) in lines:
        for share in (0.12, 0.88):
            x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
            yield Stroke(((x - 0.1, y), (x + 0.1, y)), 0.006, INK, name="register")
            yield Stroke(((x, y - 0.1), (x, y + 0.1)), 0.006, INK, name="register")


def _bars(body: Box) -> Iterator[Item]:
    """Yield the bars that show whether the printer kept the scale."""
    for k, (length, says) in enumerate(BARS):
        y = body.low + 0.36 - 0.22 * k
        yield Stroke(((body.left, y), (body.left + length, y)), 0.012, INK, name=f"bar {says}")
        for x in (body.left, body.left + length):
            yield Stroke(((x, y - 0.06), (x, y + 0.06)), 0.008, INK, name="tick")
        words = f"{says}. If this bar is not, print again at 100 %, unfitted."
        yield Words(words, (body.left + BARS[0][0] + 0.12, y - SMALL * 0.36), SMALL, name="bar")
