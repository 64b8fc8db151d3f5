"""A drawing: strokes, areas and words on a piece of paper. What is drawn is decided once, writers write it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line.

    Attributes:
        points: Inches on the paper, from its lower left corner, y up.
        width: Inches.
        color: ``#rrggbb``.
        dash: Lengths of dash and gap, inches; empty for a whole line.
        closed: It goes back to its first point.
        name: What it is, for tests and for layers: ``outline``, ``bend up``, ``bend down``, ``mark``, ``cut``.
    """

    points: tuple[Point, ...]
    width: float = 0.01
    color: str = "#000000"
    dash: tuple[float, ...] = ()
    closed: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area.

    Attributes:
        rings: Outer ring and holes, inches on the paper.
        color: ``#rrggbb``.
        name: What it is.
    """

    rings: tuple[tuple[Point, ...], ...]
    color: str
    name: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text.

    Attributes:
        text: What it says.
        at: Its anchor on the base line, inches on the paper.
        size: Height of its letters' body, inches.
        anchor: Which end of it stands at ``at``.
        angle: Degrees counter-clockwise.
        bold: Set in bold.
        color: ``#rrggbb``.
        name: What it is.
    """

    text: str
    at: Point
    size: float = 0.12
    anchor: Anchor = "start"
    angle: float = 0.0
    bold: bool = False
    color: str = "#000000"
    name: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A raster picture, such as the cover's.

    Attributes:
        file: Path of a PNG file.
        at: Its lower left corner, inches on the paper.
        size: Width and height, inches on the paper.
        says: What it shows, for those who cannot see it.
    """

    file: str
    at: Point
    size: Point
    says: str


Item = Stroke | Area | Words | Picture


@dataclass(frozen=True, slots=True)
class Drawing:
    """One page.

    Attributes:
        title: What it is called, in contents and outline.
        size: Width and height of the paper, inches.
        items: What is on it, lowest first.
    """

    title: str
    size: Point
    items: tuple[Item, ...]


def moved(items: Iterable[Item], by: Point) -> tuple[Item, ...]:
    """Return ``items`` shifted on the paper."""

    def there(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    result: list[Item] = []
    for item in items:
        match item:
            case Stroke():
                result.append(replace(item, points=tuple(map(there, item.points))))
            case Area():
                result.append(replace(item, rings=tuple(tuple(map(there, ring)) for ring in item.rings)))
            case Words() | Picture():
                result.append(replace(item, at=there(item.at)))
    return tuple(result)
