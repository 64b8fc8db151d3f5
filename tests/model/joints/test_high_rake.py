"""The top corners of a shed whose high edge is not square to its rakes."""

import math

import numpy as np
import pytest
from sound import assert_sound
from uncut import left_uncut

from trimwright.model.joints import high_rake
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import in_scene


def shed(left: float, right: float, rise: float) -> Layout:
    """Return a shed whose rakes lean in by so much for each inch, 200 in deep in plan."""
    corners = [
        [0, 0, 200],
        [360, 0, 200],
        [360 - right * 200, 200, 200 + rise],
        [left * 200, 200, 200 + rise],
    ]
    return build(scene_of({"title": "Shed", "roof": {"form": "faces", "faces": [corners]}}))


@pytest.mark.parametrize("rise", [40.0, 200.0])
@pytest.mark.parametrize("leans", [(0.0, -0.1), (-0.3, -0.5), (0.3, 0.5)])
def test_nothing_is_wrong_there(leans: tuple[float, float], rise: float) -> None:
    layout = shed(*leans, rise)
    assert_sound(layout)
    assert max(left_uncut(end) for part in layout.parts for end in part.ends) < 0.05


def test_the_end_of_the_top_leg_is_folded_along_the_rake() -> None:
    """By hand: the rake leans out by 1 in 2, 26.57 degrees in plan; both ends of the fold are as far out from it."""
    layout = shed(0.0, -0.5, 100.0)
    rake = layout.run("right-end left rake").edge
    (part,) = (part for part in layout.parts_of("back high edge") if part.ends.low.kind is high_rake.KIND)
    lid = part.ends.low.cut.tabs[0]
    ends = in_scene(part.run.section, lid.strip, part.placement, lid.hinge)
    way = ends[1] - ends[0]
    assert math.degrees(math.atan2(abs(way[0]), abs(way[1]))) == pytest.approx(26.565, abs=0.1)
    out = (ends - rake.start)[:, :2] @ np.array([2.0, -1.0]) / math.sqrt(5)
    assert out[0] == pytest.approx(out[1], abs=0.01) and 0.25 < out[0] < 2
