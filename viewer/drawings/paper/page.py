"""A leaf of the packet: paper, margins, and what stands at its head and foot."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from trimwright.model.units import Tape

from ...report.words import CAUTIONS
from ..ink.drawing import Drawing, Item, Point, Stroke, Words
from ..ink.letters import shortened, width_of, wrapped
from ..ink.shapes import lines
from ..ink.style import BODY, INK, SMALL, SOFT, TITLE

Paper = Literal["letter", "a4"]

PAPERS: dict[Paper, Point] = {"letter": (8.5, 11.0), "a4": (210 / 25.4, 297 / 25.4)}
"""Width and height, inches."""

MARGIN = 0.5
"""What printers leave white, inches, and a hand's hold on the paper."""


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
    foot += lines(wrapped(str(CAUTIONS), SMALL, right - left), (left, top - 0.03), SMALL, color=SOFT)
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
