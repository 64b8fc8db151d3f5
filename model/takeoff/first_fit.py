"""A quick plan to start from: each piece, longest first, into the first length that it fits."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from .problem import Stick, Choice, Pattern, Problem


@dataclass(slots=True)
class _Open:
    """A stick being filled."""

    stick: int
    room: int
    counts: list[int] = field(default_factory=list)


def first_fit(problem: Problem) -> Choice:
    """Return the cheapest of the first-fit-decreasing plans, one for each stick to open first.

    Every size must fit a stick of which there are as many as are wanted.
    """
    return min((_filled(problem, favored) for favored in range(len(problem.sticks))), key=problem.cost)


def _filled(problem: Problem, favored: int) -> Choice:
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
                place = _Open(b, sticks[b].room, [0] * len(problem.sizes))
                opened.append(place)
            place.room -= size
            place.counts[i] += 1
    return dict(Counter(_smaller(problem, place) for place in opened))


def _smaller(problem: Problem, place: _Open) -> Pattern:
    """Return the filled stick, moved to the cheapest endless one that holds it."""
    pattern = Pattern(place.stick, tuple(place.counts))
    filling = problem.filling(pattern)

    def cheaper(item: tuple[int, Stick]) -> bool:
        b, other = item
        return other.count is None and other.room >= filling and other.cost < problem.sticks[place.stick].cost

    found = min(filter(cheaper, enumerate(problem.sticks)), key=lambda item: item[1].cost, default=None)
    return pattern if found is None else Pattern(found[0], pattern.counts)
