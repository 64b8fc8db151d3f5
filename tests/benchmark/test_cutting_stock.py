"""Cutting stock: how long a proof takes, beside the same problem as one flow that HiGHS solves at a go."""

import random
import statistics
import time
from collections.abc import Callable

import pytest
from reference_cutting import least_by_flow

from trimwright.model.takeoff.cutting import cut_from
from trimwright.model.takeoff.plan import Demand, Stock

STOCK = [Stock(126.0), Stock(144.0)]


def remainders(runs: int) -> list[Demand]:
    """The last pieces of so many runs, to the nearest sixteenth: what makes a plan hard."""
    chance = random.Random(runs)
    return [Demand(f"R{run}-9", round(chance.uniform(14, 110) * 16) / 16) for run in range(1, runs + 1)]


def seconds(work: Callable[[], object], times: int = 3) -> float:
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


@pytest.mark.benchmark
def test_sixty_runs_are_proven_in_a_fraction_of_the_time_of_one_flow() -> None:
    wanted = remainders(60)
    plan = cut_from("rake", wanted, STOCK)
    assert plan.proven
    ours = seconds(lambda: cut_from("rake", wanted, STOCK))
    start = time.perf_counter()
    assert plan.cost == pytest.approx(least_by_flow(wanted, STOCK, 0.0, 16))
    flow = time.perf_counter() - start
    print(f"\n60 runs: {ours:.2f} s, one flow {flow:.2f} s, {flow / ours:.1f} times")
    assert ours < flow / 2


@pytest.mark.benchmark
def test_a_building_of_sixty_runs_is_proven_in_a_few_times_what_twelve_take() -> None:
    few, many = remainders(12), remainders(60)
    assert cut_from("rake", many, STOCK).proven
    ratio = seconds(lambda: cut_from("rake", many, STOCK)) / seconds(lambda: cut_from("rake", few, STOCK))
    print(f"\n60 runs take {ratio:.0f} times as long as 12")
    assert ratio < 100
