"""Shapes that drawings are made of: lines of text, rectangles, circles, arrows and hatching."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .drawing import Anchor, Area, Item, Point, Stroke, Words
from .style import BODY, INK, LINE, SMALL, SOFT


def lines(
    texts: Iterable[str],
    top: Point,
    size: float = BODY,
    anchor: Anchor = "start",
    bold: bool = False,
    color: str = INK,
    spacing: float = LINE,
) -> list[Item]:
    """Return lines of text under each other, the first right under ``top``; ``spacing`` is a share of their size."""
    x, y = top
    return [
        Words(text, (x, y - size * (0.95 + spacing * k)), size, anchor, bold=bold, color=color)
        for k, text in enumerate(texts)
    ]


def rectangle(left: float, low: float, right: float, top: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle."""
    return ((left, low), (right, low), (right, top), (left, top))


def circle(center: Point, radius: float, sides: int = 24) -> tuple[Point, ...]:
    """Return the corners of a polygon that reads as a circle."""
    turns = (2 * math.pi * k / sides for k in range(sides))
    return tuple((center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns)


def numbered(number: int, at: Point, radius: float) -> list[Item]:
    """Return a number in a dark disc, ``radius`` inches."""
    number_at = (at[0], at[1] - SMALL * 0.36)
    return [
        Area((circle(at, radius),), INK, "number"),
        Words(str(number), number_at, SMALL, "middle", bold=True, color="#ffffff", name="number"),
    ]


def arrow(tail: Point, tip: Point, width: float = 0.012, color: str = INK, head: float = 0.08) -> list[Item]:
    """Return an arrow with a filled head."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    length = math.hypot(dx, dy)
    ux, uy = dx / length, dy / length
    base = (tip[0] - ux * head, tip[1] - uy * head)
    side = head * 0.36
    barb = ((base[0] - uy * side, base[1] + ux * side), (base[0] + uy * side, base[1] - ux * side))
    return [Stroke((tail, base), width, color, name="arrow"), Area(((tip, *barb),), color, "arrow")]


def hatched(left: float, low: float, right: float, top: float, step: float = 0.07) -> list[Item]:
    """Return slanted lines that fill a rectangle."""
    items: list[Item] = []
    height = top - low
    x = left - height + step / 2
    while x < right:
        a, b = max(left, x), min(right, x + height)
        if b > a:
            items.append(Stroke(((a, low + a - x), (b, low + b - x)), 0.004, SOFT, name="lap"))
        x += step
    return items
