"""Laps that people see: by street and doors, and how few there could be."""

import pytest

from trimwright.model.checks.sight import doors_under, fewest_seen, is_over, seen_laps
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

GABLE = """
title = "Net store"
{street}
[roof]
form = "gable"
length = "28'"
width = "24'"
pitch = "6/12"
[trim.rake]
start = "even"
"""
DOOR = '[[house.opening]]\nkind = "door"\nwall = "back"\nat = "18\'"\n'


def laid(street: str = "", more: str = "") -> Layout:
    return build(scene_from(GABLE.format(street=street) + more))


def test_without_a_street_all_laps_of_eaves_and_rakes_are_seen_and_none_of_caps() -> None:
    layout = laid()
    by_hand = {run.name: len(layout.parts_of(run.name)) - 1 for run in layout.runs if run.trim != "ridge"}
    seen = [lap.run.name for lap in seen_laps(layout)]
    assert {name: seen.count(name) for name in by_hand} == by_hand
    assert len(seen) == sum(by_hand.values()) > 0


@pytest.mark.parametrize(("more", "over"), [("", 0), (DOOR, 1)])
def test_with_a_street_those_of_its_side_and_those_over_doors(more: str, over: int) -> None:
    """Three lengths of 10 ft 6 in for a back eave of 29 ft 4 in: its laps are about 10 and 20 ft from either end."""
    seen = list(seen_laps(laid('street = "front"', more)))
    assert {lap.run.name for lap in seen if not lap.over_door} == {"front eave"}
    assert [lap.run.name for lap in seen if lap.over_door] == ["back eave"] * over


@pytest.mark.parametrize(
    ("first", "last", "over"),
    [
        (251, 255, False),
        (250, 254, True),
        (220, 228, True),
        (194, 198, True),
        (193, 197, False),
        (0, 300, True),
    ],
)
def test_what_is_a_foot_from_a_door_is_over_it(first: float, last: float, over: bool) -> None:
    """The rake hangs 8 in over: the door's middle is 216 + 8 in along the gable's back eave, its jambs 15 in off."""
    layout = laid("", DOOR + 'width = "30 in"\n')
    run = layout.run("back eave")
    assert is_over(layout, run, doors_under(layout, run), first, last) == over


def test_no_layout_has_fewer_than_the_fewest() -> None:
    """29 ft 4 in of eave take three lengths of 10 ft 6 in, 14 ft 2 in of rake two."""
    assert fewest_seen(laid()) == 2 * 2 + 4 * 1
    assert fewest_seen(laid('street = "front"')) == 2
    assert len(list(seen_laps(laid()))) >= fewest_seen(laid())
