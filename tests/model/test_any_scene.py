"""Whatever a scene asks for, it ends in a layout or in a refusal that says why."""

from typing import Any

import numpy as np
from any_scene import scenes
from hypothesis import event, given, settings

from trimwright.model.checks.run import check
from trimwright.model.errors import TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


@settings(max_examples=25)
@given(scenes())
def test_any_scene_is_laid_out_or_refused_in_words(raw: dict[str, Any]) -> None:
    try:
        layout = build(scene_of(raw))
        findings = check(layout)
    except TrimwrightError as error:
        event("refused")
        assert str(error).strip()
        return
    event("laid out")
    for part in layout.parts:
        assert np.isfinite(part.solid.vertices).all()
        assert 0 < part.length < float("inf")
        assert part.solid.volume > 0
    for screw in layout.screws:
        assert np.isfinite(screw.point).all()
    for finding in findings:
        assert finding.message and finding.remedy
        assert np.isfinite(finding.point).all()
