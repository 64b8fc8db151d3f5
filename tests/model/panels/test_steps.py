"""How a panel is made, in words: every fold of its sheet is told once, with the lengths of the sheet."""

import math
from dataclasses import replace

import pytest
from zoo import layout

from trimwright.model.panels.steps import panel_steps


def said(panel):
    return [str(step.says) for step in panel_steps(panel)]


def test_a_panel_of_a_hip_is_told_with_its_bevel_and_both_ends():
    here = layout("harbor-office")
    panel = next(
        panel
        for panel in here.panels
        if panel.edges == ("over", "under")
        and [end.border for end in panel.ends] == ["front eave", "front-left hip"]
    )
    words = said(panel)
    degrees = round(abs(math.degrees(panel.ends[1].bevel)))
    assert any(f"{degrees} degrees off square" in one and "front-left hip" in one for one in words)
    assert any("to hook the lip of the front eave" in one for one in words)
    assert any(one.startswith("Turn the end up") and "front-left hip" in one for one in words)
    assert words[-2:] == [
        "Fold the left edge up, over and in: it laps over the panel beside it.",
        "Fold the right edge up and over: it lies under the panel beside it.",
    ]


def test_every_flap_and_every_bend_of_a_panel_is_folded_once():
    for name in ("boat-shed", "bakehouse"):
        for panel in layout(name).panels:
            steps = panel_steps(panel)
            lines = [line for step in steps if step.verb == "fold" for line in step.lines]
            assert len(lines) == len(panel.sheet.tabs) + len(panel.sheet.section.bends)
            assert steps[0].lengths == {"length": panel.length, "width": panel.width}


@pytest.mark.parametrize(("bevel", "told"), [(0.3, False), (0.8, True), (-0.3, False), (-0.8, True)])
def test_a_bevel_is_told_from_half_a_degree_on(bevel, told):
    """It is an eighth of an inch across a panel of 15 in."""
    panel = layout("boat-shed").panels[0]
    ends = tuple(replace(end, bevel=math.radians(bevel)) for end in panel.ends)
    assert any("off square" in one for one in said(replace(panel, ends=ends))) == told
