"""Exact cutting stock: patterns generated as the linear relaxation asks for them, then one choice among them.

A lower bound is worked out in whole numbers from what the relaxation says each piece is worth, so that
rounding cannot fake a proof. Where the chosen plan costs more than the bound, a better one can only be made
of patterns whose reduced cost is within the gap: those are added, all of them where they are not too many, and
the choice is made again.

Source:
    P. C. Gilmore, R. E. Gomory, *A Linear Programming Approach to the Cutting-Stock Problem*, Operations
    Research 9 (1961) and 11 (1963), for the generation; A. A. Farley, *A Note on Bounding a Class of Linear
    Programming Problems, Including Cutting Stock Problems*, Operations Research 38 (1990), for a bound at any
    time. Both from memory.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import LinearConstraint, linprog, milp
from scipy.sparse import csc_array, vstack

from . import knapsack
from .first_fit import first_fit
from .problem import Choice, CuttingProblem, Pattern

Vector = NDArray[np.float64]

SCALE = 2**32
"""Pieces are priced in whole numbers of 1/SCALE of the cost's unit."""

ROUNDS = 600
"""Rounds of generation before it gives up; a hundred is usual."""

CELLS = 40_000_000
"""Largest table of best fillings; beyond it the first plan stands."""

MOST = 20_000
"""Most patterns of one stick added for the second choice."""

NODES = 20_000
"""Most nodes of the search for one choice."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A choice of patterns and what is known about it.

    Attributes:
        choice: Patterns that together give every piece, some perhaps more often than it is wanted.
        bound: No choice costs less.
    """

    choice: Choice
    bound: int


@dataclass(frozen=True, slots=True)
class _Prices:
    """What pieces are worth, and the bound that follows.

    Attributes:
        worth: Of a piece of each size, in 1/SCALE.
        table: Best fillings at that worth.
        share: Keeps every endless stick's best filling, times this, worth no more than the stick costs.
        bound: No choice costs less.
    """

    worth: tuple[int, ...]
    table: knapsack.Table
    share: Fraction
    bound: Fraction


@dataclass(frozen=True, slots=True, eq=False)
class _Program:
    """A choice among patterns as a linear program: least ``costs`` with ``rows`` at or above ``least``.

    Attributes:
        costs: ``(k,)``, one for each pattern.
        rows: ``(n, k)``: pieces of each size, then minus the sticks of which there are few.
        least: ``(n,)``.
    """

    costs: Vector
    rows: csc_array
    least: Vector


def solve(problem: CuttingProblem, seconds_left: Callable[[], float]) -> Answer:
    """Return the cheapest choice of patterns that was found, and a bound on the cheapest there is.

    Args:
        problem: Every size fits a stick of which there are as many as are wanted.
        seconds_left: How long the search may go on; asked again and again.
    """
    choice = first_fit(problem)
    if len(problem.sizes) * max(stick.room for stick in problem.sticks) > CELLS:
        return Answer(choice, math.ceil(_evenly(problem)))
    pool = dict.fromkeys([*choice, *_singles(problem)])
    prices = _generate(problem, pool, problem.cost(choice), seconds_left)
    bound = math.ceil(prices.bound)
    if problem.cost(choice) > bound and seconds_left() > 0:
        choice, _ = _cheaper(problem, pool, choice, seconds_left())
    if problem.cost(choice) > bound and seconds_left() > 0:
        whole = _widen(problem, pool, prices, problem.cost(choice) - 1 - prices.bound)
        choice, least = _cheaper(problem, pool, choice, seconds_left())
        bound = problem.cost(choice) if whole and least else bound
    return Answer(_tidied(problem, choice, seconds_left()), bound)


def _singles(problem: CuttingProblem) -> Iterable[Pattern]:
    """Yield, for each size and each stick that holds it, the stick filled with that size alone."""
    for i, (size, wanted) in enumerate(zip(problem.sizes, problem.wanted, strict=True)):
        for b, stick in enumerate(problem.sticks):
            if stick.room >= size:
                yield Pattern(b, ((i, min(wanted, stick.room // size)),))


def _spread(problem: CuttingProblem) -> list[int]:
    """Return the worth of each size when the cheapest endless stick's cost is spread evenly over its room."""
    rate = min(Fraction(stick.cost, stick.room) for stick in problem.sticks if stick.count is None)
    return [math.floor(size * rate * SCALE) for size in problem.sizes]


def _evenly(problem: CuttingProblem) -> Fraction:
    """Return the bound that follows from ``_spread``: no piece takes less than its own length of metal."""
    rate = min(Fraction(stick.cost, stick.room) for stick in problem.sticks if stick.count is None)
    total = rate * sum(n * size for n, size in zip(problem.wanted, problem.sizes, strict=True))
    return total - sum(
        stick.count * max(Fraction(0), rate * stick.room - stick.cost)
        for stick in problem.sticks
        if stick.count is not None
    )


def _generate(
    problem: CuttingProblem, pool: dict[Pattern, None], ceiling: int, seconds_left: Callable[[], float]
) -> _Prices:
    """Add to ``pool`` what the relaxation asks for, until the bound meets ``ceiling``; return the prices."""
    prices = _priced(problem, _spread(problem))
    for _ in range(ROUNDS):
        if math.ceil(prices.bound) >= ceiling or seconds_left() <= 0:
            break
        worth = _relaxed(problem, list(pool))
        fresh = _priced(problem, worth)
        prices = max(prices, fresh, key=lambda p: p.bound)
        wanted = [pattern for pattern in _asked_for(problem, fresh) if pattern not in pool]
        if not wanted:
            break
        pool.update(dict.fromkeys(wanted))
    return prices


def _relaxed(problem: CuttingProblem, pool: Sequence[Pattern]) -> list[int]:
    """Return what a piece of each size is worth to the relaxation over ``pool``, in 1/SCALE, rounded down."""
    program = _program(problem, pool)
    # HiGHS takes sparse rows; scipy's type stubs know only dense ones.
    result = linprog(program.costs, A_ub=-program.rows, b_ub=-program.least, method="highs-ds")  # type: ignore[call-overload]
    return [max(0, math.floor(-worth * SCALE)) for worth in result.ineqlin.marginals[: len(problem.sizes)]]


def _priced(problem: CuttingProblem, worth: Sequence[int]) -> _Prices:
    """Return the bound that follows when pieces are worth this much, with the table that shows it."""
    table = knapsack.values(problem.sizes, problem.wanted, worth, max(stick.room for stick in problem.sticks))
    best = [int(table[0, stick.room]) for stick in problem.sticks]
    share = min(
        Fraction(stick.cost * SCALE, max(stick.cost * SCALE, value))
        for stick, value in zip(problem.sticks, best, strict=True)
        if stick.count is None
    )
    total = share * sum(n * w for n, w in zip(problem.wanted, worth, strict=True)) / SCALE
    spared = sum(
        stick.count * max(Fraction(0), share * value / SCALE - stick.cost)
        for stick, value in zip(problem.sticks, best, strict=True)
        if stick.count is not None
    )
    return _Prices(tuple(worth), table, share, total - spared)


def _asked_for(problem: CuttingProblem, prices: _Prices) -> Iterable[Pattern]:
    """Yield each stick's best filling where it is worth more than the stick costs."""
    for b, stick in enumerate(problem.sticks):
        if prices.table[0, stick.room] > stick.cost * SCALE:
            yield Pattern(b, knapsack.best(prices.table, problem.sizes, prices.worth, stick.room))


def _widen(problem: CuttingProblem, pool: dict[Pattern, None], prices: _Prices, gap: Fraction) -> bool:
    """Add to ``pool`` the full patterns whose reduced cost is at most ``gap``; tell whether those are all.

    When they are too many, those within half of the gap are added, or half of that, and so on.
    """
    whole = True
    for b, stick in enumerate(problem.sticks):
        full = prices.share * int(prices.table[0, stick.room]) / SCALE
        limit = stick.cost if stick.count is None else max(full, Fraction(stick.cost))
        near = gap
        while True:
            least = math.ceil((limit - near) * SCALE / prices.share)
            fillings = knapsack.at_least(
                prices.table, problem.sizes, problem.wanted, prices.worth, stick.room, least
            )
            found = [Pattern(b, filling) for filling in islice(fillings, MOST + 1)]
            if len(found) <= MOST:
                break
            whole, near = False, near / 2
        pool.update(dict.fromkeys(found))
    return whole


def _cheaper(
    problem: CuttingProblem, pool: Iterable[Pattern], choice: Choice, seconds: float
) -> tuple[Choice, bool]:
    """Return the cheapest choice found among ``pool`` and whether it is the least; else ``choice`` itself."""
    patterns = list(pool)
    found, least = _choose(_program(problem, patterns), patterns, seconds)
    return (choice if found is None else min(choice, found, key=problem.cost)), least


def _tidied(problem: CuttingProblem, choice: Choice, seconds: float) -> Choice:
    """Return the same fillings cut from sticks that cost no more and take the least metal."""
    fillings = dict.fromkeys(pattern.filling for pattern in choice)
    ways = [Pattern(b, filling) for filling in fillings for b in problem.holding(filling)]
    program = _program(problem, ways)
    metal = np.array([problem.sticks[pattern.stick].room for pattern in ways], dtype=float)
    rows = vstack([program.rows, csc_array(-program.costs[None, :])], format="csc")
    least = np.append(program.least, -problem.cost(choice))
    found, _ = _choose(_Program(metal, rows, least), ways, seconds)
    return found or choice


def _choose(program: _Program, pool: Sequence[Pattern], seconds: float) -> tuple[Choice | None, bool]:
    """Return the cheapest choice among ``pool`` that was found in time, and whether it is the cheapest."""
    result = milp(
        program.costs,
        constraints=LinearConstraint(program.rows, lb=program.least),
        integrality=np.ones(len(pool), dtype=np.int64),
        options={"mip_rel_gap": 0.0, "node_limit": NODES, "time_limit": max(seconds, 0.0)},
    )
    if result.x is None:
        return None, False
    times = np.rint(result.x).astype(int)
    return {pattern: int(n) for pattern, n in zip(pool, times, strict=True) if n}, result.status == 0


def _program(problem: CuttingProblem, pool: Sequence[Pattern]) -> _Program:
    """Return the choice among ``pool`` as a linear program."""
    few = [b for b, stick in enumerate(problem.sticks) if stick.count is not None]
    row_of = {b: len(problem.sizes) + k for k, b in enumerate(few)}
    entries = [(i, column, n) for column, pattern in enumerate(pool) for i, n in pattern.filling]
    entries += [
        (row_of[pattern.stick], column, -1) for column, pattern in enumerate(pool) if pattern.stick in row_of
    ]
    row, column, n = np.array(entries).T
    rows = csc_array((n.astype(float), (row, column)), shape=(len(problem.sizes) + len(few), len(pool)))
    least = [*problem.wanted, *(-(problem.sticks[b].count or 0) for b in few)]
    costs = [problem.sticks[pattern.stick].cost for pattern in pool]
    return _Program(np.array(costs, dtype=float), rows, np.array(least, dtype=float))
