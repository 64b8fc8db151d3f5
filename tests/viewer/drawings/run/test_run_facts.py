"""What drawings of a run know: seams where the panels have them, ends in words."""

import numpy as np
import pytest
from pytest import approx
from zoo import NAMES, layout

from trimwright.model.pipeline import build
from trimwright.viewer.drawings.run.run_facts import end_notes, facts_of, merged, seams_at
from trimwright.viewer.words.speaker import speaker_of


def test_seams_cross_an_eave_at_every_cover_width_by_hand() -> None:
    # boat-shed: 32 ft over the walls and 8 in of overhang at both rakes: 400 in. With the first
    # seam 8 in from the left they follow every 16 in: 8, 24 ... 392.
    scene = layout("boat-shed").scene
    plan = build(scene.model_copy(update={"panels": scene.panels.model_copy(update={"offset": 8.0})}))
    front = next(run for run in plan.runs if run.name == "front eave")
    assert [seam.u for seam in seams_at(front, plan.panels)] == approx([8.0 + 16.0 * k for k in range(25)])


def test_seams_meet_a_hip_from_both_sides_by_hand() -> None:
    # bakehouse: a pyramid of equal slopes on a square plan. A seam 17 k in from the corner meets the hip above it
    # where the hip has gone 17 k in along both eaves: u = 17 k sqrt(2 + tan²) with 8 in 12.
    plan = layout("bakehouse")
    hip = next(run for run in plan.runs if run.trim == "hip")
    seams = seams_at(hip, plan.panels)
    step = 17.0 * np.sqrt(2 + (8 / 12) ** 2)
    for side in (0, 1):
        at = [seam.u for seam in seams if seam.side == side]
        assert len(at) >= 8
        # The pan stops 2 in short of the hip, so that its seam ends a little below the crossing.
        ratios = np.diff(at) / step
        assert ratios == approx(np.ones(len(ratios)), abs=0.01)


@pytest.mark.parametrize("name", NAMES)
def test_no_seam_crosses_a_rake(name: str) -> None:
    plan = layout(name)
    for run in plan.runs:
        if run.trim == "rake":
            assert seams_at(run, plan.panels) == ()


@pytest.mark.parametrize("name", NAMES)
def test_seams_are_drawn_where_a_run_has_metal(name: str) -> None:
    plan = layout(name)
    for run in plan.runs:
        facts = facts_of(plan, run, ())
        metal = facts.parts[0].low, facts.parts[-1].high
        assert all(metal[0] <= seam.u <= metal[1] for seam in facts.seams)


def test_marks_that_read_the_same_are_one() -> None:
    assert merged([12.0, 6.0, 12.01, 6.0]) == (6.0, 12.0)


def test_ends_are_told_in_words() -> None:
    plan = layout("boat-shed")
    parts = {part.mark: part for part in plan.parts}
    assert end_notes([parts["R1-2"]], speaker_of(plan.scene)) == (
        'low end: lap of 4" over R1-1',
        "high end: peak under R2-2",
    )
    assert end_notes([parts["E1-1"]], speaker_of(plan.scene))[0] == "left end: eave-rake under R4-1"
