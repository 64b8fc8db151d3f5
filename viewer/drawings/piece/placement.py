"""Placement: where the flat sheet lies on the paper, painted side up, and the rows of tape marks beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import shapely

from trimwright.model.geometry.arrays import Array

from ..ink.drawing import Item, Point, Stroke, Words
from ..ink.label_row import spread
from ..ink.letters import ASCENT, width_of
from ..ink.style import SMALL, SOFT

PITCH = SMALL * 1.12
"""Room that one line of a row of tape marks takes, inches."""

LEADER = 0.22
"""How far a row of tape marks stands off what it measures, inches."""


Place = Callable[[Array], tuple[Point, ...]]
"""Puts ``(n, 2)`` points of the sheet on the paper."""


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a flat sheet lies on the paper.

    Level and left-hand pieces have their low end at the left, right-hand pieces at the right; the inboard edge
    is on top. So the painted side is up.

    Attributes:
        start: ``u`` at the paper's ``origin``, inches.
        origin: Place of ``(start, 0)`` on the paper, inches.
        scale: Inches on the paper for one inch of metal.
        mirrored: The low end is at the right.
    """

    start: float
    origin: Point
    scale: float
    mirrored: bool

    def x(self, u: float) -> float:
        """Return the paper's x of ``u``, inches."""
        return self.origin[0] + (self.start - u if self.mirrored else u - self.start) * self.scale

    def y(self, v: float) -> float:
        """Return the paper's y of ``v``, inches."""
        return self.origin[1] - v * self.scale

    def u(self, x: float) -> float:
        """Return the sheet's ``u`` at a paper's x, inches."""
        along = (x - self.origin[0]) / self.scale
        return self.start - along if self.mirrored else self.start + along

    def v(self, y: float) -> float:
        """Return the sheet's ``v`` at a paper's y, inches."""
        return (self.origin[1] - y) / self.scale

    def __call__(self, points: Array) -> tuple[Point, ...]:
        """Return ``(n, 2)`` sheet points on the paper."""
        return tuple((self.x(float(u)), self.y(float(v))) for u, v in points)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A place on the paper with what a tape reads there.

    Attributes:
        at: The place, inches.
        text: What the tape reads, and what is there.
        bold: It is one that matters more.
    """

    at: Point
    text: str
    bold: bool = False


def merged(marks: Iterable[Dimension], along: Literal[0, 1]) -> list[Dimension]:
    """Return ``marks`` in rising order along an axis, those that read the same only once."""
    seen: dict[str, Dimension] = {}
    for mark in marks:
        seen.setdefault(mark.text, mark)
    return sorted(seen.values(), key=lambda mark: mark.at[along])


def row(marks: Sequence[Dimension], base: float, low: float, high: float, up: bool) -> list[Item]:
    """Return tape marks over or under a pattern: a leader from each place, and what the tape reads, upright.

    Args:
        marks: In rising order of x; there is room for all of them.
        base: Where the leaders bend toward their texts, paper y, inches.
        low: Where the row may begin, paper x, inches.
        high: Where it ends.
        up: The row stands over the pattern.
    """
    places = _places([mark.at[0] for mark in marks], low, high)
    way = 1.0 if up else -1.0
    items: list[Item] = []
    for mark, x in zip(marks, places, strict=True):
        end = base + way * LEADER * 0.7
        items.append(_leader((mark.at, (mark.at[0], base), (x, end))))
        at = (x + SMALL * ASCENT / 2, end + way * 0.03)
        items.append(Words(mark.text, at, SMALL, "start" if up else "end", 90.0, mark.bold, name="tape"))
    return items


def column(marks: Sequence[Dimension], base: float, low: float, high: float, right: bool) -> list[Item]:
    """Return tape marks at the left or right of a pattern, from the highest down; see ``row``."""
    rising = sorted(marks, key=lambda mark: mark.at[1])
    places = _places([mark.at[1] for mark in rising], low, high)
    way = 1.0 if right else -1.0
    items: list[Item] = []
    for mark, y in zip(rising, places, strict=True):
        end = base + way * LEADER * 0.7
        items.append(_leader((mark.at, (base, mark.at[1]), (end, y))))
        at = (end + way * 0.03, y - SMALL * ASCENT / 2)
        items.append(Words(mark.text, at, SMALL, "start" if right else "end", bold=mark.bold, name="tape"))
    return items


def longest(marks: Iterable[Dimension]) -> float:
    """Return the width of the widest text, inches."""
    return max((width_of(mark.text, SMALL, mark.bold) for mark in marks), default=0.0)


def room_for(marks: Sequence[Dimension]) -> float:
    """Return how long a row or column of ``marks`` is at least, inches."""
    return PITCH * len(marks)


def strokes(
    shape: shapely.Geometry,
    place: Place,
    width: float,
    color: str = "#111111",
    dash: tuple[float, ...] = (),
    name: str = "",
) -> list[Item]:
    """Return the lines of ``shape`` as strokes, joined where they go on."""
    lines = shapely.line_merge(shape) if shape.geom_type == "MultiLineString" else shape
    return [
        Stroke(place(shapely.get_coordinates(line)), width, color, dash, name=name)
        for line in shapely.get_parts(lines)
        if line.geom_type in ("LineString", "LinearRing") and line.length > 1e-9
    ]


def _places(wanted: Sequence[float], low: float, high: float) -> list[float]:
    """Return where texts stand; a row too long for its room is let grow past both its ends."""
    if not wanted:
        return []
    short = max(0.0, PITCH * len(wanted) - (high - low)) / 2 + 1e-9
    places = spread(wanted, [PITCH] * len(wanted), low - short, high + short)
    assert places is not None
    return places


def _leader(points: tuple[Point, ...]) -> Stroke:
    return Stroke(points, 0.004, SOFT, name="leader")
