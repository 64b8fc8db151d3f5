"""The peak: the face underneath runs on behind the one on top, clear of the bend under its hook lip."""

import numpy as np
import pytest

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.sheet.fold import in_scene
from trimwright.model.tolerances import CLEARANCE

SCENE = """
title = "Peak"
[roof]
form = "gable"
length = "20'"
width = "16'"
pitch = "{near}"
far_pitch = "{far}"
"""


@pytest.mark.parametrize(
    ("near", "far"),
    [("3/12", "3/12"), ("6/12", "6/12"), ("12/12", "12/12"), ("20/12", "20/12"), ("9/12", "5/12")],
)
def test_the_underlap_stays_below_the_upper_bend_of_the_piece_on_top(near: str, far: str) -> None:
    plan = build(scene_from(SCENE.format(near=near, far=far)))
    parts = {part.mark: part for part in plan.parts}
    peaks = [(p, j) for p in plan.parts for j in p.ends if j.kind.name == "peak" and j.lies == "under"]
    assert len(peaks) == 2
    for under, joint in peaks:
        over = parts[joint.others[0]]
        face, v = over.run.section.strip_of("face"), over.run.section.v
        ends = np.array([[over.low, v[face]], [over.high, v[face]], [over.low, v[face + 1]]])
        start, end, lower = in_scene(over.run.section, face, over.placement, ends)
        along, down = (
            (end - start) / np.linalg.norm(end - start),
            (lower - start) / np.linalg.norm(lower - start),
        )
        face, v = under.run.section.strip_of("face"), under.run.section.v
        cut = under.sheet.high.line
        cut = cut[(cut[:, 1] > v[face] - 1e-9) & (cut[:, 1] < v[face + 1] + 1e-9)]
        points = in_scene(under.run.section, face, under.placement, cut) - start
        behind = points @ along < np.linalg.norm(end - start)
        drops = (points @ down)[behind]
        assert behind.any()
        assert drops.min() == pytest.approx(under.run.section.thickness + CLEARANCE, abs=2e-3)
