"""Metal that is already cut: what stays good when the roof is laid out otherwise, and what is bought besides."""

import numpy as np
import pytest

from trimwright.model.errors import SceneError
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.recut import Recut, recut, uncut
from trimwright.model.scene.draft import Change, draft_of
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.plan import Bought, CutPiece

GABLE = """
title = "Bait shed"
[roof]
form = "gable"
length = "27' 6\\""
width = "17'"
pitch = "6/12"
[trim.rake]
start = "low"
[buy]
kerf = 0
"""


def laid(*changes: Change, text: str = GABLE) -> Layout:
    return build(draft_of(text).changed(changes).scene())


def cut(*marks: str) -> Change:
    return Change(("cut",), list(marks))


def whole(found: Recut, old: Layout, new: Layout) -> None:
    """Every piece is accounted for once: those that are cut, and those that the roof takes."""
    taken = [mark for _, mark in (*found.good, *found.cut_down)] + list(found.to_cut)
    assert sorted(taken) == sorted(part.mark for part in new.parts)
    was = [mark for mark, _ in (*found.good, *found.cut_down)] + list(found.useless)
    assert sorted(was) == sorted({*old.scene.cut, *new.scene.cut})
    planned = [mark for trim in found.besides.trim for one in trim.plan.lengths for mark in one.pieces]
    assert sorted(planned) == sorted(found.to_cut)


def bought(found: Recut) -> float:
    return sum(trim.plan.bought for trim in found.besides.trim)


def test_where_nothing_changed_all_stays_good_and_nothing_is_bought() -> None:
    old, new = laid(), laid(cut("R1-1", "R1-2", "E1-1"))
    found = recut(old, new)
    whole(found, old, new)
    assert found.good == (("E1-1", "E1-1"), ("R1-1", "R1-1"), ("R1-2", "R1-2"))
    assert found.changed == found.recut == found.useless == ()
    assert bought(found) == 0
    assert found.besides.panels == found.besides.closures == () and found.besides.screws.buy == 0


def test_of_a_longer_house_only_what_reaches_its_far_end_is_cut_again() -> None:
    old, new = laid(), laid(cut("E1-1", "E1-3", "R1-1"), Change(("roof", "length"), "28' 6\""))
    found = recut(old, new)
    whole(found, old, new)
    assert ("E1-1", "E1-1") in found.good and ("R1-1", "R1-1") in found.good
    assert found.recut == ("E1-3",) and set(found.changed) >= {"E1-3", "E2-3", "C1-3"}
    assert not {"E1-1", "E1-2", "R1-1"} & set(found.changed)


def test_a_piece_too_long_is_cut_shorter_and_one_too_short_is_of_no_use() -> None:
    old, new = laid(), laid(cut("R1-1", "R1-2"), Change(("trim", "rake", "start"), "even"))
    found = recut(old, new)
    whole(found, old, new)
    assert found.cut_down == (("R1-1", "R1-1"),)
    assert found.useless == ("R1-2",) and found.recut == ("R1-2",)


def test_a_piece_serves_under_another_mark_where_the_shape_is_the_same() -> None:
    """The rakes at both ends are alike: what was cut for the one that is now laid out by hand fits the other."""
    hand = Change(("run", "right-end left rake", "pieces"), ["9'", "3'"])
    old, new = laid(), laid(cut("R1-1"), hand)
    found = recut(old, new)
    assert found.good == (("R1-1", "R3-1"),) and found.recut == ("R1-1",)
    whole(found, old, new)


def test_left_and_right_are_not_taken_for_each_other() -> None:
    """Left rakes are laid out otherwise; the right ones stay, and would take a left piece if hands did not count."""
    changes = [
        Change(("run", name, "pieces"), ["2'", "10' 6\""])
        for name in ("right-end left rake", "left-end left rake")
    ]
    old, new = laid(), laid(cut("R1-1"), *changes)
    runs = {part.mark: part.run for part in new.parts}
    for _, mark in (*(found := recut(old, new)).good, *found.cut_down):
        assert runs[mark].hand == "left"


def test_other_metal_makes_everything_of_no_use() -> None:
    old, new = laid(), laid(cut("R1-1"), Change(("metal", "thickness"), "22 ga"))
    found = recut(old, new)
    assert found.useless == ("R1-1",) and len(found.changed) == len(new.parts)


def test_a_hole_where_none_is_wanted_spoils_a_piece() -> None:
    drilled = GABLE + '[screws]\npilot = "1/8 in"\n'
    old, new = laid(text=drilled), laid(cut("E1-2"), Change(("screws", "spacing"), "11 in"), text=drilled)
    assert recut(old, new).useless == ("E1-2",)
    plain = recut(laid(), laid(cut("E1-2"), Change(("screws", "spacing"), "11 in")))
    assert plain.good == (("E1-2", "E1-2"),)
    assert recut(old, laid(cut("E1-2"), text=drilled)).good == (("E1-2", "E1-2"),)


def test_what_was_bought_and_is_whole_is_used_before_more_is_bought() -> None:
    old = laid()
    for seed in range(6):
        draw = np.random.default_rng(seed)
        change = Change(("roof", "length"), f"{int(draw.integers(300, 420))} in")
        marks = draw.choice([part.mark for part in old.parts], 5, replace=False).tolist()
        new = laid(cut(*marks), change)
        found = recut(old, new)
        whole(found, old, new)
        anew = sum(trim.plan.bought for trim in take_off(new).trim)
        had = sum(trim.plan.bought for trim in take_off(old).trim)
        assert anew - had - 1e-6 <= bought(found) <= anew + 1e-6


@pytest.mark.parametrize(
    ("cut", "whole"),
    [
        ("", [126]),
        ("A", [126 - 6.25]),
        ("B", [6.25, 126 - 26.5]),
        ("C", [26.5, 126 - 119.75]),
        ("BC", [6.25, 126 - 119.75]),
        ("AC", [20.25, 126 - 119.75]),
        ("ABC", [126 - 119.75]),
    ],
)
def test_what_lies_between_the_pieces_that_are_cut_is_whole(cut: str, whole: list[float]) -> None:
    """A of 6 in, B of 20 and C of 93 out of a length of 126, a quarter lost at each cut, 6 1/4 in left at its end."""
    pieces = (CutPiece("A", 0.0, 6.0), CutPiece("B", 6.25, 20.0), CutPiece("C", 26.5, 93.0))
    length = Bought("hook eave", 126.0, pieces, offcut=6.25, from_hand=False, price=None)
    assert list(uncut(length, set(cut), kerf=0.25)) == whole


@pytest.mark.parametrize("cut", ["A", "B"])
def test_six_inches_of_a_length_are_scrap(cut: str) -> None:
    pieces = (CutPiece("A", 0.0, 6.0), CutPiece("B", 6.0, 6.0))
    length = Bought("hook eave", 12.0, pieces, offcut=0.0, from_hand=False, price=None)
    assert list(uncut(length, set(cut), kerf=0.0)) == []


def test_a_piece_that_never_was_is_refused_by_name() -> None:
    with pytest.raises(SceneError, match="cut: R1-9: the old layout has no such piece; it has E1-1, "):
        recut(laid(), laid(cut("R1-9")))
