"""A hip's cap at a gable: a ridge that is not level, as over two eaves that are not parallel."""

import math

import numpy as np
import pytest
from covered import assert_covered
from ordinary_outlines import ordinary_outline
from solids import depths
from sound import assert_sound
from uncut import left_uncut

from trimwright.model.checks.run import check
from trimwright.model.joints import hip_at_gable, peak
from trimwright.model.joints.end import End
from trimwright.model.joints.ridge_end import COVER
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.sheet.fold import Facet, facets

RISING_RIDGE = """
title = "Ridge that rises along the house"
[roof]
form = "outline"
outline = [[0, 0], ["26'", "-4'"], ["26'", "20'"], [0, "16'"]]
pitch = "6/12"
wall_height = "9'"
sides.2 = { edge = "gable" }
sides.4 = { edge = "gable" }
"""

TURNED = (3000, 3009, 3013, 3022, 3035, 3075, 3090)
"""Outlines with one: it rises from the gable by up to 35 degrees, or falls, up to 33 degrees off square to it."""


def made(there: Layout) -> list[tuple[Part, End]]:
    """Return the caps that end so, and their ends."""
    return [(part, end) for part in there.parts for end in part.ends if end.kind is hip_at_gable.KIND]


def turned_down(part: Part, end: End) -> list[Facet]:
    """Return the flaps at an end."""
    low, high = end.reach
    return [one for one in facets(part.sheet) if one.tab and low - 1 < one.ring[:, 0].mean() < high + 1]


def set_out(part: Part, facet: Facet) -> np.ndarray:
    """Return the corners of a facet in the scene frame, ``(n, 3) float, inches``."""
    return facet.to_space(facet.ring) @ part.placement[:3, :3].T + part.placement[:3, 3]


def test_flaps_are_folded_plumb() -> None:
    """By hand: eaves that turn from the ridge by d, tan d = 4' / 26', fall away from it at 1 in 2.

    The painted normal of a wing is ``(-sin d, cos d, 2) / sqrt 5``, that of its flap ``(-1, 0, 0)`` at the low end and
    ``(1, 0, 0)`` at the high one: 86.1 and 93.9 degrees from each other.
    """
    there = build(scene_from(RISING_RIDGE))
    leans = math.degrees(math.asin(math.sin(math.atan(4 / 26)) / math.sqrt(5)))
    assert not check(there) and depths(there) == []
    ends = made(there)
    assert {end.at for _, end in ends} == {"low", "high"} and len(ends) == 2
    for part, end in ends:
        folds = [math.degrees(abs(tab.angle)) for tab in end.cut.tabs]
        assert folds == pytest.approx([90 + (leans if end.at == "high" else -leans)] * 2, abs=0.1)
        corner = part.run.edge.start if end.at == "low" else part.run.edge.end
        out = -1 if end.at == "low" else 1
        past = np.concatenate(
            [(set_out(part, one)[:, 0] - corner[0]) * out for one in turned_down(part, end)]
        )
        assert np.ptp(past) < 0.01 and 1.0 < past.mean() < 2.0


@pytest.mark.parametrize("number", TURNED)
def test_they_hang_over_the_rakes_and_nothing_is_wrong_there(number: int) -> None:
    """Against manifold3d and every rule; its steps follow every line of the cut, and the rakes' of the peak below."""
    there = build(scene_of(ordinary_outline(number)))
    assert "corner-without-joint" not in {one.rule for one in check(there)}
    assert_sound(there)
    assert_covered(there)
    assert max(left_uncut(end) for part in there.parts for end in part.ends) < 0.05
    ends = made(there)
    assert ends
    for part, end in ends:
        met = [there.part(mark) for mark in end.others]
        assert [one.ends.high.kind for one in met] == [peak.KIND, peak.KIND]
        flaps = turned_down(part, end)
        assert len(flaps) == 2
        for flap, face in zip(flaps, part.run.edge.faces, strict=True):
            normal = there.roof.faces[face].normal
            above = (set_out(part, flap) - part.run.edge.start) @ normal / normal[2]
            assert above.min() <= -COVER + there.scene.metal.thickness
            assert np.sort(above)[1] <= -COVER + there.scene.metal.thickness
