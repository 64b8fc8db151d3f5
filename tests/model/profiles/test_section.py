"""Sections: developed width by hand, how they sit on the deck, and profiles that cannot be."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from profiles import section_of
from zoo import NAMES, OTHERS, layout

from trimwright.model.errors import GeometryError, SceneError
from trimwright.model.metals import METALS
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.profiles.section import Section, bend_section
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import LegSpec, ProfileSpec

pitches = st.floats(0.05, 1.1)
names = st.sampled_from(sorted(catalogue()))


def bent(*legs: LegSpec, anchor: str = "face", radius: float = 1 / 32) -> Section:
    """Bend a profile of steel to a rake: deck at 0, square at 90 degrees."""
    profile = ProfileSpec(legs=legs, edges=("rake",), anchor=anchor)
    directions = {"deck": 0.0, "square": math.pi / 2, "plumb": math.radians(60)}
    return bend_section("own", profile, directions, METALS["steel"], 0.024, radius, rise=0.0, standoff=0.0)


def test_by_hand_the_developed_width_of_the_hook_eave_at_6_in_12() -> None:
    """Steel, T 0.0239, R 1/32: setback R + T = 0.05515; bend 0.64 T + 1.57 R = 0.0643585 for 90 degrees.

    Pitch 26.565 deg, so the face turns back from the return by 180 - 63.435 = 116.565 deg; the kick by 45.
    Setback at the kick: 0.05515 tan 22.5 = 0.022844. Flats, in the order of the legs:
    top 4 - 0.05515 = 3.944850; return 1 - 2 x 0.05515 = 0.889700; face 3.5 - 0.05515 - 0.022844 = 3.422006;
    kick 0.75 - 0.022844 - 0.05515 = 0.672006; hem 0.375 - 0.05515 = 0.319850; together 9.248412.
    Bends: 180 + 116.565 + 45 + 180 = 521.565 deg x 0.0643585 / 90 = 0.372968.
    """
    section = section_of("hook eave", math.atan(6 / 12))
    assert section.width == pytest.approx(9.248412 + 0.372968, abs=1e-5)
    flats = [section.v[leg.strip + 1] - section.v[leg.strip] for leg in section.legs]
    assert flats == pytest.approx([3.944850, 0.889700, 3.422006, 0.672006, 0.319850], abs=1e-6)
    assert [math.degrees(bend.angle) for bend in section.bends] == pytest.approx(
        [180, -116.565, -45, 180], abs=1e-3
    )


def test_by_hand_a_rake_does_not_depend_on_the_pitch() -> None:
    """On a square gable its face is square to the deck, so left and right rakes of any slope are bent alike."""
    assert section_of("hook rake", 0.2).v == pytest.approx(section_of("hook rake", 0.9).v)


@given(pitches)
def test_a_cap_bends_by_both_slopes(pitch: float) -> None:
    """A ridge between two slopes of ``pitch`` bends its cap by twice that."""
    section = section_of("ridge cap", pitch)
    assert section.bends[1].angle == pytest.approx(2 * pitch)


@given(names, pitches)
def test_strips_lie_end_to_end_and_keep_their_width(name: str, pitch: float) -> None:
    section = section_of(name, pitch)
    assert np.linalg.norm(np.diff(section.points, axis=0), axis=1) == pytest.approx(np.diff(section.v))
    assert len(section.bends) == len(section.legs) - 1


@given(names, pitches)
def test_nesting_clears_every_kept_leg_by_a_sheet_and_no_more_than_it_must(name: str, pitch: float) -> None:
    section = section_of(name, pitch)
    kept = section.normals[[leg.strip for leg in section.legs if not leg.relieved]]
    clear = kept @ section.nesting
    assert clear.min() == pytest.approx(section.thickness)
    assert (clear < section.thickness * (1 - 1e-6)).sum() == 0


def outside(section: Section, leg: str) -> float:
    """Return how far the underside of a leg lies from the deck's edge, along its own painted normal, inches."""
    strip = section.strip_of(leg)
    return float(section.points[strip] @ section.normals[strip]) - section.thickness / 2


@given(st.sampled_from(["hook eave", "hook rake", "plain drip", "box rake"]), pitches)
def test_trim_lies_with_its_top_on_the_deck_and_its_face_against_the_edge(name: str, pitch: float) -> None:
    section = section_of(name, pitch)
    assert outside(section, "top") == pytest.approx(0, abs=1e-9)
    assert outside(section, "face") == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_on_every_roof_eaves_and_rakes_lie_on_the_deck_and_caps_above_the_seams(name: str) -> None:
    plan = layout(name)
    for run in plan.runs:
        leg = "top" if run.section.leg("top") else "left wing"
        over = outside(run.section, leg)
        if run.trim in ("eave", "rake"):
            assert over == pytest.approx(0, abs=1e-9)
            assert outside(run.section, "face") == pytest.approx(0, abs=1e-9)
        elif run.trim in ("valley", "break"):
            assert over == pytest.approx(0, abs=1e-9)
        else:
            assert over >= plan.scene.panels.seam
            # The deepest hem of the catalogue is folded round an inside radius of at most 0.05 in.
            assert over <= plan.scene.panels.seam + 0.25 + 0.15


def test_a_nose_stands_out_as_far_as_its_return_is_wide() -> None:
    """The 1 in lip is measured from the nose to the outside of its bend at the face: to the edge of the deck."""
    section = section_of("hook rake", 0.4)
    assert section.points[:, 0].max() + section.thickness / 2 == pytest.approx(1, abs=0.01)


# Profiles that cannot be: each refusal names the profile and the way out.

TOP = LegSpec(name="top", width=4, direction="deck", fastened=True)
FACE = LegSpec(name="face", width=3.5, direction="square")


def test_a_leg_too_narrow_for_its_bends_is_refused() -> None:
    legs = (TOP, LegSpec(name="return", width=0.1, turn=180, relieved=True), FACE)
    with pytest.raises(
        GeometryError, match=r"""leg 'return' is 0\.100" wide, but its bends take 0\.110"; make it"""
    ):
        bent(*legs)


def test_a_radius_too_large_for_a_leg_is_refused() -> None:
    with pytest.raises(GeometryError, match="or the bend radius smaller"):
        bent(TOP, LegSpec(name="return", width=1, turn=180, relieved=True), FACE, radius=0.5)


def test_an_anchor_along_the_deck_holds_nothing() -> None:
    with pytest.raises(GeometryError, match="its legs 'top' and 'top' are parallel here"):
        bent(TOP, FACE, anchor="top")


def test_legs_that_face_each_other_nest_nowhere() -> None:
    assert np.isnan(bent(TOP, LegSpec(name="return", width=1, turn=180), FACE).nesting).all()


def test_a_run_refuses_a_profile_that_cannot_lap() -> None:
    scene = """
title = "No lap"
[roof]
form = "gable"
length = "20'"
width = "16'"
pitch = "6/12"
[trim.rake]
profile = "hooked"
[profile.hooked]
edges = ["rake"]
anchor = "face"
legs = [
    { name = "top", width = 4, direction = "deck", fastened = true },
    { name = "return", width = 1, turn = 180 },
    { name = "face", width = 3, direction = "square" },
]
"""
    with pytest.raises(SceneError, match="'hooked' cannot lie over itself at a lap; mark legs") as refused:
        build(scene_from(scene, "no-lap.toml"))
    assert len(refused.value.problems) == 1


def test_a_leg_after_a_lost_one_is_refused() -> None:
    """The first leg has no direction and the second only its own: the first is lost."""
    profile = ProfileSpec.model_construct(
        legs=(LegSpec(name="top", width=2, fastened=True), FACE), edges=("rake",), anchor="face"
    )
    with pytest.raises(GeometryError, match="nothing says which way leg 'top' points"):
        bend_section("own", profile, {"square": 1.5}, METALS["steel"], 0.024, 0.03, rise=0, standoff=0)


def test_a_leg_that_is_not_there_is_asked_for_by_name() -> None:
    with pytest.raises(GeometryError, match="profile 'plain drip' has no leg called 'hem'; give it one"):
        section_of("plain drip", 0.4).strip_of("hem")
