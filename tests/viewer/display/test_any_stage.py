"""Whatever roof can be laid out can be looked at."""

from typing import Any

import numpy as np
from any_scene import scenes
from hypothesis import given, settings

from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.viewer.display.stage import stage_of


@given(scenes())
@settings(max_examples=25)
def test_any_layout_can_be_looked_at(raw: dict[str, Any]) -> None:
    try:
        layout = build(scene_of(raw))
    except TrimwrightError:
        return
    stage = stage_of(layout, check(layout))
    for body in stage.bodies:
        assert np.isfinite(body.vertices).all()
        assert body.faces.max() < len(body.vertices)
    for view in stage.viewpoints.values():
        for shot in view.shots:
            assert np.isfinite(shot.eye).all() and shot.distance > 0
            assert 0 < shot.angle(1.6) < np.pi
        for label in view.labels:
            assert np.isfinite(label.points).all()
            assert len(label.points) == len(label.normals) > 0
