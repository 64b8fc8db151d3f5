"""Cutting plans: every piece once, nothing overfull, and the least there is."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reference_cutting import cost_of, least_by_flow, least_by_splits

from trimwright.model.errors import SceneError
from trimwright.model.takeoff.cutting import cut_from
from trimwright.model.takeoff.plan import Demand, Objective, Plan, Stock

OBJECTIVES: tuple[Objective, ...] = ("metal", "lengths", "money")


def demands(*lengths: float) -> list[Demand]:
    return [Demand(f"R1-{number}", length) for number, length in enumerate(lengths, 1)]


def check(plan: Plan, wanted: list[Demand], stock: list[Stock], kerf: float) -> None:
    """Assert that the plan can be cut and gives what was wanted."""
    cut = [(piece.mark, piece.length) for length in plan.lengths for piece in length.cuts]
    assert sorted(cut) == sorted((d.mark, d.length) for d in wanted)
    for length in plan.lengths:
        assert length.cuts, "nothing is taken for nothing"
        ends = [piece.start + piece.length for piece in length.cuts]
        starts = [piece.start for piece in length.cuts]
        assert starts[0] == 0
        assert all(s == pytest.approx(e + kerf) for e, s in zip(ends, starts[1:], strict=False))
        assert ends[-1] <= length.length + 1e-6
        assert length.offcut == pytest.approx(max(0.0, length.length - ends[-1] - kerf), abs=1e-6)
    for each in stock:
        used = sum((x.length, x.from_hand) == (each.length, each.on_hand) for x in plan.lengths)
        most = sum(
            math.inf if s.count is None else s.count
            for s in stock
            if (s.length, s.on_hand) == (each.length, each.on_hand)
        )
        assert used <= most
    assert plan.bound <= plan.cost + 1e-9
    assert (plan.gap == 0) == plan.proven


def small_case(seed: int) -> tuple[list[Demand], list[Stock], float, Objective]:
    """A few pieces, up to three lengths to buy and up to three on hand, in eighths of an inch."""
    chance = random.Random(seed)
    longest = chance.choice([60.0, 126.0, 144.0])
    others = [chance.randint(int(longest * 3), int(longest * 7)) / 8 for _ in range(chance.randint(0, 2))]
    stock = [
        Stock(length, price=chance.randint(500, 5000) / 100) for length in dict.fromkeys([longest, *others])
    ]
    stock += [
        Stock(chance.randint(80, int(longest * 8)) / 8, count=chance.randint(1, 2), on_hand=True)
        for _ in range(chance.randint(0, 3))
    ]
    # Sizes that leave little room to spare make the plan hard.
    least = longest / chance.choice([8, 5, 3])
    pieces = [
        chance.randint(int(least * 8), int(longest * chance.choice([0.4, 0.6, 1.0]) * 8))
        for _ in range(chance.randint(2, 8))
    ]
    kerf = chance.choice([0.0, 0.125, 0.25])
    return demands(*(piece / 8 for piece in pieces)), stock, kerf, chance.choice(OBJECTIVES)


@pytest.mark.parametrize("seed", range(120))
def test_is_as_good_as_the_best_of_every_split(seed: int) -> None:
    wanted, stock, kerf, objective = small_case(seed)
    plan = cut_from("rake", wanted, stock, kerf=kerf, objective=objective)
    check(plan, wanted, stock, kerf)
    assert plan.proven
    assert plan.cost == pytest.approx(float(least_by_splits(wanted, stock, kerf, objective) or 0), abs=1e-9)
    assert plan.cost == pytest.approx(
        float(sum(cost_of(Stock(x.length, x.price, None, x.from_hand), objective) for x in plan.lengths)),
        abs=1e-9,
    )


def building(runs: int, seed: int, stock: float = 126.0, lap: float = 4.0) -> list[Demand]:
    """The pieces of so many runs: full lengths, and a remainder to the nearest sixteenth."""
    chance = random.Random(seed)
    pieces = []
    for run in range(1, runs + 1):
        left, number = chance.uniform(60, 900), 1
        while left > stock:
            pieces.append(Demand(f"R{run}-{number}", stock))
            left, number = left - (stock - lap), number + 1
        pieces.append(Demand(f"R{run}-{number}", round(left * 16) / 16))
    return pieces


@pytest.mark.parametrize("objective", OBJECTIVES)
def test_proves_a_building_of_sixty_runs(objective: Objective) -> None:
    wanted = building(60, seed=7)
    stock = [Stock(126.0, 41.37), Stock(144.0, 47.28), Stock(99.0, count=3, on_hand=True)]
    plan = cut_from("rake", wanted, stock, kerf=0.125, objective=objective)
    check(plan, wanted, stock, 0.125)
    assert plan.proven
    assert 150 <= len(wanted) <= 300


def test_a_building_of_twelve_runs_comes_to_what_a_flow_comes_to() -> None:
    wanted = [d for d in building(12, seed=3) if d.length < 126]
    stock = [Stock(126.0), Stock(144.0)]
    plan = cut_from("rake", wanted, stock)
    assert plan.proven
    assert plan.cost == pytest.approx(least_by_flow(wanted, stock, 0.0, 16))


@pytest.mark.parametrize("objective", OBJECTIVES)
def test_what_comes_out_of_the_rack_costs_nothing(objective: Objective) -> None:
    wanted, stock = demands(50.0, 40.0), [Stock(100.0, count=1, on_hand=True)]
    plan = cut_from("rake", wanted, stock, objective=objective)
    check(plan, wanted, stock, 0.0)
    assert (plan.cost, plan.proven) == (0.0, True)


lengths = st.lists(st.floats(1.0, 126.0), min_size=1, max_size=9)


@settings(max_examples=60, deadline=None)
@given(lengths, st.sampled_from([0.0, 0.125, 0.2]), st.sampled_from(OBJECTIVES))
def test_every_piece_comes_out_of_one_length_and_none_is_overfull(
    sizes: list[float], kerf: float, objective: Objective
) -> None:
    stock = [Stock(126.0, 41.37), Stock(240.0, 80.0), Stock(30.5, count=2, on_hand=True)]
    plan = cut_from("rake", demands(*sizes), stock, kerf=kerf, objective=objective)
    check(plan, demands(*sizes), stock, kerf)


@settings(max_examples=40, deadline=None)
@given(lengths)
def test_twice_the_pieces_cost_at_most_twice_as_much(sizes: list[float]) -> None:
    once = cut_from("rake", demands(*sizes), [Stock(126.0), Stock(144.0)])
    twice = cut_from("rake", demands(*sizes, *sizes), [Stock(126.0), Stock(144.0)])
    assert twice.bound <= 2 * once.cost
    if twice.proven:
        assert once.cost <= twice.cost <= 2 * once.cost


@settings(max_examples=40, deadline=None)
@given(lengths)
def test_more_to_choose_from_costs_no_more(sizes: list[float]) -> None:
    few = cut_from("rake", demands(*sizes), [Stock(126.0)])
    more = cut_from("rake", demands(*sizes), [Stock(126.0), Stock(100.0), Stock(20.0, count=1, on_hand=True)])
    assert more.bound <= few.cost
    if more.proven:
        assert more.cost <= few.cost


def test_a_piece_as_long_as_its_stock_fits_it_in_millimeters_and_inches_side_by_side() -> None:
    meter = 1000 / 25.4
    stock = [Stock(3 * meter), Stock(126.25), Stock(4.1 * meter)]
    plan = cut_from("rake", demands(3 * meter, 126.25, 4.1 * meter), stock)
    assert plan.cost == pytest.approx(3 * meter + 126.25 + 4.1 * meter)
    assert plan.waste == pytest.approx(0, abs=1e-9)


def test_noise_far_below_a_tape_does_not_need_another_length() -> None:
    third = 126 / 3
    assert len(cut_from("rake", demands(third + 1e-9, third, third + 2e-9), [Stock(126.0)]).lengths) == 1


def test_the_last_cut_may_fall_on_the_end() -> None:
    assert len(cut_from("rake", demands(41.75, 41.75, 41.75), [Stock(125.5)], kerf=0.125).lengths) == 1
    assert len(cut_from("rake", demands(41.75, 41.75, 41.75), [Stock(125.25)], kerf=0.125).lengths) == 2


def test_what_is_on_hand_is_used_before_anything_is_bought() -> None:
    stock = [Stock(126.0), Stock(50.0, count=1, on_hand=True)]
    plan = cut_from("rake", demands(100.0, 48.0), stock)
    assert (plan.cost, plan.bought, plan.taken, plan.used) == (126, 126, 176, 148)
    assert {length.pieces: length.from_hand for length in plan.lengths} == {("R1-1",): False, ("R1-2",): True}


def test_the_fewest_lengths_are_still_no_longer_than_they_need_to_be() -> None:
    plan = cut_from("rake", demands(100.0, 100.0, 90.0), [Stock(126.0), Stock(240.0)], objective="lengths")
    assert sorted(length.length for length in plan.lengths) == [126.0, 240.0]


def test_the_least_money_buys_the_cheap_length_and_not_the_short_one() -> None:
    plan = cut_from("rake", demands(100.0), [Stock(120.0, 50.0), Stock(144.0, 40.0)], objective="money")
    assert (plan.cost, plan.lengths[0].length, plan.lengths[0].price) == (40.0, 144.0, 40.0)


def test_nothing_wanted_needs_nothing() -> None:
    plan = cut_from("rake", [], [Stock(126.0)])
    assert (plan.lengths, plan.cost, plan.proven, plan.waste) == ((), 0, True, 0)


def test_out_of_time_the_plan_stands_and_says_how_far_it_may_be_off() -> None:
    wanted = [d for d in building(80, seed=2) if d.length < 126]
    stock = [Stock(126.0), Stock(141.0)]
    plan = cut_from("rake", wanted, stock, seconds_left=lambda: 0.0)
    check(plan, wanted, stock, 0.0)
    assert not plan.proven
    assert 0 < plan.gap < 0.2
    assert str(plan.proof) == f"stopped before the proof: at most {plan.gap:.1%} above the best"
    assert cut_from("rake", wanted, stock).cost >= plan.bound


@pytest.mark.parametrize(
    ("wanted", "stock", "objective", "problems"),
    [
        (
            demands(126.5, 60, 130),
            [Stock(126.0), Stock(120.0)],
            "metal",
            [
                "rake: piece R1-1 is 10' 6 1/2\" long and the longest stock 10' 6\". "
                "Add longer stock, or make the run of more pieces.",
                "rake: piece R1-3 is 10' 10\" long and the longest stock 10' 6\". "
                "Add longer stock, or make the run of more pieces.",
            ],
        ),
        (
            demands(60),
            [Stock(126.0), Stock(120.0, 3.0), Stock(61.0, count=1, on_hand=True)],
            "money",
            ["rake: stock of 10' 6\" has no price. Give it one, or ask for the least metal."],
        ),
        (
            demands(140, 139, 20),
            [Stock(126.0), Stock(144.0, count=1, on_hand=True)],
            "metal",
            ["rake: not enough long stock for R1-2. Add more of it."],
        ),
    ],
    ids=["too long", "no price", "too few"],
)
def test_says_why_there_is_no_plan(
    wanted: list[Demand], stock: list[Stock], objective: Objective, problems: list[str]
) -> None:
    with pytest.raises(SceneError) as caught:
        cut_from("rake", wanted, stock, objective=objective)
    assert list(map(str, caught.value.problems)) == problems


def test_long_pieces_find_the_long_lengths_on_hand() -> None:
    stock = [Stock(126.0), Stock(144.0, count=2, on_hand=True)]
    plan = cut_from("rake", demands(140.0, 139.0, 20.0, 120.0), stock)
    check(plan, demands(140.0, 139.0, 20.0, 120.0), stock, 0.0)
    assert plan.cost == 252
