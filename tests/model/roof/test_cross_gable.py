"""A cross gable: a gable roof with a wing, built as an outline; its names stay when a size changes."""

import math
from typing import Any

import numpy as np
import pytest

from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge, Roof
from trimwright.model.scene.read import scene_of
from trimwright.model.scene.schema import Scene

HOUSE = {"form": "cross gable", "length": "40'", "width": "24'", "pitch": "6/12", "wall_height": "10'"}


def scene(**wing: Any) -> Scene:
    return scene_of(
        {
            "title": "Cross gable",
            "roof": {**HOUSE, "wing": {"at": "14'", "width": "14'", "length": "10'", **wing}},
        }
    )


def cross(**wing: Any) -> Roof:
    return build_roof(scene(**wing).roof)


def edge(roof: Roof, name: str) -> Edge:
    return next(edge for edge in roof.edges if edge.name == name)


def test_the_wings_ridge_dies_into_the_front_slope() -> None:
    """By hand: half the wing over 1 ft eaves is 8 ft: its ridge is 4 ft over the eaves, 8 ft in from the front's."""
    roof = cross()
    ridge, eave = edge(roof, "ridge 2-4"), edge(roof, "eave 1")
    assert ridge.start[2] - eave.start[2] == pytest.approx(48.0)
    inner = max(ridge.start[1], ridge.end[1])
    assert inner == pytest.approx(-12.0 + 96.0)
    assert ridge.length == pytest.approx(120.0 + 8.0 + inner)
    for name in ("valley 1-2", "valley 1-4"):
        assert edge(roof, name).length == pytest.approx(math.sqrt(96**2 + 96**2 + 48**2))


def test_unequal_pitches_lay_the_valley_off_the_diagonal() -> None:
    """By hand: wing half-span 8 ft at 9/12 rises 6 ft, which the front at 6/12 reaches 12 ft in."""
    valley = edge(cross(pitch="9/12"), "valley 1-2")
    across, in_ = np.abs(valley.end - valley.start)[:2]
    assert (across, in_) == pytest.approx((96.0, 144.0))


def test_areas_are_those_of_the_plan_over_the_slope() -> None:
    roof = cross()
    plan = (480 + 16) * (288 + 24) + (168 + 24) * (120 + 8 - 12)
    assert sum(face.area for face in roof.faces) == pytest.approx(plan / math.cos(math.atan(0.5)))


def test_names_stay_when_a_size_changes() -> None:
    names = {edge.name for edge in cross().edges}
    for change in ({"at": "10'"}, {"width": "12'"}, {"length": "6'"}, {"pitch": "8/12"}):
        assert {edge.name for edge in cross(**change).edges} == names


@pytest.mark.parametrize(
    "wing", [{}, {"pitch": "5/12"}, {"at": "2'", "length": "6'"}, {"at": "4'", "width": "28'"}]
)
def test_it_is_laid_out_without_an_error(wing: dict[str, str]) -> None:
    assert not [one for one in check(build(scene(**wing))) if one.severity == "error"]


@pytest.mark.parametrize(
    ("wing", "says"),
    [
        (
            {"at": "28'"},
            'roof.wing.at: 28\' 0" leaves less than 6" of wall beside the wing; give 6" to 25\' 6"',
        ),
        ({"at": 0}, 'roof.wing.at: 0" leaves less than 6" of wall'),
        ({"width": "50'"}, "roof.wing.width: 50' 0\" leaves no wall beside it; give at most 39' 0\""),
        ({"width": -4}, "roof.wing.width: -4 is not a length"),
        ({"span": 4}, "roof.wing.span: no such key"),
    ],
)
def test_a_wing_that_does_not_fit_is_refused(wing: dict[str, Any], says: str) -> None:
    with pytest.raises(SceneError) as caught:
        scene(**wing)
    assert says in str(caught.value)
