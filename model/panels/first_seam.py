"""Where the seams of a face stand: no sliver and no panel too wide at its ends, clear of screws and laps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..tolerances import POINT

Start = Literal["clear", "left", "right", "centered", "equal"]

GRID = 1 / 4
"""First seams are tried this far apart, inches."""

TRIES = 48
"""So many first seams are looked at closely; what is far from equal ends comes last."""

NARROWEST = 1.0
"""No seam stands nearer to the end of the pans than this, inches: there would be no pan beside it."""


@dataclass(frozen=True, slots=True)
class FaceEnd:
    """The left or the right end of a face.

    Attributes:
        deck: Where the deck ends, inches from the left.
        pan: Where the pans end.
        most: The widest that the end panel may cover of the deck, inches: as wide as its sheet allows.
        least: The narrowest that it should, inches.
        rows: How far inside the deck's edge rows of screws run beside it, inches.
    """

    deck: float
    pan: float
    most: float
    least: float
    rows: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """A face from its left to its right end.

    Attributes:
        left: Its left end.
        right: Its right end.
        cover: From seam to seam, inches.
        off: How far seams keep from rows of screws that run beside them, inches.
    """

    left: FaceEnd
    right: FaceEnd
    cover: float
    off: float

    def seams(self, first: float) -> list[float]:
        """Return where seams stand if one stands at ``first``, as many as there is room for."""
        low, high = self.left.pan + NARROWEST, self.right.pan - NARROWEST
        count = math.floor((first - low) / self.cover + 1e-9)
        found = np.arange(first - count * self.cover, high + POINT, self.cover)
        inside: list[float] = found[(found >= low - POINT) & (found <= high + POINT)].tolist()
        return inside

    def ends(self, seams: Sequence[float]) -> tuple[float, float]:
        """Return how much of the deck the two end panels cover, inches."""
        if not seams:
            return (self.right.deck - self.left.deck,) * 2
        return seams[0] - self.left.deck, self.right.deck - seams[-1]

    def beyond(self, seams: Sequence[float]) -> float:
        """Return by how much the two end panels cover more of the deck than the others, inches."""
        return sum(max(0.0, width - self.cover) for width in self.ends(seams))

    def faults(self, seams: Sequence[float]) -> float:
        """Return how much is wrong at the ends: slivers, end panels too wide, seams along rows of screws."""
        if not seams:
            return 0.0
        wrong = 0.0
        for end, width in zip((self.left, self.right), self.ends(seams), strict=True):
            wrong += max(0.0, width - end.most) + max(0.0, end.least - width)
            wrong += sum(max(0.0, self.off - abs(width - row)) for row in end.rows)
        return wrong


def first_seams(
    span: Span, start: Start, offset: float, meeting: float | None, crowding: Callable[[list[float]], int]
) -> list[float]:
    """Return where the seams of a face stand, from left to right.

    Args:
        span: The face.
        start: The way that is asked for.
        offset: Of the first seam from the deck's left end, inches; 0 for none asked.
        meeting: Where a seam of another slope meets this one's, if seams are to be aligned.
        crowding: How many screws and corners would be too near to seams at these places.
    """
    if offset > POINT:
        return span.seams(span.left.deck + offset)
    if meeting is not None:
        return span.seams(meeting)
    middle = (span.left.deck + span.right.deck) / 2
    if start == "left":
        return span.seams(span.left.deck + min(span.left.most, span.cover))
    if start == "right":
        return span.seams(span.right.deck - min(span.right.most, span.cover))
    if start == "centered":
        return span.seams(middle)
    equal = min(
        (span.seams(middle), span.seams(middle + span.cover / 2)),
        key=lambda seams: (span.faults(seams), span.beyond(seams), -min(span.ends(seams))),
    )
    if start == "equal" or not equal:
        return equal
    best, least = equal, math.inf
    for seams in _tries(span, equal[0]):
        wrong = span.faults(seams) * 100
        if wrong < least:
            wrong += crowding(seams)
        if wrong < least:
            best, least = seams, wrong
        if least <= 0:
            break
    return best


def _tries(span: Span, first: float) -> Iterator[list[float]]:
    """Yield seams to try, from ``first`` out to both sides; those with faults at the ends last.

    Between them come those whose panel at one end is as wide as its sheet allows.
    """
    steps = math.floor(span.cover / 2 / GRID)
    shifts = [0.0, *(sign * k * GRID for k in range(1, steps + 1) for sign in (1.0, -1.0))]
    widest = (span.left.deck + span.left.most, span.right.deck - span.right.most)
    shifts += [math.remainder(at - first, span.cover) for at in widest]
    tries = [span.seams(first + shift) for shift in sorted(shifts, key=abs)]
    yield from sorted(tries, key=span.faults)[:TRIES]
