"""The lists: everything that the takeoff counts, in words and numbers that agree."""

import pytest
from pytest import approx
from zoo import NAMES, layout

from trimwright.model.message import counted
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.takeoff.count import take_off
from trimwright.model.units import Tape
from trimwright.viewer.buy.lists import lengths_list, lists_of, proofs, spread_out, text_of, texts
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.words.speaker import Speaker

PRICED = """
title = "Priced shed"
[roof]
form = "shed"
length = "30'"
width = "14'"
pitch = "4/12"
[buy]
kerf = "1/8 in"
stock = [
    { length = "10' 6\\"", price = 31.5 },
    { length = "8 ft", price = 22 },
    { length = "12 ft", profile = "hook rake", count = 1, on_hand = true },
]
"""


@pytest.mark.parametrize("name", NAMES)
def test_lists_agree_with_the_takeoff(name: str) -> None:
    plan = layout(name)
    takeoff = timed_takeoff(plan)
    lists = {each.key: each for each in lists_of(plan, takeoff)}
    bought = [length for length in takeoff.lengths if not length.from_hand]
    assert sum(row[4] for row in lists["trim-to-buy"].rows) == len(bought)  # type: ignore[misc]
    assert sum(row[6] for row in lists["trim-to-buy"].rows) == approx(takeoff.weight)  # type: ignore[misc]
    assert sorted(str(row[4]) for row in lists["cutting"].rows) == sorted(
        one.mark for one in (*plan.parts, *plan.cleats)
    )
    assert sum(row[0] for row in lists["panels"].rows) == len(plan.panels)  # type: ignore[misc]
    small = {row[0]: row for row in lists["small-parts"].rows}
    assert small[takeoff.screws.what][1] == len(plan.screws)
    taken = lengths_list(plan, takeoff)
    assert len(taken.rows) == len(takeoff.lengths)
    for each in (*lists.values(), taken):
        assert all(len(row) == len(each.fields) for row in each.rows)
        assert all(len(row) == len(each.fields) for row in texts(each, Speaker()))


def test_prices_and_stock_on_hand_are_told() -> None:
    plan = build(scene_from(PRICED, "priced.toml"))
    takeoff = timed_takeoff(plan, "money")
    lists = {each.key: each for each in lists_of(plan, takeoff)}
    assert [str(field.name) for field in lists["trim-to-buy"].fields][-2:] == ["Price each", "Price"]
    assert sum(row[-1] for row in lists["trim-to-buy"].rows) == approx(takeoff.price)  # type: ignore[misc]
    assert "on hand" in {str(row[2]) for row in lists["cutting"].rows}


def test_a_search_that_is_stopped_says_so() -> None:
    plan = layout("harbor-office")
    assert all("proven" in str(line) for line in proofs(timed_takeoff(plan)))
    hurried = list(map(str, proofs(timed_takeoff(plan, seconds=0.0))))
    assert any("stopped before the proof" in line and "%" in line for line in hurried)


@pytest.mark.parametrize(
    ("cell", "kind", "says"),
    [
        (None, "length", ""),
        ("text", "text", "text"),
        (126.0, "length", "10' 6\""),
        (0.066, "share", "6.6%"),
        (10.0, "weight", "10.0 lb"),
        (1234.5, "money", "1,234.50"),
        (7, "count", "7"),
        (0.25, "number", "0.25"),
    ],
)
def test_cells_read_as_people_write_them(cell, kind, says) -> None:  # type: ignore[no-untyped-def]
    assert text_of(cell, kind, Speaker()) == says
    if kind == "weight":
        assert text_of(cell, kind, Speaker(tape=Tape("mm"))) == "4.5 kg"


def test_spreadsheets_get_lengths_twice() -> None:
    plan = layout("boat-shed")
    panels = next(each for each in lists_of(plan, timed_takeoff(plan)) if each.key == "panels")
    names, rows = spread_out(panels, Speaker())
    assert names == ["Panels", "Width", "Width, in", "Length", "Length, in"]
    assert ["1' 7 13/16\"", 19.8125] in [row[1:3] for row in rows]


def test_cleats_of_a_valley_and_of_bare_edges_are_listed_with_what_holds_them() -> None:
    plan = layout("rope-store")
    takeoff = take_off(plan)
    cleats = {each.key: each for each in lists_of(plan, takeoff)}["cleats"]
    assert [row[0] for row in cleats.rows] == [f"V1-K{k}" for k in range(1, 7)]
    assert [row[5] for row in cleats.rows] == [
        counted("{count} rivet", "{count} rivets", count=len(cleat.screws)) for cleat in plan.cleats
    ]
    assert takeoff.rivets.needed == sum(len(cleat.screws) for cleat in plan.cleats)
    assert takeoff.cleat_screws.needed == 0
    # Three pans of 7' 4 3/4": eight gaps of 12 in or less on each of two hems.
    assert takeoff.pan_cleats.needed == 3 * 2 * 9
    boxed = take_off(layout("boxed-gable"))
    assert boxed.cleat_screws.needed == sum(len(cleat.screws) for cleat in layout("boxed-gable").cleats) > 0
    assert boxed.rivets.needed == boxed.pan_cleats.needed == 0
    assert "cleats" not in {each.key for each in lists_of(layout("boat-shed"), take_off(layout("boat-shed")))}


def test_cleats_tell_how_they_lap_and_are_cut_from_stock() -> None:
    """An eave of 60 ft is cleated in lengths of 20 ft at most: each says over which it lies, and under which."""
    plan = build(
        scene_from(
            'title = "Shed"\n[roof]\nform = "shed"\nlength = "60\'"\nwidth = "12\'"\npitch = "4/12"\n'
            '[metal]\nstock = ["20\'"]\n[trim.eave]\nprofile = "plain drip"\n',
            "shed.toml",
        )
    )
    lists = {each.key: each for each in lists_of(plan, take_off(plan))}
    cleats = lists["cleats"]
    assert len(cleats.rows) == len(plan.cleats) > 3
    assert [str(row[4]) for row in cleats.rows[:2]] == ["over E1-K2", "under E1-K1 and over E1-K3"]
    assert {str(row[4]) for row in lists["cutting"].rows} >= {cleat.mark for cleat in plan.cleats}
    assert any("one screw through both" in str(note) for note in cleats.notes)
