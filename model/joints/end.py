"""An end: how one end of a run or of a piece is cut, what it meets there, and the work that makes it.

A joint or a lap makes the record once, where it is fitted; checks, drawings, pages and reports read it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

import numpy as np

from ..geometry.arrays import Array
from ..message import Message
from ..sheet.sheet import Cut, Tab
from ..steps import Step, Verb, from_blank_end

At = Literal["low", "high"]
Lies = Literal["over", "under"]


@dataclass(frozen=True, slots=True)
class JointKind:
    """What holds for every joint of one kind.

    Attributes:
        name: What it is asked for by, in every language.
        words: What the trade calls it.
        tabbed: The piece on top closes the corner with a tab that its face folds round onto the other one.
        aloft: It is made at the top of the roof, where a fall is longest.
    """

    name: str
    words: Message
    tabbed: bool = False
    aloft: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class End:
    """One end of a run, cut; or of one of its pieces.

    Attributes:
        kind: Kind of the joint, or the lap.
        at: Which end.
        lies: Over or under what it meets; None where it does neither.
        others: What it meets: names of runs, and once it is fitted marks of pieces.
        cut: Its cut, and the tabs on it.
        steps: Hand-tool steps in order; places along the piece are ``u`` of the run, and once the end is fitted
            measured from this end of the piece's blank.
        lap: How far it overlaps the next piece of its run, inches; None at a corner.
        sealed: It is bedded in sealant.
        tab: The flap that its face folds round the corner onto its neighbor.
        miter: ``(2, 2) float, inches``: the line in ``(u, v)`` along which its face closes onto the face that it
            lies over, from the face's inner to its outer bend line.
    """

    kind: JointKind
    at: At
    lies: Lies | None
    others: tuple[str, ...]
    cut: Cut
    steps: tuple[Step, ...] = ()
    lap: float | None = None
    sealed: bool = False
    tab: Tab | None = None
    miter: Array | None = None

    @property
    def reach(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of the cut and its tabs, inches."""
        return self.cut.reach

    @property
    def depth(self) -> float:
        """How far the cut goes in from the metal's outermost point, inches."""
        low, high = self.reach
        return high - low

    @property
    def outermost(self) -> float:
        """``u`` of the metal's outermost point, inches: where its blank ends."""
        return self.reach[0 if self.at == "low" else 1]

    def from_blank(self, blank: float) -> End:
        """Return the same end with the places in its steps measured from ``u`` = ``blank``, where its blank ends."""
        return replace(self, steps=tuple(from_blank_end(step, blank) for step in self.steps))

    def inward(self, distance: float) -> float:
        """Return ``u`` of a place ``distance`` inches in from the metal's outermost point."""
        return self.outermost + (distance if self.at == "low" else -distance)

    @property
    def innermost(self) -> float:
        """``u`` of the point where its cut goes in deepest, inches."""
        return self.reach[1 if self.at == "low" else 0]


class Ends(NamedTuple):
    """Both ends of a piece."""

    low: End
    high: End

    @property
    def laps(self) -> Iterator[End]:
        """Those at which the piece overlaps the next one of its run."""
        return (end for end in self if end.lap is not None)

    @property
    def corners(self) -> Iterator[End]:
        """Those at which its run ends."""
        return (end for end in self if end.lap is None)


def step(verb: Verb, says: Message, *lines: object, below: bool = False) -> Step:
    """Return a step.

    Args:
        verb: What kind of work it is.
        says: What to do; places in it are ``u`` of the run.
        lines: Each line that the tool follows, ``(k, 2) float, inches``: sheet points.
        below: The tool goes in from the unpainted side.
    """
    points = [np.asarray(line, dtype=float).reshape(-1, 2).tolist() for line in lines]
    return Step(verb, says, tuple([tuple([(u, v) for u, v in line]) for line in points]), below)


def trace(cut: Array, first: float, last: float) -> Array:
    """Return the part of a cut from ``v`` = ``first`` to ``last``, outboard edge first: the way snips go in."""
    inside = (cut[:, 1] >= first - 1e-9) & (cut[:, 1] <= last + 1e-9)
    return np.asarray(cut[inside][::-1])
