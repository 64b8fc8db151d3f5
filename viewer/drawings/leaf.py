"""A leaf of the packet: paper, margins, and what stands at its head and foot."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from trimwright.model.units import Tape

from ..report.words import CAUTIONS
from .drawing import Anchor, Area, Drawing, Item, Point, Stroke, Words
from .letters import shortened, width_of, wrapped

Paper = Literal["letter", "a4"]

PAPERS: dict[Paper, Point] = {"letter": (8.5, 11.0), "a4": (210 / 25.4, 297 / 25.4)}
"""Width and height, inches."""

MARGIN = 0.5
"""What printers leave white, inches, and a hand's hold on the paper."""

SMALL = 8 / 72
BODY = 9.5 / 72
LARGE = 12 / 72
TITLE = 20 / 72
"""Sizes of text, inches: 8, 9.5, 12 and 20 points."""

LINE = 1.3
"""Distance from line to line, as a share of the text's size."""

INK = "#111111"
SOFT = "#5a5a5a"
FAINT = "#b4b4b4"
WASH = "#ececec"
"""Shades that stay apart in black and white."""

HEAD = 0.62
FOOT = 0.72
"""Heights of the title strip and of the foot with its cautions, inches."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What every leaf of a packet says.

    Attributes:
        title: The scene's.
        date: Of the scene's file; empty when it is unknown.
    """

    title: str
    date: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the paper, inches.

    Attributes:
        left: Its left side.
        low: Its bottom.
        right: Its right side.
        top: Its top.
    """

    left: float
    low: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From side to side, inches."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top, inches."""
        return self.top - self.low


def paper_for(show: Tape) -> Paper:
    """Return the paper that is at hand where lengths are written like this."""
    return "letter" if show.style == "feet" else "a4"


def body_of(paper: Paper) -> Box:
    """Return the part of a leaf between its head and its foot."""
    width, height = PAPERS[paper]
    return Box(MARGIN, MARGIN + FOOT, width - MARGIN, height - MARGIN - HEAD)


def framed(title: str, items: Iterable[Item], paper: Paper, imprint: Imprint, aside: str = "") -> Drawing:
    """Return a leaf with its title at the head, and the scene, its date and the cautions at the foot.

    Args:
        title: At the head, left; also the drawing's title.
        items: What is on it, inside of ``body_of(paper)``.
        paper: Its size.
        imprint: What every leaf says.
        aside: At the head, right.
    """
    width, height = PAPERS[paper]
    left, right = MARGIN, width - MARGIN
    base = height - MARGIN - TITLE
    aside_width = width_of(aside, BODY) if aside else 0.0
    room = right - left - aside_width - (0.25 if aside else 0.0)
    size = min(TITLE, TITLE * room / max(width_of(title, TITLE, bold=True), 1e-9))
    head: list[Item] = [
        Words(title, (left, base), size, bold=True, color=INK, name="title"),
        Stroke(((left, base - 0.14), (right, base - 0.14)), 0.02, INK, name="rule"),
    ]
    if aside:
        head.append(Words(aside, (right, base), BODY, "end", color=SOFT, name="aside"))
    top = MARGIN + FOOT - 0.16
    foot: list[Item] = [Stroke(((left, top), (right, top)), 0.008, SOFT, name="rule")]
    foot += lines(wrapped(CAUTIONS, SMALL, right - left), (left, top - 0.03), SMALL, color=SOFT)
    words = "  ·  ".join(
        part for part in (imprint.title, imprint.date and f"scene of {imprint.date}") if part
    )
    words = shortened(words, SMALL, right - left - 1.3)
    foot.append(Words(words, (left, MARGIN), SMALL, color=INK, name="imprint"))
    return Drawing(title, (width, height), (*head, *items, *foot))


def numbered(drawing: Drawing, number: int, count: int) -> Drawing:
    """Return ``drawing`` with its page number at the foot."""
    words = Words(
        f"Page {number} of {count}", (drawing.size[0] - MARGIN, MARGIN), SMALL, "end", bold=True, name="page"
    )
    return Drawing(drawing.title, drawing.size, (*drawing.items, words))


def lines(
    texts: Iterable[str],
    top: Point,
    size: float = BODY,
    anchor: Anchor = "start",
    bold: bool = False,
    color: str = INK,
) -> list[Item]:
    """Return lines of text under each other, the first right under ``top``."""
    x, y = top
    return [
        Words(text, (x, y - size * (0.95 + LINE * k)), size, anchor, bold=bold, color=color)
        for k, text in enumerate(texts)
    ]


def rectangle(left: float, low: float, right: float, top: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle."""
    return ((left, low), (right, low), (right, top), (left, top))


def circle(center: Point, radius: float, sides: int = 24) -> tuple[Point, ...]:
    """Return the corners of a polygon that reads as a circle."""
    turns = (2 * math.pi * k / sides for k in range(sides))
    return tuple((center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns)


def arrow(tail: Point, tip: Point, width: float = 0.012, color: str = INK, head: float = 0.08) -> list[Item]:
    """Return an arrow with a filled head."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    length = math.hypot(dx, dy)
    ux, uy = dx / length, dy / length
    base = (tip[0] - ux * head, tip[1] - uy * head)
    side = head * 0.36
    barb = ((base[0] - uy * side, base[1] + ux * side), (base[0] + uy * side, base[1] - ux * side))
    return [Stroke((tail, base), width, color, name="arrow"), Area(((tip, *barb),), color, "arrow")]
