"""Cutting stock in two other ways, for tests: by every split of the pieces, and as a flow along the lengths."""

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
from scipy.optimize import LinearConstraint, milp
from scipy.sparse import csr_array

from trimwright.model.takeoff.plan import Demand, Objective, Stock


def cost_of(stock: Stock, objective: Objective) -> Fraction:
    if stock.on_hand:
        return Fraction(0)
    costs = {
        "metal": Fraction(stock.length),
        "lengths": Fraction(1),
        "money": Fraction(str(stock.price or 0)),
    }
    return costs[objective]


def least_by_splits(
    demands: Sequence[Demand], stock: Sequence[Stock], kerf: float, objective: Objective
) -> Fraction | None:
    """Return the least cost over every way to split the pieces into lengths; None when there is none.

    ``least[s]`` is for the set of pieces ``s``, a bit each: first with nothing but the counted lengths, one by
    one, each given every subset that it holds; then with the endless ones too.
    """
    n = len(demands)
    taken = [
        sum(Fraction(demands[i].length) + Fraction(kerf) for i in range(n) if s >> i & 1)
        for s in range(1 << n)
    ]
    least: list[Fraction | None] = [Fraction(0)] + [None] * ((1 << n) - 1)

    def better(s: int, cost: Fraction | None, more: Fraction) -> None:
        if cost is not None and (least[s] is None or cost + more < least[s]):  # type: ignore[operator]
            least[s] = cost + more

    counted = [each for each in stock if each.count is not None for _ in range(each.count)]
    for each in counted:
        before = list(least)
        for s in range(1, 1 << n):
            sub = s
            while sub:
                if taken[sub] <= Fraction(each.length) + Fraction(kerf):
                    better(s, before[s ^ sub], cost_of(each, objective))
                sub = (sub - 1) & s
    endless = [each for each in stock if each.count is None]
    for s in range(1, 1 << n):
        sub = s
        while sub:
            for each in endless:
                if taken[sub] <= Fraction(each.length) + Fraction(kerf):
                    better(s, least[s ^ sub], cost_of(each, objective))
            sub = (sub - 1) & s
    return least[-1]


def least_by_flow(demands: Sequence[Demand], stock: Sequence[Stock], kerf: float, steps: int) -> float:
    """Return the least metal, inches, as a flow from 0 to the end of each length over arcs that are pieces.

    Lengths are in whole ``1 / steps`` in. Every length is endless. Pieces are laid longest first, which leaves
    fewer arcs. HiGHS does it all.
    """
    sizes = sorted({round((d.length + kerf) * steps) for d in demands}, reverse=True)
    wanted = [sum(round((d.length + kerf) * steps) == size for d in demands) for size in sizes]
    rooms = [round((each.length + kerf) * steps) for each in stock]
    reached = {0}
    arcs: set[tuple[int, int, int]] = set()
    for k, size in enumerate(sizes):
        for start in sorted(reached):
            at = start
            for _ in range(wanted[k]):
                if at + size > max(rooms):
                    break
                arcs.add((at, at + size, k))
                at += size
                reached.add(at)
    nodes = {at: i for i, at in enumerate(sorted(reached))}
    columns = sorted(arcs)
    ends = [(at, room) for at in nodes for room in rooms if 0 < at <= room]
    total = len(columns) + len(ends)
    balance = {(nodes[a], j): -1.0 for j, (a, _, _) in enumerate(columns)}
    balance |= {(nodes[b], j): 1.0 for j, (_, b, _) in enumerate(columns)}
    balance |= {(nodes[at], len(columns) + j): -1.0 for j, (at, _) in enumerate(ends)}
    entries = [(row, column, value) for (row, column), value in balance.items() if row != nodes[0]]
    rows, cols, values = zip(*entries, strict=True)
    flow = csr_array((values, (rows, cols)), shape=(len(nodes), total))
    pieces = csr_array(
        (np.ones(len(columns)), ([k for _, _, k in columns], range(len(columns)))), shape=(len(sizes), total)
    )
    costs = np.zeros(total)
    costs[len(columns) :] = [room / steps - kerf for _, room in ends]
    answer = milp(
        costs,
        constraints=[LinearConstraint(flow, lb=0, ub=0), LinearConstraint(pieces, lb=wanted)],
        integrality=np.ones(total),
    )
    assert answer.status == 0
    return float(answer.fun)
