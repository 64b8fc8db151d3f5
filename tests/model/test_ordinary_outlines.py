"""Over an ordinary outline the tool's own choices cause no error, and no two pieces pass through each other."""

from typing import Any

import pytest
from ordinary_outlines import ordinary_outline
from solids import depths

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def assert_sound(raw: dict[str, Any]) -> None:
    """Check a roof: nothing is wrong with it, and by manifold3d no overlap is deeper than half a sheet."""
    layout = build(scene_of(raw))
    assert [str(found.message) for found in check(layout) if found.severity == "error"] == [], raw
    assert depths(layout) == [], raw


@pytest.mark.parametrize("pitch", ["4/12", "9/12"])
@pytest.mark.parametrize("lean", [-0.5, -0.2, 0.4])
def test_a_gable_need_not_be_square_to_its_eaves(lean: float, pitch: str) -> None:
    """Eave and rake, the peak and the end of the ridge, with sides that lean by up to 27 degrees."""
    deep = 240
    outline = [[0, 0], [360, 0], [360 + lean * deep, deep], [lean * deep, deep]]
    sides = {2: {"edge": "gable"}, 4: {"edge": "gable"}}
    roof = {"form": "outline", "outline": outline, "pitch": pitch, "sides": sides, "wall_height": 240}
    assert_sound({"title": "Leaning gable", "roof": roof})


@pytest.mark.parametrize("number", [5, 9, 21, 24, 65])
def test_edges_too_short_for_caps_are_bridged(number: int) -> None:
    """A hip of 7 to 15 in between a ridge, a hip and a valley, or two hips that run out on a slope close by."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [0, 3, 4, 6, 12, 20, 31, 33])
def test_an_ordinary_outline_is_sound(number: int) -> None:
    """An L, a Z, a plus, a T, one that leans, and bays of three and of five sides."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [19, 93])
def test_hooks_keep_to_their_own_panel(number: int) -> None:
    """A rake that leans begins an inch beside a seam, and a panel runs out in a point between valley and hip."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [17, 39, 106])
def test_closures_end_where_the_caps_over_them_do(number: int) -> None:
    """At a hip too short for a cap, at a break left bare, and where a hip is only sealed to a high edge."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [10, 64, 180])
def test_eave_trim_meets_at_blunt_and_at_sharp_corners(number: int) -> None:
    """At 163 degrees, at 67 inside, and at slopes so unlike that one face hangs lower than the other."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [47, 103, 215])
def test_pans_of_two_valleys_pass_and_meet(number: int) -> None:
    """In line on both sides of a short ridge, under a ridge beyond their heads, and where a rib leans over."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [84, 158])
def test_what_lies_at_the_head_of_a_valley_follows_the_edges_there(number: int) -> None:
    """A pan's wing along a hip of 4 in and the ridge beyond it, and cleats past the head toward another valley's."""
    assert_sound(ordinary_outline(number))
