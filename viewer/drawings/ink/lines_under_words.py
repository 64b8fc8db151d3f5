"""Lines broken where words stand on them, so that the words are read and nothing is printed twice."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import shapely
import shapely.affinity

from .drawing import Item, Point, Stroke, Words
from .letters import ASCENT, DESCENT, width_of

ROOM = 0.025
"""White round the words, inches."""


def cleared(items: Iterable[Item], names: Collection[str]) -> list[Item]:
    """Return ``items`` with the strokes called one of ``names`` broken at all words among them."""
    items = list(items)
    words = shapely.union_all([place_of(item) for item in items if isinstance(item, Words)])
    shapely.prepare(words)
    result: list[Item] = []
    for item in items:
        if isinstance(item, Stroke) and item.name in names:
            result += _broken(item, words)
        else:
            result.append(item)
    return result


def place_of(words: Words) -> shapely.Polygon:
    """Return the rectangle that a line of text takes, with the white round it."""
    width = width_of(words.text, words.size, words.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[words.anchor]
    low, high = -DESCENT * words.size, ASCENT * words.size
    box = shapely.box(left - ROOM, low - ROOM, left + width + ROOM, high + ROOM)
    return shapely.affinity.translate(shapely.affinity.rotate(box, words.angle, origin=(0.0, 0.0)), *words.at)


def _broken(stroke: Stroke, words: shapely.Geometry) -> list[Item]:
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    line = shapely.LineString(points)
    if not words.intersects(line):
        return [stroke]
    left = line.difference(words)
    parts = [part for part in getattr(left, "geoms", [left]) if part.length > 1e-6]
    return [
        Stroke(_points(part), stroke.width, stroke.color, stroke.dash, name=stroke.name) for part in parts
    ]


def _points(line: shapely.LineString) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in line.coords)
