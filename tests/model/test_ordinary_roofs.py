"""On an ordinary roof the tool's own choices cause no error, nothing passes through anything, and no slot is open."""

import pytest
from ordinary_roofs import ordinary
from slots import unsealed
from sound import assert_sound

from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def assert_closed(raw: dict[str, object]) -> None:
    """Check that a roof is sound and has no open slot.

    What sealant closes is in the layout's own list, and is not open.
    """
    layout = build(scene_of(raw))
    assert_sound(layout)
    assert unsealed(layout) == [], raw


@pytest.mark.parametrize("number", range(12))
def test_an_ordinary_roof_is_sound(number: int) -> None:
    assert_closed(ordinary(number))


@pytest.mark.parametrize("number", [533, 786])
def test_closures_reach_past_a_sliver_of_a_panel_at_a_hip_foot(number: int) -> None:
    """The outermost seam stands within 2 in of the foot: the webs beyond it are all past the sliver's lower end."""
    assert unsealed(build(scene_of(ordinary(number)))) == []


@pytest.mark.parametrize("number", [44, 257])
def test_no_lap_of_the_layouts_own_lies_in_a_corner(number: int) -> None:
    """The cuts at the heads of hips between slopes that differ much go far in: a remainder is hardly longer."""
    assert not [found for found in check(build(scene_of(ordinary(number)))) if found.rule == "lap-in-corner"]


@pytest.mark.sweep
@pytest.mark.parametrize("number", range(12, 1000))
def test_every_ordinary_roof_is_sound(number: int) -> None:
    assert_closed(ordinary(number))


def hip(**roof: object) -> dict[str, object]:
    return {"title": "Hip", "roof": {"form": "hip", "length": "50'", "width": "20'", "pitch": "6/12", **roof}}


PITCHES = [(pitch, other) for pitch in range(2, 19) for other in range(2, 19) if abs(pitch - other) >= 5]


@pytest.mark.parametrize(("pitch", "ends"), [(17, 4), (3, 17), (9, 4), (5, 12)])
def test_slopes_that_differ_meet_at_the_eaves(pitch: int, ends: int) -> None:
    """The drip leg of the shallower side's eave trim runs out past the corner, above the bend of the other's."""
    assert_closed(hip(pitch=f"{pitch}/12", end_pitch=f"{ends}/12"))


@pytest.mark.parametrize(("pitch", "ends"), [(16, 2), (2, 18)])
def test_the_point_of_a_panel_at_a_shallow_hip_hooks_as_far_as_others(pitch: int, ends: int) -> None:
    """It is an inch high: its hook draws in from 5 in to a quarter so as not to stand out past the hip."""
    found = check(build(scene_of(hip(pitch=f"{pitch}/12", end_pitch=f"{ends}/12"))))
    assert "panel-unhooked" not in {one.rule for one in found}


@pytest.mark.sweep
@pytest.mark.parametrize(("pitch", "ends"), [pair for pair in PITCHES if pair[0] / pair[1] < 2.4])
def test_all_slopes_that_differ_meet_at_the_eaves(pitch: int, ends: int) -> None:
    assert_closed(hip(pitch=f"{pitch}/12", end_pitch=f"{ends}/12"))


def gable(length: float, **roof: object) -> dict[str, object]:
    """Return a gable whose eaves are ``length`` inches long, from stock of 10 1/2 ft with laps of 4 in."""
    return {
        "title": "Gable",
        "roof": {
            "form": "gable",
            "length": f"{length} in",
            "width": "14'",
            "pitch": "6/12",
            "overhang": {"rake": 0},
        }
        | roof,
    }


@pytest.mark.parametrize("end", [4.5, 6.0, 7.25, 9.5, 11.0])
@pytest.mark.parametrize("wind", ["left", "right"])
def test_a_rake_lies_clear_of_a_lap_near_the_corner(end: float, wind: str) -> None:
    """The rake's flange reaches 4 in in: an end piece shorter than 8 in has its lap, and its neighbor, under it."""
    assert_closed(gable(2 * 122.0 + end) | {"wind": wind})


@pytest.mark.sweep
@pytest.mark.parametrize("length", [240.0 + step for step in range(0, 180)])
def test_every_length_of_eave_goes_under_the_rake(length: float) -> None:
    assert_closed(gable(length))


@pytest.mark.parametrize("pitch", ["11/12", "12/12", "18/12"])
def test_a_cut_straight_across_at_a_steep_ridge_is_no_gap(pitch: str) -> None:
    assert_closed(gable(240, pitch=pitch))
    shed = {"title": "Shed", "roof": {"form": "shed", "length": "20'", "width": "9'", "pitch": pitch}}
    assert_closed(shed)
