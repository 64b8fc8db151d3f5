"""Where the short pieces land: which pieces are the remainder of their run, how long, and at which end."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from trimwright.model.layout import Layout, Part
from trimwright.model.runs import Run
from trimwright.model.tolerances import LEVEL


@dataclass(frozen=True, slots=True)
class ShortPiece:
    """A piece that was cut to what its run had left.

    Attributes:
        mark: The piece's.
        run: Name of its run.
        length: Of the metal, inches.
        where: The end of the run that it lands at, as a person at the edge says it.
    """

    mark: str
    run: str
    length: float
    where: str

    @property
    def place(self) -> str:
        """Where it lands, as it stands in a sentence: ``at the right end``, ``as no. 4 of 5``."""
        return f"as {self.where}" if self.where.startswith("no.") else f"at the {self.where}"


def short_pieces(layout: Layout) -> tuple[ShortPiece, ...]:
    """Return the short pieces of every run that has one, run by run."""
    found = []
    for _, group in groupby(layout.parts, key=lambda part: part.run.name):
        parts = list(group)
        found += [
            ShortPiece(part.mark, part.run.name, part.length, where_of(part, len(parts)))
            for part in parts
            if part.piece.short
        ]
    return tuple(found)


def shortest_first(layout: Layout) -> list[ShortPiece]:
    """Return the short pieces of all runs, the shortest first; of those as long as each other, run by run."""
    return sorted(short_pieces(layout), key=lambda piece: round(piece.length, 6))


def where_of(part: Part, count: int) -> str:
    """Return where a piece lies among the ``count`` of its run: which end, or how many from it."""
    number = part.piece.number
    low, high = ends_of(part.run)
    if number == 1:
        return low
    if number == count:
        return high
    return f"no. {number} of {count}"


def ends_of(run: Run) -> tuple[str, str]:
    """Return the names of a run's two ends."""
    edge = run.edge
    if abs(edge.slope) > LEVEL:
        return "low end", "high end"
    if len(edge.faces) == 1:
        return "left end", "right end"
    along_x = abs(edge.direction[0]) >= abs(edge.direction[1])
    return ("left end", "right end") if along_x else ("front end", "back end")
