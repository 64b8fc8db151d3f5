"""Pieces of a run: the starting rules by hand and for any length, hand-placed lengths, and what is refused."""

from dataclasses import replace
from itertools import pairwise
from math import ceil

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from zoo import NAMES, OTHERS, layout

from trimwright.model.errors import SceneError
from trimwright.model.pieces import ROOM, Piece, cut_pieces
from trimwright.model.runs import Run
from trimwright.model.scene.schema import PlacedPiece
from trimwright.model.scene.trim import Start
from trimwright.model.tolerances import CLEARANCE, TAPE

PLAIN = layout("boat-shed")
RAKE = next(run for run in PLAIN.runs if run.trim == "rake")
EAVE = next(run for run in PLAIN.runs if run.name == "front eave")
NO_CUTS = (0.0, 0.0)
LEAST = 24.0
"""The shortest piece that may stand, inches."""
STARTS: list[Start] = ["low", "high", "centered", "even", "shared"]


def pieces_of(
    total: float,
    start: Start = "low",
    *,
    stock: tuple[float, ...] = (126.0,),
    lap: float = 4.0,
    depth: tuple[float, float] = NO_CUTS,
    run: Run = RAKE,
    wind: str = "left",
    by_hand: tuple[PlacedPiece, ...] | None = None,
) -> tuple[Piece, ...]:
    """Cut a run whose metal reaches from 0 to ``total``, inches."""
    spec = run.spec.model_copy(update={"lap": lap, "start": start, "pieces": by_hand})
    metal = PLAIN.scene.metal.model_copy(update={"stock": stock})
    scene = PLAIN.scene.model_copy(update={"metal": metal, "wind": wind})
    return cut_pieces(replace(run, spec=spec), (0.0, total), depth, scene, LEAST)


def placed(*lengths: float) -> tuple[PlacedPiece, ...]:
    return tuple(PlacedPiece(length=length) for length in lengths)


# By hand: 300 in of metal out of 126 in stock with laps of 4 in. A further piece gains 122 in, so three pieces:
# two full ones reach 248 in, the third has 300 - 244 = 56 in. Even: (300 + 2 x 4) / 3 = 102 2/3 in. Centered:
# one full piece in the middle leaves (300 + 8 - 126) / 2 = 91 in at each end.
@pytest.mark.parametrize(
    ("start", "spans"),
    [
        ("low", [(0, 126), (122, 248), (244, 300)]),
        ("high", [(0, 56), (52, 178), (174, 300)]),
        ("centered", [(0, 91), (87, 213), (209, 300)]),
        ("even", [(0, 102 + 2 / 3), (98 + 2 / 3, 201 + 1 / 3), (197 + 1 / 3, 300)]),
    ],
)
def test_by_hand_three_hundred_inches(start: Start, spans: list[tuple[float, float]]) -> None:
    assert [(p.start, p.end) for p in pieces_of(300, start)] == [pytest.approx(span) for span in spans]


def test_by_hand_two_pieces_centered_are_even() -> None:
    """Two pieces have no middle: each has (200 + 4) / 2 = 102 in."""
    assert [p.length for p in pieces_of(200, "centered")] == [102, 102]


def test_by_hand_a_short_remainder_is_shared_and_a_long_one_stands() -> None:
    """262 in: two full lengths reach 248 in and leave 18; with the second it makes (126 + 18) / 2 = 72 in each.

    268 in leave just 24 in, which may stand.
    """
    assert [p.length for p in pieces_of(262, "shared")] == [126, 72, 72]
    assert [p.length for p in pieces_of(268, "shared")] == [126, 126, 24]
    assert [p.length for p in pieces_of(126, "shared")] == [126]


def test_marks_and_numbers_count_from_the_low_end() -> None:
    pieces = pieces_of(300)
    assert [p.mark for p in pieces] == [f"{RAKE.code}-{k}" for k in (1, 2, 3)]
    assert [p.number for p in pieces] == [1, 2, 3]


def test_only_the_remainder_is_the_short_piece() -> None:
    assert [p.short for p in pieces_of(300, "low")] == [False, False, True]
    assert [p.short for p in pieces_of(300, "high")] == [True, False, False]
    assert [p.short for p in pieces_of(300, "centered")] == [True, False, True]
    assert [p.short for p in pieces_of(300, "even")] == [False, False, False]
    assert [p.short for p in pieces_of(100)] == [False]


def test_each_piece_takes_the_shortest_stock_that_holds_it() -> None:
    assert [p.stock for p in pieces_of(300, stock=(72.0, 96.0, 126.0))] == [126, 126, 72]


@given(st.floats(10, 3000), st.floats(40, 200), st.floats(0.5, 24), st.sampled_from(STARTS))
def test_any_run_is_covered_with_exact_laps(total: float, stock: float, lap: float, start: Start) -> None:
    pieces = pieces_of(total, start, stock=(stock,), lap=lap)
    assert pieces[0].start == 0
    assert pieces[-1].end == pytest.approx(total, abs=1e-9)
    for before, after in pairwise(pieces):
        assert before.end - after.start == pytest.approx(lap, abs=1e-6)
    assert all(0 < p.length <= stock + 1e-6 for p in pieces)


@given(st.floats(10, 3000), st.floats(40, 200), st.floats(0.5, 24), st.sampled_from(STARTS))
def test_no_rule_takes_more_pieces_than_needed(total: float, stock: float, lap: float, start: Start) -> None:
    needed = max(1, ceil((total - lap) / (stock - lap) - 1e-9))
    assert len(pieces_of(total, start, stock=(stock,), lap=lap)) == needed


@given(st.floats(130, 3000), st.sampled_from(STARTS))
def test_the_remainder_lies_where_the_rule_says(total: float, start: Start) -> None:
    lengths = [p.length for p in pieces_of(total, start)]
    rest = total - (len(lengths) - 1) * 122
    assume(rest > 4 + ROOM)
    match start:
        case "low":
            assert lengths[:-1] == pytest.approx([126] * (len(lengths) - 1))
        case "high":
            assert lengths[1:] == pytest.approx([126] * (len(lengths) - 1))
        case "centered":
            assert lengths[1:-1] == pytest.approx([126] * (len(lengths) - 2))
            assert lengths[0] == pytest.approx(lengths[-1])
        case "shared" if rest < LEAST:
            assert lengths[:-2] == pytest.approx([126] * (len(lengths) - 2))
            assert lengths[-2] == pytest.approx(lengths[-1])
        case "shared":
            assert lengths[:-1] == pytest.approx([126] * (len(lengths) - 1))
        case "even":
            assert max(lengths) - min(lengths) < 1e-6


@given(st.floats(130, 3000))
def test_from_the_high_end_is_from_the_low_end_turned_round(total: float) -> None:
    low, high = pieces_of(total, "low"), pieces_of(total, "high")
    turned = [(total - p.end, total - p.start) for p in reversed(high)]
    assert [(p.start, p.end) for p in low] == [pytest.approx(span, abs=1e-6) for span in turned]


@given(st.floats(10, 2000))
def test_doubling_a_run_doubles_its_pieces_but_for_the_middle(total: float) -> None:
    once, twice = len(pieces_of(total)), len(pieces_of(2 * total))
    assert 2 * once - 1 <= twice <= 2 * once + 1


@given(st.floats(0.1, 20), st.floats(0, 12), st.floats(0, 12))
def test_a_remainder_keeps_room_for_its_lap_and_its_cuts(over: float, low: float, high: float) -> None:
    """A sliver borrows from its neighbor, and the laps stay what they are."""
    pieces = pieces_of(126 + over, depth=(low, high))
    assert pieces[-1].length >= high + 4 + ROOM - 1e-9
    assert pieces[0].length >= low + 4 + ROOM - 1e-9
    assert pieces[0].end - pieces[1].start == pytest.approx(4)


def test_by_hand_a_sliver_takes_what_it_lacks() -> None:
    """127 in: a second piece of 5 in has no room for a lap of 4, cuts of 3 and 3 in of whole metal: it gets 10."""
    assert [p.length for p in pieces_of(127, depth=(0.0, 3.0))] == pytest.approx([121, 10])


def test_a_remainder_keeps_its_lap_as_far_from_the_cuts_as_the_rule_wants() -> None:
    assert PLAIN.limits.number("lap-in-corner") <= ROOM


# Hand-placed pieces.


def test_hand_placed_pieces_lie_from_the_low_end_and_the_last_ends_with_the_run() -> None:
    pieces = pieces_of(200, by_hand=placed(126, 90))
    assert [(p.start, p.end) for p in pieces] == [(0, 126), (110, 200)]
    assert all(p.placed for p in pieces)


def test_one_hand_placed_piece_is_cut_to_the_run() -> None:
    (piece,) = pieces_of(100, by_hand=placed(126))
    assert (piece.start, piece.end) == (0, 100)


def test_hand_and_lie_of_a_placed_piece_are_kept() -> None:
    by_hand = (PlacedPiece(length=126, hand="left"), PlacedPiece(length=90, hand="right", lies="under"))
    pieces = pieces_of(200, by_hand=by_hand)
    assert [p.hand for p in pieces] == ["left", "right"]
    assert [p.lies for p in pieces] == [None, "under"]


def test_a_placed_piece_longer_than_any_stock_keeps_its_own_length_as_stock() -> None:
    assert [p.stock for p in pieces_of(200, by_hand=placed(150, 90))] == [150, 126]


@given(st.lists(st.floats(20, 150), min_size=2, max_size=6), st.floats(0, 3.9))
def test_placed_pieces_that_cover_the_run_lap_as_asked(lengths: list[float], spare: float) -> None:
    """All laps but the last are as asked; the last takes up what is over."""
    total = sum(lengths) - 4 * (len(lengths) - 1) - spare
    pieces = pieces_of(total, by_hand=placed(*lengths))
    laps = [before.end - after.start for before, after in pairwise(pieces)]
    assert laps[:-1] == pytest.approx([4.0] * (len(laps) - 1))
    assert laps[-1] == pytest.approx(4 + spare)


# Refusals: each names the run, the lack and the way out.


@pytest.mark.parametrize(
    ("lengths", "says"),
    [
        ((100,), "one piece of 8' 4\" leaves 8' 4\" of the run bare; it takes 16' 8\""),
        (
            (90, 90),
            "they leave 1' 8\" of the run bare; give 2' more, laps of 4\" included, or one piece more",
        ),
        ((126, 126, 20), "piece 3 would lie wholly on its neighbor"),
    ],
)
def test_placed_pieces_that_cannot_be_are_refused(lengths: tuple[float, ...], says: str) -> None:
    with pytest.raises(SceneError) as caught:
        pieces_of(200, by_hand=placed(*lengths))
    (problem,) = map(str, caught.value.problems)
    assert problem.startswith(f'run."{RAKE.name}".pieces: ')
    assert says in problem.replace("2' 0\"", "2'")


def test_what_the_refusal_asks_for_is_enough() -> None:
    """2 ft more than 90 + 90: 204 in of metal covers 200 in with one lap of 4 in."""
    assert len(pieces_of(200, by_hand=placed(90, 114))) == 2


def test_thousands_of_pieces_are_refused() -> None:
    with pytest.raises(SceneError, match=r'would take [\d,]+ pieces of 8" with a lap of 7 1/2"'):
        pieces_of(12_000, stock=(8.0,), lap=7.5)


# Laps: upslope over downslope; on the level, away from the wind.


def test_upslope_pieces_lie_over() -> None:
    for wind in ("left", "right", "front", "back"):
        assert [p.lies for p in pieces_of(300, wind=wind)] == [None, "over", "over"]


def test_level_laps_open_away_from_the_wind() -> None:
    """The front eave runs from left to right: wind from the left must find the first piece on top."""
    assert EAVE.edge.direction == pytest.approx([1, 0, 0])
    assert [p.lies for p in pieces_of(300, run=EAVE, wind="left")] == [None, "under", "under"]
    assert [p.lies for p in pieces_of(300, run=EAVE, wind="right")] == [None, "over", "over"]


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_run_is_covered_from_end_to_end(name: str) -> None:
    """At its high end a rake stays clear of the ridge line or of the trim above: 1/32 in level, more on a slope.

    An eave stays as clear of the bend of a rake without a hook lip.
    """
    plan = layout(name)
    for run in plan.runs:
        parts = [part for part in plan.parts if part.run is run]
        assert parts[0].low <= CLEARANCE
        assert parts[-1].high >= run.length - 1 / 4
        for before, after in pairwise(parts):
            assert before.high - after.low >= (0 if run.spec.pieces else run.spec.lap - TAPE)
