"""The order of setting: all of it once, under before over, and as wind and water make the laps lie."""

from dataclasses import replace
from typing import Any

import pytest
from zoo import NAMES, OTHERS, layout

from trimwright.model.edge_kinds import KINDS
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.setting_order import order_of_setting

ROOF = {"form": "gable", "length": "40'", "width": "16'", "pitch": "6/12"}
RING = "slip-shed"
"""It has pieces placed by hand that lie on each other in a ring."""


def made(**tables: Any) -> Layout:
    return build(scene_of({"title": "Order", "roof": ROOF, **tables}))


def trim(plan: Layout, run: str) -> list[int]:
    """Return the numbers of the pieces of a run in the order in which they go on."""
    return [
        plan.part(one.name).piece.number
        for one in plan.order
        if one.kind == "trim" and plan.part(one.name).run.name == run
    ]


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_piece_and_panel_is_set_once_on_what_is_there(name: str) -> None:
    plan = layout(name)
    names = [one.name for one in plan.order]
    assert sorted(names) == sorted(
        [
            *(part.mark for part in plan.parts),
            *(cleat.mark for cleat in plan.cleats),
            *(panel.name for panel in plan.panels),
            *(closure.name for closure in plan.closures),
        ]
    )
    place = {name: i for i, name in enumerate(names)}
    assert all(place[under] < place[one.name] for one in plan.order for under in one.over)


@pytest.mark.parametrize("name", [name for name in [*NAMES, *OTHERS] if name != RING])
def test_whatever_an_end_lies_over_is_under_it(name: str) -> None:
    plan = layout(name)
    over = {one.name: set(one.over) for one in plan.order}
    for part in plan.parts:
        for end in part.ends:
            for other in end.others:
                assert end.lies != "over" or other in over[part.mark]
                assert end.lies != "under" or part.mark in over[other]


@pytest.mark.parametrize(("wind", "numbers"), [("left", [5, 4, 3, 2, 1]), ("right", [1, 2, 3, 4, 5])])
def test_a_level_run_begins_at_the_end_away_from_the_wind(wind: str, numbers: list[int]) -> None:
    """Seen from the front, the front eave runs from left to right; its laps open away from the wind."""
    plan = made(wind=wind)
    assert trim(plan, "front eave") == numbers
    assert trim(plan, "back eave") == numbers[::-1]
    assert trim(plan, "right-end left rake") == sorted(trim(plan, "right-end left rake"))


def test_edges_come_first_then_panels_then_what_covers_them() -> None:
    plan = layout("harbor-office")
    stages = [
        {"cleat": 1, "panel": 2, "closure": 3}.get(one.kind)
        or (0 if KINDS[plan.part(one.name).run.trim].is_covered else 4)
        for one in plan.order
    ]
    assert stages == sorted(stages) and set(stages) == {0, 2, 3, 4}


def test_a_panel_lies_on_the_trim_that_it_hooks_and_a_cap_on_the_panels_under_it() -> None:
    """Panel 1 of the front covers its first 16 in, and hooks the rake there."""
    plan = made(wind="right")
    first = next(panel.name for panel in plan.panels_of(0))
    low = {part.mark for part in plan.parts if part.piece.number == 1 and part.run.name == "front eave"}
    rake = {part.mark for part in plan.parts_of("left-end right rake")}
    assert set(plan.setting(first).over) == low | rake
    for part in plan.parts_of("ridge"):
        under = plan.setting(part.mark).over
        assert {panel.face for panel in plan.panels if panel.name in under} == {0, 1}
        assert {one.face for one in plan.closures if one.name in under} == {0, 1}


def test_each_panel_folds_over_the_one_before_it_and_carries_its_closure() -> None:
    plan = made()
    first, second, *_ = (panel.name for panel in plan.panels_of(0))
    assert first in plan.setting(second).over and second not in plan.setting(first).over
    assert all(plan.setting(one.name).over == (one.panel,) for one in plan.closures)


def test_a_cleat_lies_on_the_trim_and_under_the_panels_that_hook_it() -> None:
    plan = layout("boxed-gable")
    cleats = {cleat.mark: cleat for cleat in plan.cleats}
    for cleat in plan.cleats:
        under = plan.setting(cleat.mark).over
        laps = {mark for end in cleat.laps if end.lies == "over" for mark in end.others}
        assert laps == cleats.keys() & set(under), "over the cleats that it laps"
        assert {plan.part(mark).run.name for mark in {*under} - laps} == {cleat.at}
        assert any(cleat.mark in plan.setting(panel.name).over for panel in plan.panels)


def test_a_turned_joint_turns_the_order() -> None:
    usual, turned = made(), made(run={"right-end left rake": {"over": ["rake"]}})
    left, right = (turned.parts_of(f"right-end {hand} rake")[-1].mark for hand in ("left", "right"))
    assert left in usual.setting(right).over and right in turned.setting(left).over


def test_pieces_that_lie_over_each_other_in_a_ring_still_get_an_order() -> None:
    plan = layout("boat-shed")
    second = plan.parts_of("right-end left rake")[1]
    ring = replace(second, ends=second.ends._replace(low=replace(second.ends.low, lies="under")))
    parts = [ring if part is second else part for part in plan.parts]
    order = order_of_setting(parts, plan.panels, plan.closures, plan.cleats)
    names = [one.name for one in order]
    assert sorted(names) == sorted(one.name for one in plan.order)
    place = {name: i for i, name in enumerate(names)}
    assert all(place[under] < place[one.name] for one in order for under in one.over)


def test_panels_lie_on_the_valley_that_they_end_at() -> None:
    """By hand: the valley of an L lies between the two faces that look into its corner; those end on it, no others."""
    corners = [[0, 0], [480, 0], [480, 240], [240, 240], [240, 480], [0, 480]]
    plan = build(scene_of({"title": "L", "roof": {"form": "outline", "pitch": "6/12", "outline": corners}}))
    (valley,) = (run for run in plan.runs if run.trim == "valley")
    marks = {part.mark for part in plan.parts_of(valley.name)}
    on_it = {panel.face for panel in plan.panels if marks & set(plan.setting(panel.name).over)}
    assert on_it == set(valley.edge.faces)
    names = [one.name for one in plan.order]
    last = max(names.index(mark) for mark in marks)
    assert last < min(names.index(panel.name) for panel in plan.panels)
