"""From marks and lengths to a cutting plan, and back from whole numbers to marks."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import accumulate

from ..errors import SceneError
from ..message import Length, Listed, Message, message
from ..tolerances import POINT
from . import grid
from .generation import solve
from .plan import Bought, CutPiece, Demand, Objective, Plan, Stock
from .problem import CuttingProblem, Pattern, Stick


def unhurried() -> float:
    """Return the seconds left to a search that only its own limits stop: ten for each choice."""
    return 10.0


def cut_from(
    profile: Message | str,
    demands: Sequence[Demand],
    stock: Sequence[Stock],
    *,
    kerf: float = 0.0,
    objective: Objective = "metal",
    seconds_left: Callable[[], float] = unhurried,
) -> Plan:
    """Return the plan that cuts every piece out of stock at the least cost.

    Args:
        profile: Name that the plan and errors carry.
        demands: The pieces.
        stock: What there is to cut from.
        kerf: Lost at each cut, inches; 0 for snips and shears.
        objective: What to make least. Lengths on hand are paid for and count nothing.
        seconds_left: How much longer the search may take; asked again and again. A search that runs out of
            time returns the best plan so far, which says so.

    Raises:
        SceneError: A piece is longer than every stock length, too few of the long lengths are to be had, or a
            price is missing.
    """
    _check(profile, demands, stock, objective)
    if not demands:
        return Plan(profile, objective, kerf, (), 0.0, 0.0, proven=True)
    step = grid.step_of(each.length for each in stock)
    sizes = [_size(demand.length, stock, step) + grid.up(kerf, step) for demand in demands]
    costs, unit = _costs(stock, objective, step)
    problem = _problem(sizes, stock, costs, grid.up(kerf, step), step)
    answer = solve(problem, seconds_left)
    cost = problem.cost(answer.choice)
    left = [[d for d, s in zip(demands, sizes, strict=True) if s == size] for size in problem.sizes]
    dealt = _deal(answer.choice, left)
    missing = tuple(piece.mark for stick, pieces in dealt if stick == len(stock) for piece in pieces)
    if missing:
        raise SceneError(
            message(
                "{profile}: not enough long stock for {pieces}. Add more of it.",
                profile=profile,
                pieces=Listed(missing, "comma"),
            )
        )
    lengths = [_bought(profile, stock[stick], pieces, kerf) for stick, pieces in dealt if pieces]
    lengths.sort(key=lambda each: (-each.length, each.from_hand, -len(each.cuts), each.offcut))
    bound = float(answer.bound * unit)
    proven = cost <= answer.bound
    return Plan(profile, objective, kerf, tuple(lengths), float(cost * unit), bound, proven)


def _check(
    profile: Message | str,
    demands: Sequence[Demand],
    stock: Sequence[Stock],
    objective: Objective,
) -> None:
    """Raise every problem that makes a plan impossible."""
    longest = max((each.length for each in stock), default=0.0)
    problems = [
        message(
            "{profile}: piece {mark} is {length} long and the longest stock {longest}. "
            "Add longer stock, or make the run of more pieces.",
            profile=profile,
            mark=demand.mark,
            length=Length(demand.length),
            longest=Length(longest),
        )
        for demand in demands
        if demand.length > longest + POINT
    ]
    if objective == "money":
        problems += [
            message(
                "{profile}: stock of {length} has no price. Give it one, or ask for the least metal.",
                profile=profile,
                length=Length(each.length),
            )
            for each in stock
            if each.price is None and not each.on_hand
        ]
    if problems:
        raise SceneError(*problems)


def _size(length: float, stock: Sequence[Stock], step: Fraction) -> int:
    """Return a piece's length in whole steps, but never more than that of a stock length that holds it."""
    holding = (grid.down(each.length, step) for each in stock if length <= each.length + POINT)
    return min(grid.up(length, step), *holding)


def _costs(stock: Sequence[Stock], objective: Objective, step: Fraction) -> tuple[list[int], Fraction]:
    """Return what each length costs in whole numbers, and what 1 of them is in inches, lengths or money."""
    each_costs: dict[Objective, Callable[[Stock], int]] = {
        "metal": lambda each: grid.down(each.length, step),
        "lengths": lambda _: 1,
        "money": lambda each: round(100 * (each.price or 0)),
    }
    units = {"metal": step, "lengths": Fraction(1), "money": Fraction(1, 100)}
    costs = [0 if each.on_hand else each_costs[objective](each) for each in stock]
    common = math.gcd(*costs) or 1
    return [cost // common for cost in costs], common * units[objective]


def _problem(
    sizes: list[int], stock: Sequence[Stock], costs: list[int], kerf: int, step: Fraction
) -> CuttingProblem:
    """Return the problem in whole numbers.

    Where some piece fits no endless stock, a last stick stands for what is not to be had, at a cost that no
    plan pays if there is another.
    """
    wanted = Counter(sizes)
    sticks = [
        Stick(grid.down(each.length, step) + kerf, cost, each.count)
        for each, cost in zip(stock, costs, strict=True)
    ]
    endless = max((stick.room for stick in sticks if stick.count is None), default=0)
    if max(sizes) > endless:
        sticks.append(Stick(max(sizes), 1 + len(sizes) * max(costs), None))
    distinct = sorted(wanted, reverse=True)
    return CuttingProblem(tuple(distinct), tuple(wanted[size] for size in distinct), tuple(sticks))


def _deal(choice: Mapping[Pattern, int], left: Sequence[list[Demand]]) -> list[tuple[int, list[Demand]]]:
    """Take the pieces that fill the patterns out of those ``left`` of each size; return each stick and its pieces."""
    return [
        (pattern.stick, [left[i].pop(0) for i, n in pattern.filling for _ in range(min(n, len(left[i])))])
        for pattern, times in choice.items()
        for _ in range(times)
    ]


def _bought(profile: Message | str, stock: Stock, pieces: Sequence[Demand], kerf: float) -> Bought:
    """Return a length with its pieces laid out from its end."""
    ends = [0.0, *accumulate(piece.length + kerf for piece in pieces)]
    cuts = tuple(
        CutPiece(piece.mark, start, piece.length) for piece, start in zip(pieces, ends[:-1], strict=True)
    )
    price = 0.0 if stock.on_hand else stock.price
    return Bought(profile, stock.length, cuts, max(0.0, stock.length - ends[-1]), stock.on_hand, price)
