"""A cutting problem in whole numbers: what the solver sees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stick:
    """A stock length as the solver sees it.

    Attributes:
        room: Its length and one kerf, in steps of the grid: the last cut may fall on its end.
        cost: What taking one costs, a whole number; 0 when it is paid for.
        count: How many there are; None for as many as are wanted.
    """

    room: int
    cost: int
    count: int | None


Filling = tuple[tuple[int, int], ...]
"""What a stick is cut into: index of a size, and how many pieces of it, at least 1."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to fill a stick.

    Attributes:
        stick: Index of the stick.
        filling: ``(i, n)``: so many pieces of size ``i``; the longest size first.
    """

    stick: int
    filling: Filling


@dataclass(frozen=True, slots=True)
class CuttingProblem:
    """Sizes, how many of each, and the sticks to cut them from.

    Attributes:
        sizes: Distinct lengths, each with its kerf, in steps of the grid; the longest first.
        wanted: How many of each, at least 1.
        sticks: The stock.
    """

    sizes: tuple[int, ...]
    wanted: tuple[int, ...]
    sticks: tuple[Stick, ...]

    def holding(self, filling: Filling) -> list[int]:
        """Return the sticks that the filling could be cut from."""
        needed = sum(n * self.sizes[i] for i, n in filling)
        return [b for b, stick in enumerate(self.sticks) if stick.room >= needed]

    def cost(self, chosen: Mapping[Pattern, int]) -> int:
        """Return what a choice of patterns costs."""
        return sum(times * self.sticks[pattern.stick].cost for pattern, times in chosen.items())


Choice = dict[Pattern, int]
"""Patterns and how often each is cut: together they give every piece that is wanted."""
