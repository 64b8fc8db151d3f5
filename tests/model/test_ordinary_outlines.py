"""Over an ordinary outline the tool's own choices cause no error, and no two pieces pass through each other."""

import math
from typing import Any

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline
from outlines import sharpest
from solids import depths

from trimwright.model.checks.run import check
from trimwright.model.errors import GeometryError, SceneError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

OPEN = frozenset({16, 81})
"""Outlines with something wrong: where slopes in one plane, or valleys and ridges, meet within inches."""


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


def test_a_valley_straight_up_the_slope_has_no_row_of_screws_for_seams_to_keep_off() -> None:
    """Nearly so: it leans by half a degree, and panels hook its cleats."""
    assert_sound(ordinary_outline(7023))


@pytest.mark.parametrize("number", [7011, 7031])
def test_seams_keep_off_inside_corners(number: int) -> None:
    """By more than the limit: it is no place to stand on."""
    assert "seam-too-close" not in {found.rule for found in check(build(scene_of(ordinary_outline(number))))}


@pytest.mark.parametrize("number", [19, 93])
def test_hooks_keep_to_their_own_panel(number: int) -> None:
    """A rake that leans begins an inch beside a seam, and a panel runs out in a point between valley and hip."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [113, 151, 186])
def test_end_panels_come_out_of_their_sheet(number: int) -> None:
    """A rake leans a little, or by 27 degrees, and the flap that hooks it takes its share of the sheet."""
    assert_sound(ordinary_outline(number))


def test_a_panel_that_ends_under_a_hip_may_reach_far_past_the_others_on_the_deck() -> None:
    """Its pan ends 6 in inside the deck's corner, and seams elsewhere would leave an inch of hook beside a valley."""
    assert_sound(ordinary_outline(205))


@pytest.mark.parametrize("number", [148, 8013])
def test_a_short_cap_that_lies_on_others_comes_down_to_its_lap(number: int) -> None:
    """Three hips of a bay meet: its last length lies on the others by four sheets, more than a hem closes round."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [7006, 8117])
def test_a_blunt_miter_is_closed_by_the_back_of_the_face_that_lies_over(number: int) -> None:
    """A rake goes on at 16 degrees to its eave, whose face ends an eighth short of its edge, right behind it."""
    assert_sound(ordinary_outline(number))


def test_a_corner_too_flat_for_its_joint_is_sealed() -> None:
    """Two slopes beside a bay are one plane, and a hip between them a line on it: no cut along it crosses a cap."""
    layout = build(scene_of(ordinary_outline(8266)))
    assert "corner-without-joint" in {found.rule for found in check(layout)}


@pytest.mark.parametrize("number", [8199, 8210])
def test_where_a_hip_goes_on_in_line_with_a_valley_its_pan_ends_square(number: int) -> None:
    """Else its end is cut along a line that never crosses it."""
    assert build(scene_of(ordinary_outline(number))).parts


@pytest.mark.parametrize("number", [170, 7014])
def test_laps_of_caps_keep_clear_of_the_pans_beside_them(number: int) -> None:
    """A remainder all of whose wing lay over a valley's pan had no closure for its screws."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [17, 39, 106, 109])
def test_closures_end_where_the_caps_over_them_do(number: int) -> None:
    """At a hip too short for a cap, at a break left bare, where a hip is only sealed to a high edge or to others."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [10, 64, 180])
def test_eave_trim_meets_at_blunt_and_at_sharp_corners(number: int) -> None:
    """At 163 degrees, at 67 inside, and at slopes so unlike that one face hangs lower than the other."""
    assert_sound(ordinary_outline(number))


def test_an_eave_is_bare_beside_a_rake_by_what_is_left_square_to_it() -> None:
    """A rake goes on at 15 degrees to its eave: a face cut flush with its edge ends an eighth short of the corner."""
    assert_sound(ordinary_outline(197))


def test_a_wing_with_an_inch_of_closure_takes_one_screw() -> None:
    """A ridge of 9.65 in between a hip and a valley's head: the other wing's two keep the cap from swinging."""
    raw = ordinary_outline(192)
    layout = build(scene_of(raw))
    [mark] = [part.mark for part in layout.parts if part.run.name == "ridge 1-7"]
    screws = layout.screws_of(mark)
    assert sorted(sum(other.across == screw.across for other in screws) for screw in screws) == [1, 2, 2]
    assert_sound(raw)


@pytest.mark.parametrize("number", [47, 103, 215])
def test_pans_of_two_valleys_pass_and_meet(number: int) -> None:
    """In line on both sides of a short ridge, under a ridge beyond their heads, and where a rib leans over."""
    assert_sound(ordinary_outline(number))


@pytest.mark.parametrize("number", [84, 158])
def test_what_lies_at_the_head_of_a_valley_follows_the_edges_there(number: int) -> None:
    """A pan's wing along a hip of 4 in and the ridge beyond it, and cleats past the head toward another valley's."""
    assert_sound(ordinary_outline(number))


def test_trim_on_one_slope_takes_two_screws_however_short_its_closure() -> None:
    """No other wing keeps a piece on a short high edge from swinging."""
    assert_sound(ordinary_outline(111))


def test_a_ridge_cap_closes_over_panels_that_lean_out_over_their_rake() -> None:
    """A steep gable at 25 degrees to its ridge: what lies on its slope stands farther out the higher it lies."""
    assert_sound(ordinary_outline(207))


@pytest.mark.sweep
def test_three_hundred_outlines() -> None:
    """Each is laid out clean or refused with its place; of those without sharp angles 95 of 100 are built."""
    flawed, refused, blunt = [], [], 0
    for number in range(300):
        raw = ordinary_outline(number)
        rings = [np.array(ring, dtype=float) for ring in (raw["roof"]["outline"], *raw["roof"]["holes"])]
        blunt += sharpest(rings) >= math.radians(45)
        try:
            layout = build(scene_of(raw))
        except (SceneError, GeometryError) as error:
            assert all(problem.message for problem in error.problems), raw
            refused.append(number)
            continue
        wrong = {found.rule for found in check(layout) if found.severity == "error"}
        if wrong or depths(layout):
            flawed.append((number, sorted(wrong)))
    print(f"\n{300 - len(flawed) - len(refused)} clean, {len(refused)} refused, {flawed}")
    assert {number for number, _ in flawed} <= OPEN
    assert len(refused) <= 0.05 * blunt
