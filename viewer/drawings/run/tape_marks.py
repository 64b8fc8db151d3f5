"""Rows of tape marks: each a number to read on the piece and one to read along the roof edge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...words.speaker import Speaker
from ..ink.drawing import Anchor, Item, Stroke, Words
from ..ink.label_row import spread
from ..ink.letters import ASCENT, width_of
from ..ink.style import INK, SMALL, SOFT
from ..paper.flow import Block

FARTHEST = 0.5
"""Where a label would stand farther than this from its mark, all of its row is turned upright, inches."""

LEADER = 0.17
"""Height of a leader's bent part, inches."""

UPRIGHT = SMALL * 1.25
"""Room that a label takes in a row that is turned upright, inches."""

CLEAR = LEADER + 0.03
"""From the piece to the labels, inches."""

BARE = 0.03
"""The same where no piece is drawn and no leader leads to it, inches."""


@dataclass(frozen=True, slots=True)
class TapeMark:
    """A tape mark.

    Attributes:
        x: Where it lies on the paper, inches.
        own: Reads from the piece's low end.
        edge: Reads from the low end of the roof edge; empty where the drawing serves several pieces.
        screw: It is a screw, not an end of the piece.
    """

    x: float
    own: str
    edge: str
    screw: bool


@dataclass(frozen=True, slots=True)
class RowNames:
    """What the two lines of a row of tape marks are called.

    Attributes:
        own: That which reads from the piece's low end.
        edge: That which reads from the low end of the roof edge.
    """

    own: str
    edge: str

    @property
    def width(self) -> float:
        """Of the longer of them, inches."""
        return max(width_of(f"{self.own} |", SMALL, bold=True), width_of(self.edge, SMALL, bold=True))


def row_names(say: Speaker) -> RowNames:
    """Return the names in the reader's language."""
    return RowNames(say("on the piece"), say("on the edge"))


def mark_row(
    marks: Sequence[TapeMark], names: RowNames, room: tuple[float, float], *, up: bool, bare: bool = False
) -> Block:
    """Return labels and leaders for the marks of one row; the piece lies at their y = 0.

    Args:
        marks: Of the row, in any order.
        names: What stands left of its two lines.
        room: From where to where labels may stand, inches on the paper; the row's name stands left of it.
        up: The row stands above the piece.
        bare: No piece is drawn: there are no leaders.

    Raises:
        ValueError: There are more marks than fit the room, each ``UPRIGHT`` wide.
    """
    if not marks:
        return Block(0.0, ())
    marks = sorted(marks, key=lambda mark: mark.x)
    widths = [max(width_of(mark.own, SMALL, bold=True), width_of(mark.edge, SMALL)) + 0.09 for mark in marks]
    places = spread([mark.x for mark in marks], widths, *room)
    if places is None or max(abs(at - mark.x) for at, mark in zip(places, marks, strict=True)) > FARTHEST:
        return _upright(marks, names, room, up, bare)
    line, edged = SMALL * 1.2, any(mark.edge for mark in marks)
    clear = BARE if bare else CLEAR
    first = clear + line * edged if up else -clear - SMALL * ASCENT
    items: list[Item] = [Words(names.own, (0.0, first), SMALL, bold=True, color=INK, name="row")]
    for mark, at in zip(marks, places, strict=True):
        items.append(Words(mark.own, (at, first), SMALL, "middle", bold=True, color=INK, name="tape mark"))
        if not bare:
            items.append(_leader(at, mark, up))
        if edged:
            edge = Words(mark.edge, (at, first - line), SMALL, "middle", color=SOFT, name="edge mark")
            items.append(edge)
    if edged:
        items.append(Words(names.edge, (0.0, first - line), SMALL, color=SOFT, name="row"))
    return Block((1 + edged) * line + clear, tuple(items))


def _upright(
    marks: Sequence[TapeMark], names: RowNames, room: tuple[float, float], up: bool, bare: bool
) -> Block:
    """Return the same row with its labels turned upright, for screws that stand close."""
    places = spread([mark.x for mark in marks], [UPRIGHT] * len(marks), *room)
    if places is None:
        raise ValueError(f"{len(marks)} marks in a row of {room[1] - room[0]:.1f} in")
    edged = any(mark.edge for mark in marks)
    texts = [f"{mark.own} | {mark.edge}" if edged else mark.own for mark in marks]
    tall = max(width_of(text, SMALL, bold=True) for text in texts)
    anchor: Anchor = "start" if up else "end"
    clear = BARE if bare else CLEAR
    items: list[Item] = []
    for mark, text, at in zip(marks, texts, places, strict=True):
        foot = (at + SMALL * ASCENT / 2, clear if up else -clear)
        items.append(Words(text, foot, SMALL, anchor, 90.0, bold=True, color=INK, name="tape mark"))
        if not bare:
            items.append(_leader(at, mark, up))
    middle = (clear + tall / 2) * (1 if up else -1)
    own = f"{names.own} |" if edged else names.own
    items.append(Words(own, (0.0, middle + 0.02), SMALL, bold=True, color=INK, name="row"))
    if edged:
        below = (0.0, middle - 0.02 - SMALL)
        items.append(Words(names.edge, below, SMALL, bold=True, color=INK, name="row"))
    return Block(clear + tall, tuple(items))


def _leader(label: float, mark: TapeMark, up: bool) -> Stroke:
    side = 1.0 if up else -1.0
    points = ((label, side * LEADER), (mark.x, side * 0.05), (mark.x, 0.0))
    return Stroke(points, 0.006 if mark.screw else 0.012, SOFT if mark.screw else INK, name="leader")
