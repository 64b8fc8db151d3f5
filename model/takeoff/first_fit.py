"""A quick plan to start from: each piece, longest first, into the first length that it fits."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from .problem import Choice, CuttingProblem, Pattern


@dataclass(slots=True)
class _Open:
    """A stick being filled."""

    stick: int
    room: int
    counts: Counter[int]


def first_fit(problem: CuttingProblem) -> Choice:
    """Return the cheapest of the first-fit-decreasing plans, one for each stick to open first.

    Every size must fit a stick of which there are as many as are wanted.
    """
    return min((_filled(problem, favored) for favored in range(len(problem.sticks))), key=problem.cost)


def _filled(problem: CuttingProblem, favored: int) -> Choice:
    """Return the first-fit plan that opens what is paid for first, then ``favored``, then the cheapest."""
    sticks = problem.sticks
    order = sorted(range(len(sticks)), key=lambda b: (sticks[b].cost > 0, b != favored, sticks[b].cost))
    opened: list[_Open] = []
    taken: Counter[int] = Counter()
    for i, (size, wanted) in enumerate(zip(problem.sizes, problem.wanted, strict=True)):
        for _ in range(wanted):
            place = next((place for place in opened if place.room >= size), None)
            if place is None:
                b = next(b for b in order if sticks[b].room >= size and taken[b] != sticks[b].count)
                taken[b] += 1
                place = _Open(b, sticks[b].room, Counter())
                opened.append(place)
            place.room -= size
            place.counts[i] += 1
    return dict(Counter(_smaller(problem, place) for place in opened))


def _smaller(problem: CuttingProblem, place: _Open) -> Pattern:
    """Return the filled stick, or the cheapest endless one that holds its pieces where that costs less."""
    filling = tuple(place.counts.items())
    endless = [b for b in problem.holding(filling) if problem.sticks[b].count is None]
    return Pattern(min([place.stick, *endless], key=lambda b: problem.sticks[b].cost), filling)
