"""Where the short pieces land: which pieces are the remainder of their run, how long, and at which end."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Message, message
from trimwright.model.runs import Run
from trimwright.model.tolerances import LEVEL


@dataclass(frozen=True, slots=True)
class PlaceInRun:
    """Where a piece lies in its run.

    Attributes:
        name: The end that it lies at, or how many from the low end: ``right end``, ``no. 4 of 5``.
        at: The same as it stands in a sentence: ``at the right end``, ``as no. 4 of 5``.
    """

    name: Message
    at: Message


@dataclass(frozen=True, slots=True)
class ShortPiece:
    """A piece that was cut to what its run had left.

    Attributes:
        mark: The piece's.
        run: Name of its run.
        length: Of the metal, inches.
        spot: Where in its run it lands.
    """

    mark: str
    run: str
    length: float
    spot: PlaceInRun


def short_pieces(layout: Layout) -> tuple[ShortPiece, ...]:
    """Return the short pieces of every run that has one, run by run."""
    found = []
    for _, group in groupby(layout.parts, key=lambda part: part.run.name):
        parts = list(group)
        found += [
            ShortPiece(part.mark, part.run.name, part.length, spot_of(part, len(parts)))
            for part in parts
            if part.piece.short
        ]
    return tuple(found)


def shortest_first(layout: Layout) -> list[ShortPiece]:
    """Return the short pieces of all runs, the shortest first; of those as long as each other, run by run."""
    return sorted(short_pieces(layout), key=lambda piece: round(piece.length, 6))


def spot_of(part: Part, count: int) -> PlaceInRun:
    """Return where a piece lies among the ``count`` of its run: which end, or how many from it."""
    number = part.piece.number
    low, high = spots_of(part.run)
    if number == 1:
        return low
    if number == count:
        return high
    return PlaceInRun(
        message("no. {number} of {count}", number=number, count=count),
        message("as no. {number} of {count}", number=number, count=count),
    )


def ends_of(run: Run) -> tuple[Message, Message]:
    """Return the names of a run's two ends, as a person at the edge says them."""
    low, high = spots_of(run)
    return low.name, high.name


def spots_of(run: Run) -> tuple[PlaceInRun, PlaceInRun]:
    """Return a run's two ends."""
    edge = run.edge
    if abs(edge.slope) > LEVEL:
        return LOW, HIGH
    if len(edge.faces) == 1 or abs(edge.direction[0]) >= abs(edge.direction[1]):
        return LEFT, RIGHT
    return FRONT, BACK


LOW = PlaceInRun(message("low end"), message("at the low end"))
HIGH = PlaceInRun(message("high end"), message("at the high end"))
LEFT = PlaceInRun(message("left end"), message("at the left end"))
RIGHT = PlaceInRun(message("right end"), message("at the right end"))
FRONT = PlaceInRun(message("front end"), message("at the front end"))
BACK = PlaceInRun(message("back end"), message("at the back end"))
"""The ends of runs."""
