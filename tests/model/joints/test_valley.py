"""The corners of a valley's pan, on an L of any two pitches."""

import math
from functools import cache
from typing import Any

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline
from uncut import left_uncut

from trimwright.model.checks.run import check
from trimwright.model.joints.valley_foot import DRIP
from trimwright.model.joints.valley_head import DAM
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import in_scene, strip_fold

PITCHES = [("6/12", "6/12"), ("12/12", "8/12"), ("10/12", "3/12"), ("3/12", "4/12"), ("18/12", "12/12")]


@cache
def ell(main: str, wing: str, profile: str = "W valley") -> Layout:
    roof = {
        "form": "outline",
        "outline": [[0, 0], [1200, 0], [1200, 312], [288, 312], [288, 600], [0, 600]],
        "pitch": main,
        "sides": {2: {"edge": "gable"}, 4: {"pitch": wing}, 5: {"edge": "gable"}, 6: {"pitch": wing}},
        "wall_height": 240,
    }
    return build(scene_of({"title": "Ell", "roof": roof, "trim": {"valley": {"profile": profile}}}))


def pans(layout: Layout) -> list[Part]:
    return [part for part in layout.parts if part.run.trim == "valley"]


@pytest.mark.parametrize(("main", "wing"), PITCHES)
def test_nothing_is_wrong_at_the_foot(main: str, wing: str) -> None:
    layout = ell(main, wing)
    low = pans(layout)[0].mark
    wrong = [finding for finding in check(layout) if finding.severity == "error" and low in finding.pieces]
    assert not [finding for finding in wrong if finding.rule in ("pieces-collide", "miter-gap", "gap-in-run")]


def test_the_foot_is_cut_at_the_angle_between_valley_and_eave() -> None:
    """At 12/12 and 8/12: 43.31 and 60.98 deg, as in tests/published/test_irregular_valleys.py; not 45."""
    layout = ell("12/12", "8/12")
    pan = pans(layout)[0]
    section, line = pan.run.section, pan.ends.low.cut.line
    angles = {}
    for name in ("left wing", "right wing"):
        strip = section.strip_of(name)
        inside = line[(line[:, 1] >= section.v[strip] - 1e-9) & (line[:, 1] <= section.v[strip + 1] + 1e-9)]
        steps = np.abs(np.diff(inside, axis=0))
        du, dv = steps[steps[:, 1].argmax()]
        face = layout.roof.faces[pan.run.edge.faces[0 if name == "left wing" else 1]]
        angles[face.name] = math.degrees(math.atan2(dv, du))
    assert angles["side 3"] == pytest.approx(43.31386, abs=0.05)
    assert angles["side 4"] == pytest.approx(60.98286, abs=0.05)


@pytest.mark.parametrize("profile", ["W valley", "open valley"])
def test_the_drip_hangs_plumb_past_the_nose_of_the_eave(profile: str) -> None:
    layout = ell("6/12", "6/12", profile)
    pan = pans(layout)[0]
    for tab in pan.ends.low.cut.tabs:
        fold, normal = strip_fold(pan.run.section, tab.strip)
        along = tab.hinge[1] - tab.hinge[0]
        along = along / np.linalg.norm(along)
        out = np.array([-along[1], along[0]])
        out = out if out[0] < 0 else -out
        hangs = pan.placement[:3, :3] @ (
            math.cos(tab.angle) * (fold[:, :2] @ out) - math.sin(tab.angle) * normal
        )
        assert hangs == pytest.approx([0, 0, -1], abs=0.01)
        assert tab.width == pytest.approx(DRIP)


@pytest.mark.parametrize(
    ("main", "wing", "lap"), [("12/12", "12/12", 6.0), ("6/12", "6/12", 8.0), ("3/12", "3/12", 12.0)]
)
def test_pans_lap_farther_in_a_flatter_valley(main: str, wing: str, lap: float) -> None:
    """The valley's own slope counts: 8.49, 4.24 and 2.12 in 12."""
    first, *_ = pans(ell(main, wing))
    assert first.ends.high.lap == pytest.approx(lap)
    assert first.ends.high.lies == "under"


def test_a_scene_may_have_its_own_lap() -> None:
    scene = ell("6/12", "6/12").scene
    trim = {**scene.trim, "valley": scene.trim["valley"].model_copy(update={"lap": 10.0})}
    assert pans(build(scene.model_copy(update={"trim": trim})))[0].ends.high.lap == pytest.approx(10)


def test_no_screw_goes_through_a_pan() -> None:
    layout = ell("6/12", "6/12")
    marks = {pan.mark for pan in pans(layout)}
    assert not [screw for screw in layout.screws if screw.mark in marks]


SHAPES: dict[str, dict[str, Any]] = {
    "ell of one height": {"outline": [[0, 0], [528, 0], [528, 288], [288, 288], [288, 480], [0, 480]]},
    "lower wing": {
        "outline": [[0, 0], [528, 0], [528, 312], [384, 312], [384, 480], [168, 480], [168, 312], [0, 312]],
        "sides": {2: {"edge": "gable"}, 5: {"edge": "gable"}, 8: {"edge": "gable"}},
    },
    "wing a hand below the ridge": {
        "outline": [[0, 0], [528, 0], [528, 312], [411, 312], [411, 512], [117, 512], [117, 312], [0, 312]],
        "sides": {2: {"edge": "gable"}, 5: {"edge": "gable"}, 8: {"edge": "gable"}},
    },
    "tee of one height": {
        "outline": [[0, 0], [720, 0], [720, 240], [480, 240], [480, 600], [240, 600], [240, 240], [0, 240]],
        "sides": {2: {"edge": "gable"}, 5: {"edge": "gable"}, 8: {"edge": "gable"}},
    },
    "plus": {
        "outline": [
            [240, 0],
            [480, 0],
            [480, 240],
            [720, 240],
            [720, 480],
            [480, 480],
            [480, 720],
            [240, 720],
            [240, 480],
            [0, 480],
            [0, 240],
            [240, 240],
        ],
    },
    "courtyard": {
        "outline": [[0, 0], [960, 0], [960, 960], [0, 960]],
        "holes": [[[300, 300], [300, 660], [660, 660], [660, 300]]],
    },
}


@pytest.mark.parametrize("profile", ["W valley", "open valley"])
@pytest.mark.parametrize("name", SHAPES)
def test_every_corner_is_made_and_nothing_is_wrong(name: str, profile: str) -> None:
    roof = {"form": "outline", "pitch": "7/12", **SHAPES[name]}
    layout = build(scene_of({"title": name, "roof": roof, "trim": {"valley": {"profile": profile}}}))
    wrong = [
        (finding.rule, str(finding.message))
        for finding in check(layout)
        if finding.severity == "error" or finding.rule == "corner-without-joint"
    ]
    assert not wrong
    assert not layout.untrimmed
    assert not [part.mark for part in pans(layout) for end in part.ends if left_uncut(end) > 0.05]


def test_the_head_is_turned_up_plumb_under_the_caps() -> None:
    layout = ell("6/12", "6/12")
    head = pans(layout)[-1].ends.high
    assert head.kind.name == "valley head"
    assert [tab.width for tab in head.cut.tabs] == pytest.approx([DAM, DAM])


def test_the_later_of_two_pans_laps_the_other_on_the_slope_above() -> None:
    roof = {"form": "outline", "pitch": "6/12", **SHAPES["lower wing"]}
    heads = [
        part.ends.high
        for part in build(scene_of({"title": "T", "roof": roof})).parts
        if part.run.trim == "valley"
    ]
    lies = [head.lies for head in heads if head.kind.name == "valley head"]
    assert sorted(map(str, lies)) == ["over", "under"]


def test_screws_under_a_pan_have_flat_heads_and_no_others() -> None:
    """Two of each eave's lie within 10 1/2 in of the valley at 6/12: the wing's width, square to the valley."""
    layout = ell("6/12", "6/12")
    edge = layout.run("valley 3-4").edge
    for screw in layout.screws:
        along = (screw.point - edge.start) @ edge.direction
        off = float(np.linalg.norm(screw.point - edge.start - along * edge.direction))
        assert screw.flat == (screw.mark[0] == "E" and off < 10.5), screw.mark
    assert sum(screw.flat for screw in layout.screws) >= 2


def test_heads_that_reach_under_the_main_ridge_are_cut_along_it_too() -> None:
    """The wing's ridge dies 9 in short of the main one in plan: the dams under that end at its line, 1/16 in off it."""
    roof = {"form": "outline", "pitch": "7/12", **SHAPES["wing a hand below the ridge"]}
    layout = build(scene_of({"title": "T", "roof": roof}))
    ridge = layout.run("ridge 1-3").edge
    assert ridge.start[1] + 9 == pytest.approx(layout.run("ridge 4-6").edge.start[1])
    heads = [part for part in pans(layout) if part.ends.high.kind.name == "valley head"]
    for part in heads:
        off = []
        for tab in part.ends.high.cut.tabs:
            y = in_scene(part.run.section, tab.strip, part.placement, tab.hinge)[:, 1] - ridge.start[1]
            off.append(y.tolist() if abs(y[0] - y[1]) < 1e-3 else None)
        (under,) = [one for one in off if one is not None]
        assert all(1 / 16 - 0.01 <= one <= 1 / 16 + 0.1 for one in under)
    assert len(heads) == 2


def test_a_head_is_turned_up_no_farther_than_its_ridge_goes() -> None:
    """The ridge is 9 in long and the wing some 13 in wide along it; beyond its end panels lie over the pan.

    By hand: both eaves are 30 in from the ridge in plan; valleys at 45 degrees from the inside corners, which 6 in of
    overhang bring to y = 175 and 124, end 30 in from there, at y = 145 and 154.
    """
    outline = [[0, 0], [348, 0], [348, 130], [605, 130], [605, 351], [300, 351], [300, 169], [0, 169]]
    roof = {"form": "outline", "outline": outline, "pitch": "4/12", "wall_height": 240}
    roof |= {"overhang": {"eave": 6, "rake": 4}, "sides": {1: {"edge": "gable"}}}
    layout = build(scene_of({"title": "Z", "roof": roof}))
    ridge = layout.run("ridge 2-6").edge
    assert ridge.length == pytest.approx(9)
    along = []
    for pan in pans(layout):
        for tab in pan.ends.high.cut.tabs:
            x, y, _ = in_scene(pan.run.section, tab.strip, pan.placement, tab.hinge).T
            if np.ptp(x) < 1 / 8:
                along += y.tolist()
    assert len(along) == 4 and min(along) > 145 - 1 / 4 and max(along) < 154 + 1 / 4
    assert max(along) - min(along) == pytest.approx(9, abs=1 / 4)


def test_a_wing_is_turned_up_to_the_end_of_the_ridge_above_it_and_not_past_that() -> None:
    """The pan's wing reaches 0.9 in past the end of the ridge, where the next slope goes on."""
    layout = build(scene_of(ordinary_outline(3007)))
    ridge = layout.run("ridge 2-8").edge
    part = layout.parts_of("valley 8-9")[-1]
    ends = [in_scene(part.run.section, tab.strip, part.placement, tab.hinge) for tab in part.sheet.tabs]
    assert ((np.concatenate(ends) - ridge.start) @ ridge.direction).max() == pytest.approx(
        ridge.length, abs=0.1
    )
