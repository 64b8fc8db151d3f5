"""The steps make the cut: every line of a finished end is followed by some step, and every number can be said."""

import numpy as np
import pytest
import shapely
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Part
from trimwright.model.steps import Step


def left_uncut(part: Part, at: str, steps: tuple[Step, ...]) -> float:
    """Return the length of the end's outline that no cut follows, inches."""
    cut = part.sheet.low if at == "low" else part.sheet.high
    for tab in part.sheet.tabs:
        where = np.flatnonzero((cut == tab.hinge[0]).all(axis=1))
        if len(where):
            cut = np.insert(cut, where[0] + 1, tab.flap[::-1], axis=0)
    lines = [shapely.LineString(line) for step in steps if step.verb == "cut" for line in step.lines]
    return float(shapely.LineString(cut).difference(shapely.union_all(lines).buffer(1e-3)).length)


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_line_of_an_end_is_cut_by_a_step(name: str) -> None:
    bad = {
        (part.mark, one.at, getattr(one, "kind", "lap")): round(length, 3)
        for part in layout(name).parts
        for one in (*part.laps, *part.joints)
        if (length := left_uncut(part, one.at, one.steps)) > 0.05
    }
    assert bad == {}


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_steps_stay_on_the_sheet_and_can_be_said(name: str) -> None:
    plan = layout(name)
    for part in plan.parts:
        for one in (*part.laps, *part.joints):
            for step in one.steps:
                assert "{" not in step.say(plan.scene.tape)
                for line in step.lines:
                    u, v = np.array(line).T
                    assert v.min() >= -1e-9 and v.max() <= part.run.section.width + 1e-9
                    assert u.min() >= part.low - 1 and u.max() <= part.high + 1
