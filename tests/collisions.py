"""Collisions on paper: where text runs over other text, over the drawing, or off the page."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
import shapely

from trimwright.viewer.drawings.ink.drawing import Drawing, Stroke, Words
from trimwright.viewer.drawings.ink.letters import ASCENT, DESCENT, width_of

LEAST = 8 / 72
"""The smallest text that may stand on paper, inches."""

BORDER = 0.4
"""What stays white at the edge of the paper, inches."""


def box_of(words: Words, slack: float = 0.01) -> shapely.Polygon:
    """Return the rectangle that a line of text fills, ``slack`` inches smaller all round."""
    width = width_of(words.text, words.size, words.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[words.anchor]
    corners = np.array(
        [
            [left + slack, -DESCENT * words.size + slack],
            [left + width - slack, -DESCENT * words.size + slack],
            [left + width - slack, ASCENT * words.size - slack],
            [left + slack, ASCENT * words.size - slack],
        ]
    )
    turn = math.radians(words.angle)
    matrix = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    return shapely.Polygon(corners @ matrix + words.at)


def collisions(drawing: Drawing, beside: Iterable[str] = ("leader", "sample")) -> list[str]:
    """Return what collides on a page, one sentence each.

    Args:
        drawing: The page.
        beside: Names of strokes that text may touch.
    """
    words = [item for item in drawing.items if isinstance(item, Words) and item.text.strip()]
    boxes = np.array([box_of(item) for item in words])
    found = [
        f"{item.text!r} is set in {item.size * 72:.1f} points" for item in words if item.size < LEAST - 1e-9
    ]
    width, height = drawing.size
    paper = shapely.box(BORDER, BORDER, width - BORDER, height - BORDER)
    inside = shapely.covers(paper, boxes)
    found += [f"{item.text!r} runs off the page" for item, ok in zip(words, inside, strict=True) if not ok]
    tree = shapely.STRtree(boxes)
    first, second = tree.query(boxes, predicate="intersects")
    found += [
        f"{words[a].text!r} runs over {words[b].text!r}" for a, b in zip(first, second, strict=True) if a < b
    ]
    free = set(beside)
    strokes = [item for item in drawing.items if isinstance(item, Stroke) and item.name not in free]
    if strokes:
        lines = np.array([_line(stroke) for stroke in strokes])
        text, line = shapely.STRtree(lines).query(boxes, predicate="intersects")
        found += [f"{words[a].text!r} runs over a {strokes[b].name}" for a, b in zip(text, line, strict=True)]
    return found


def _line(stroke: Stroke) -> shapely.LineString:
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    return shapely.LineString(points)
