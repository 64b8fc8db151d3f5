"""The apron of a break: where the pitch changes along a level line, to a flatter or to a steeper slope."""

import math

import numpy as np
import pytest
from sound import assert_sound

from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError, TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.panels.caps import fold_inside, hang_of
from trimwright.model.pipeline import build
from trimwright.model.roof.moved import moved
from trimwright.model.runs import PAN
from trimwright.model.scene.read import scene_of
from trimwright.model.setting_order import order_of_setting


def gable(pitch: str, upper: str, **roof: object) -> Layout:
    form = {"form": "gable", "length": 300, "width": 264, "wall_height": 120, "overhang": {"eave": 8}}
    return build(
        scene_of(
            {"title": "G", "roof": {**form, "pitch": pitch, "break_at": 60, "upper_pitch": upper, **roof}}
        )
    )


PITCHES = [("18/12", "6/12"), ("12/12", "3/12"), ("4/12", "10/12"), ("3/12", "16/12")]


@pytest.mark.parametrize(("pitch", "upper"), PITCHES)
def test_nothing_is_wrong_and_every_corner_is_made(pitch: str, upper: str) -> None:
    layout = gable(pitch, upper)
    found = check(layout)
    assert not [one for one in found if one.severity == "error" or one.rule == "corner-without-joint"]
    assert not layout.untrimmed
    assert sum(run.trim == "break" for run in layout.runs) == 2


def test_the_change_of_pitch_is_the_bend_of_the_handbook() -> None:
    """18/12 to 6/12: atan 1.5 - atan 0.5 = 29.745 deg."""
    run = next(run for run in gable("18/12", "6/12").runs if run.trim == "break")
    assert math.degrees(run.section.bends[0].angle) == pytest.approx(29.745, abs=0.001)


@pytest.mark.parametrize(("pitch", "upper"), PITCHES)
def test_by_hand_the_fold_lies_where_the_apron_clears_the_seams(pitch: str, upper: str) -> None:
    """Two planes meet at an angle b; one parallel to the lower, h above it, meets the upper h / sin b from the edge.

    On a gambrel that is outside the upper slope; where the upper slope is the steeper it is on it.
    """
    layout = gable(pitch, upper)
    for run in (run for run in layout.runs if run.trim == "break"):
        above, below = run.edge.faces
        bend = layout.roof.faces[below].slope - layout.roof.faces[above].slope
        height = hang_of(run, below)
        assert height > PAN + layout.scene.panels.seam
        assert fold_inside(run, above) == pytest.approx(-height / math.sin(bend), abs=0.1)


@pytest.mark.parametrize(("pitch", "upper"), PITCHES)
def test_the_apron_lies_on_closures_and_lower_panels_and_under_the_upper_ones(pitch: str, upper: str) -> None:
    layout = gable(pitch, upper)
    under = {
        setting.name: set(setting.over)
        for setting in order_of_setting(layout.parts, layout.panels, layout.closures, layout.cleats)
    }
    for run in (run for run in layout.runs if run.trim == "break"):
        above, below = run.edge.faces
        marks = {part.mark for part in layout.parts if part.run is run}
        ends = [panel for panel in layout.panels if run.name in panel.borders]
        for mark in marks:
            assert under[mark] & {panel.name for panel in ends if panel.face == below}
            assert under[mark] & {closure.name for closure in layout.closures if closure.at == run.name}
        assert {panel.face for panel in ends} == {above, below}
        assert all(bool(under[panel.name] & marks) == (panel.face == above) for panel in ends)
        held = {screw.holds for screw in layout.screws if screw.mark in marks}
        assert held == {"deck", "closure"}
        assert {closure.face for closure in layout.closures if closure.at == run.name} == {below}


def test_the_ridge_is_where_the_upper_slopes_meet() -> None:
    """5 ft at 18/12, then 6 ft at 6/12, from 10 ft: 120 + 60 * 1.5 + 72 * 0.5 = 246 in."""
    assert np.ptp(gable("18/12", "6/12").roof.vertices[:, 2]) == pytest.approx(246 - (120 - 8 * 1.5))


def test_a_break_beyond_the_ridge_is_refused() -> None:
    with pytest.raises(TrimwrightError, match=r"roof\.break_at"):
        gable("18/12", "6/12", break_at=140)


@pytest.mark.parametrize(("upper", "roof"), [("6/12", {}), ("9/12", {"far_pitch": "9/12"})])
def test_a_break_that_changes_no_pitch_is_refused(upper: str, roof: dict[str, str]) -> None:
    with pytest.raises(TrimwrightError, match="pitch below the break"):
        gable("6/12", upper, **roof)


def test_a_pitch_without_its_break_is_refused() -> None:
    with pytest.raises(SceneError, match="break_at"):
        gable("18/12", "6/12", break_at=None)


def test_a_change_too_small_for_an_apron_is_left_bare_and_told() -> None:
    layout = gable("6/12", "5/12")
    assert sorted(layout.untrimmed) == ["back break", "front break"]
    assert [one for one in check(layout) if one.rule == "edge-without-trim"]


def sheds(rise: float, low: float, high: float, mirrored: bool) -> Layout:
    """Return a shed whose upper slope is turned, so that the break rises from end to end; its high edge as well."""
    wide, run, top = 300.0, 60.0, 200.0
    back = rise / low
    along, up = (rise * back / wide**2, 1 + (back / wide) ** 2)
    ahead = (along + math.sqrt(along**2 - up * ((rise / wide) ** 2 - high**2))) / up
    aside = (rise - ahead * back) / wide
    start, end = [0.0, run, 100 + run * low], [wide, run + back, 100 + run * low + rise]
    tops = [[x, top, start[2] + aside * x + ahead * (top - run)] for x in (wide, 0.0)]
    faces = [[[0.0, 0.0, 100.0], [wide, 0.0, 100.0], end, start], [start, end, *tops]]
    if mirrored:
        faces = [[[wide - x, y, z] for x, y, z in face][::-1] for face in faces]
    return build(scene_of({"title": "S", "roof": {"form": "faces", "faces": faces}}))


@pytest.mark.parametrize("mirrored", [False, True], ids=["rises to the right", "rises to the left"])
@pytest.mark.parametrize(("rise", "low", "high"), [(4, 1, 5 / 12), (6, 1, 5 / 12), (4, 4 / 12, 10 / 12)])
def test_an_apron_on_a_break_that_rises(rise: float, low: float, high: float, mirrored: bool) -> None:
    """By 0.8 to 1.1 degrees: its top leg still lies on the upper slope, and its ends follow the rakes."""
    layout = sheds(rise, low, high, mirrored)
    (run,) = (run for run in layout.runs if run.trim == "break")
    assert math.tan(run.edge.slope) == pytest.approx(rise / math.hypot(300, rise / low))
    above, below = (layout.roof.faces[face] for face in run.edge.faces)
    assert math.tan(above.slope) == pytest.approx(high)
    assert math.tan(below.slope) == pytest.approx(low)
    assert {panel.face for panel in layout.panels if run.name in panel.borders} == set(run.edge.faces)
    assert_sound(layout)


@pytest.mark.parametrize("mirrored", [False, True], ids=["rises to the right", "rises to the left"])
def test_a_break_keeps_its_upper_face_first_where_corners_are_moved(mirrored: bool) -> None:
    roof = sheds(4, 1, 5 / 12, mirrored).roof
    (edge,) = (edge for edge in roof.edges if edge.kind == "break")
    (same,) = (one for one in moved(roof, roof.vertices).edges if one.kind == "break")
    assert same.faces == edge.faces
    assert same.outward == pytest.approx(edge.outward)
    assert same.dihedral == pytest.approx(edge.dihedral)


def test_a_break_that_rises_too_much_is_left_bare_and_told() -> None:
    """By 40 in over 25 ft: 7.6 degrees."""
    layout = sheds(40, 1, 5 / 12, False)
    assert layout.untrimmed == ("front break",)
    assert [one.rule for one in check(layout) if one.where == "front break"] == ["edge-without-trim"]
