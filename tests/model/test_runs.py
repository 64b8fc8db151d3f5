"""A scene may give eave and rake trim a face of its own width."""

import pytest

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

GABLE = """
title = "Gable"
[roof]
form = "gable"
length = "18'"
width = "14'"
pitch = "6/12"
"""


def test_a_deeper_face_is_deeper_by_what_is_asked_and_no_other_leg_changes() -> None:
    rakes = '[trim.rake]\nface = "3 1/2 in"\n'
    plain, deep = (
        build(scene_from(f'{GABLE}{rakes}[trim.eave]\nface = "{face}"\n'))
        for face in ("3 1/2 in", "4 1/2 in")
    )
    for before, after in zip(plain.runs, deep.runs, strict=True):
        face = before.section.leg("face")
        wider = after.section.v[1:] - after.section.v[:-1] - (before.section.v[1:] - before.section.v[:-1])
        for strip, by in enumerate(wider):
            asked = 1.0 if before.trim == "eave" and face is not None and strip == face.strip else 0.0
            assert by == pytest.approx(asked, abs=1e-9)
