"""The order of install: everything once, under before over, panels between the edges and the caps."""

import numpy as np
import pytest
from zoo import NAMES, layout

from trimwright.viewer.display.setting_steps import steps_of


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_and_panel_is_set_once(name: str) -> None:
    roof = layout(name)
    steps = steps_of(roof)
    set_down = [one for step in steps for one in step.names]
    assert sorted(set_down) == sorted(
        [part.mark for part in roof.parts]
        + [panel.name for panel in roof.panels]
        + [closure.name for closure in roof.closures]
        + [cleat.mark for cleat in roof.cleats]
    )
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))


@pytest.mark.parametrize("name", [name for name in NAMES if name != "slip-shed"])
def test_what_lies_under_is_set_before_what_lies_over(name: str) -> None:
    place = {mark: step.number for step in steps_of(layout(name)) for mark in step.names}
    for part in layout(name).parts:
        for lap in part.ends.laps:
            (other,) = lap.others
            under, over = (other, part.mark) if lap.lies == "over" else (part.mark, other)
            assert place[under] < place[over]


@pytest.mark.parametrize("name", NAMES)
def test_a_step_names_what_it_lies_over_only_once_that_is_there(name: str) -> None:
    there: set[str] = set()
    for step in steps_of(layout(name)):
        assert there.issuperset(step.over)
        there |= step.names


def test_panels_come_after_the_edges_and_before_the_caps() -> None:
    roof = layout("boat-shed")
    trim = {part.mark: part.run.trim for part in roof.parts}
    kinds = [step.kind if step.kind == "panels" else trim[str(step.title)] for step in steps_of(roof)]
    assert list(dict.fromkeys(kinds)) == ["eave", "rake", "panels", "ridge"]


def test_a_piece_comes_from_above_and_from_outside() -> None:
    roof = layout("boat-shed")
    middle = roof.roof.vertices.mean(axis=0)
    for step in steps_of(roof):
        assert np.linalg.norm(step.away) == pytest.approx(1)
        assert step.away[2] > 0.2
        if step.kind == "trim" and str(step.title)[0] != "C":
            part = next(part for part in roof.parts if part.mark == str(step.title))
            out = part.solid.vertices.mean(axis=0) - middle
            level = step.away * [1, 1, 0]
            assert np.linalg.norm(level) < 1e-9 or level @ (out * [1, 1, 0]) > 0
