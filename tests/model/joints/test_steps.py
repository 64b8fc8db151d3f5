"""The steps make the cut: every line of a finished end is followed by some step, and every number can be said."""

import numpy as np
import pytest
from uncut import left_uncut
from zoo import NAMES, OTHERS, layout


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_line_of_an_end_is_cut_by_a_step(name: str) -> None:
    bad = {
        (part.mark, end.at, end.kind.name): round(length, 3)
        for part in layout(name).parts
        for end in part.ends
        if (length := left_uncut(end)) > 0.05
    }
    assert bad == {}


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_steps_stay_on_the_sheet_and_can_be_said(name: str) -> None:
    plan = layout(name)
    for part in plan.parts:
        for end in part.ends:
            for step in end.steps:
                assert "{" not in str(step.says)
                for line in step.lines:
                    u, v = np.array(line).T
                    assert v.min() >= -1e-9 and v.max() <= part.run.section.width + 1e-9
                    assert u.min() >= part.low - 1 and u.max() <= part.high + 1
