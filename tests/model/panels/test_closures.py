"""Closures of every kind: how they are made, what they leave open, what lets air through, and what sealant closes."""

import math
from dataclasses import replace

import manifold3d
import pytest
from slots import Cutter, closure_slots, unsealed
from solids import manifold
from sound import assert_sound
from zoo import NAMES, layout

from trimwright.model.errors import SceneError
from trimwright.model.layout import Layout
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.takeoff.count import take_off

T = 0.0239
"""Thickness of the steel of the scenes below, inches."""

GABLE = 'title = "Any"\n[roof]\nform = "gable"\nlength = 240\nwidth = 120\npitch = "6/12"\n'
HIP = 'title = "Any"\n[roof]\nform = "hip"\nlength = 300\nwidth = 160\npitch = "7/12"\n'
SKEW = 'title = "Any"\n[roof]\nform = "hip"\nlength = 400\nwidth = 200\npitch = "11/12"\nend_pitch = "8/12"\n'
SHED = 'title = "Any"\n[roof]\nform = "shed"\nlength = 200\nwidth = 100\npitch = "4/12"\n'


def plan(roof: str, rest: str = "") -> Layout:
    return build(scene_from(roof + rest, "any.toml"))


def under_all(kind: str) -> str:
    return "".join(f'[trim.{edge}]\nclosure = "{kind}"\n' for edge in ("ridge", "hip", "high"))


@pytest.mark.parametrize("roof", [GABLE, HIP, SKEW, SHED], ids=["gable", "hip", "skew hip", "shed"])
@pytest.mark.parametrize("kind", sorted(closure_catalogue()))
def test_closures_of_every_kind_close_what_they_stand_under(roof: str, kind: str) -> None:
    here = plan(roof, under_all(kind))
    assert {closure.kind for closure in here.closures} == {kind}
    for closure in here.closures:
        body = manifold(closure.solid)
        assert body.status() == manifold3d.Error.NoError and len(body.decompose()) == 1
    assert_sound(here)
    assert unsealed(here) == []


@pytest.mark.parametrize("profile", ["single lock", "double lock", "snap lock", "screwed rib"])
def test_no_seam_leaves_a_slot_that_is_not_listed(profile: str) -> None:
    assert unsealed(plan(HIP, f'[panels]\nprofile = "{profile}"\n')) == []


def test_a_closure_left_out_leaves_an_open_slot_in_the_sections() -> None:
    here = plan(GABLE)
    gone = here.closures[5]
    fault = replace(here, closures=tuple(one for one in here.closures if one is not gone))
    (slot,) = [one for one in closure_slots(fault, Cutter(fault)) if one.width > 1]
    # The whole space between two seams, as high as the cap hangs over the pan.
    assert slot.along[1] - slot.along[0] >= gone.length
    assert [one.width > 1 for one in unsealed(fault)].count(True) == 1 and unsealed(here) == []


def test_places_round_seams_are_as_many_as_the_seams_that_the_ridge_crosses() -> None:
    here = plan(GABLE)
    of_ridge = [one for one in here.sealed if one.at == "ridge"]
    seams = sum(len(panel.seams) for panel in here.panels)
    assert sum(one.place == "round a seam" for one in of_ridge) == seams
    assert sum(one.place == "end of closures" for one in of_ridge) == 4
    feet = [one for one in here.sealed if one.place == "foot of a seam"]
    assert len(feet) == seams and {one.at for one in feet} == {"front eave", "back eave"}
    # Up and down the closure's height, and across the seam: what the takeoff adds to its tubes.
    web = here.closures[0].sheet.section
    height = float(web.points[-1, 1] - web.points[0, 1])
    beads = [one.bead for one in of_ridge if one.place == "round a seam"]
    assert beads[0] == pytest.approx(2 * height + of_ridge[1].along[1] - of_ridge[1].along[0])
    assert take_off(here).sealant.seams == pytest.approx(sum(one.bead for one in here.sealed))


def test_beside_a_porch_the_corners_between_two_hooks_of_one_panel_are_sealed() -> None:
    """Two inside corners, each on the eave and on the rake; from past the one lip as far as the other hook is cut."""
    here = layout("weigh-house")
    found = {one.at: one for one in here.sealed if one.place == "inside corner"}
    assert set(found) == {"eave 1 1", "eave 1 2", "porch 1 left rake", "porch 1 right rake"}
    # 1/8 in past the lip the panel turns down; cut at 45 degrees, its hook is as far back as it is down.
    eave = found["eave 1 1"]
    assert eave.along[1] - eave.along[0] == pytest.approx(1 / 8 + eave.bead)
    assert unsealed(here) == []


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_open_that_is_not_listed(name: str) -> None:
    assert unsealed(layout(name)) == []


def test_the_free_area_of_a_vented_ridge_by_hand() -> None:
    # Holes of 1/8 in, 3/16 in apart, staggered: 0.9069 x (2/3)^2 of the sheet is open.
    share = closure_catalogue()["vented Z"].open_share
    assert share == pytest.approx(0.9069 * 4 / 9, rel=1e-4)
    here = plan(GABLE, '[trim.ridge]\nclosure = "vented Z"\n')
    (vent,) = here.vents
    # A whole closure stands between two seams 16 in apart. Its web goes up from the pan to the cap: seams of 1 1/2 in
    # and a sheet over them; less what two bends take of it and the room that is left.
    closure = max(here.closures, key=lambda one: one.length)
    section = closure.sheet.section
    web = section.strip_of("web")
    upright = float(section.v[web + 1] - section.v[web])
    assert upright == pytest.approx(1.5 + T - 2 * 1.75 * T, abs=0.1)
    assert closure.free_area == pytest.approx(share * upright * closure.length, rel=0.03)
    # Both sides of the ridge, some 15 1/2 of every 16 in: 2 x 12 x 0.97 x 0.403 x 1.45 is 13 to 14 in² for each foot.
    assert vent.holes / (vent.length / 12) == pytest.approx(2 * 12 * 0.97 * share * upright, rel=0.04)
    # The ends of the panels are turned up 1 in: what is left over them is less than the holes. The ridge reaches over
    # the overhangs of both rakes.
    over = 2 * 12 * 0.97 * (upright - 1)
    assert vent.over_ends / (vent.length / 12) == pytest.approx(over, rel=0.06)
    assert vent.free == min(vent.holes, vent.over_ends)
    assert vent.per_foot == pytest.approx(vent.free * 12 / here.run("ridge").length)


def test_a_plain_ridge_lets_no_air_through() -> None:
    assert plan(GABLE).vents == ()


def test_screws_hold_in_the_flange_of_a_z_and_through_foam_in_the_deck() -> None:
    assert {screw.holds for screw in plan(SHED).screws if screw.mark.startswith("T")} == {"closure"}
    foam = plan(SHED, '[trim.high]\nclosure = "foam"\n')
    assert {screw.holds for screw in foam.screws if screw.mark.startswith("T")} == {"deck"}


def test_a_strip_of_foam_by_hand() -> None:
    here = plan(SHED, '[trim.high]\nclosure = "foam"\n')
    strip = max(here.closures, key=lambda one: one.length)
    # From seam to seam, less what the seam reaches on either side and 1/32 in of room; 1 in deep.
    assert 15 < strip.length < 16
    high = strip.sheet.section.width
    assert strip.solid.volume == pytest.approx(1.0 * high * strip.length, rel=0.02)
    assert take_off(here).closures[0].what == "foam"
    assert not [coil for coil in take_off(here).coils if coil.what == "closure"]


def test_a_scene_has_closures_of_its_own() -> None:
    own = '[closure."fine vent"]\nhole = "1/16 in"\napart = "1/8 in"\n[trim.ridge]\nclosure = "fine vent"\n'
    here = plan(GABLE, own)
    assert {closure.kind for closure in here.closures} == {"fine vent"}
    assert here.closures[0].open_share == pytest.approx(math.pi / (2 * math.sqrt(3)) / 4)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ('[trim.ridge]\nclosure = "felt"\n', "there is no closure 'felt'; there are: Z, vented Z, foam"),
        ('[trim.eave]\nclosure = "foam"\n', "trim of the kind eave lies over no panels"),
        ('[closure.x]\nform = "strip"\nhole = "1/8 in"\n', "a strip of foam has no holes"),
        ('[closure.x]\nhole = "3/16 in"\napart = "1/8 in"\n', "holes so wide run into each other"),
    ],
)
def test_closures_that_cannot_be_are_refused(asked: str, says: str) -> None:
    with pytest.raises(SceneError) as refused:
        plan(GABLE, asked)
    assert says in str(refused.value)
