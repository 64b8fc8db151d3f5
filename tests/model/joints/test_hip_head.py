"""Hip heads: every wing stays over its own face, and laps on its neighbor as far as the laps along its run."""

import numpy as np
import pytest

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import in_scene

PITCHES = [("6/12", "6/12"), ("3/12", "2/12"), ("14/12", "5/12"), ("8/12", "3/12"), ("2/12", "16/12")]


def hip(pitch: str, ends: str, lap: float = 4.0) -> Layout:
    roof = {"form": "hip", "length": "70'", "width": "20'", "pitch": pitch, "end_pitch": ends}
    trim = {kind: {"lap": lap} for kind in ("hip", "ridge")}
    if pitch == "14/12":
        roof["length"] = "90'"
    return build(scene_of({"title": "Hip", "roof": roof, "trim": trim}))


def cut_of(part: Part, at: int, wing: str) -> np.ndarray:
    """Return the corners of a wing's cut, from the low to the high ``v``, ``(k, 3)``, inches, scene frame."""
    strip, section = part.run.section.strip_of(wing), part.run.section
    line = part.ends[at].cut.line
    v = section.v[strip : strip + 2]
    flat = line[(line[:, 1] >= v[0] - 1e-9) & (line[:, 1] <= v[1] + 1e-9)]
    return in_scene(section, strip, part.placement, flat)


def heads(plan: Layout) -> list[tuple[Part, int, int, str]]:
    """Return every wing at a hip head: its piece, which end, the face it lies over, and its name."""
    return [
        (part, at, face, wing)
        for part in plan.parts
        for at, end in enumerate(part.ends)
        if end.kind.name == "hip head"
        for face, wing in zip(part.run.edge.faces, ("left wing", "right wing"), strict=True)
    ]


@pytest.mark.parametrize(("pitch", "ends"), PITCHES)
def test_a_wing_runs_on_over_no_other_face(pitch: str, ends: str) -> None:
    """All wings lie equally high over their faces. Of a hip roof the face under a point is the lowest plane there."""
    plan = hip(pitch, ends)
    for part, at, face, wing in heads(plan):
        points = cut_of(part, at, wing)
        section, strip = part.run.section, part.run.section.strip_of(wing)
        lifted = float(section.points[strip] @ section.normals[strip])
        heights = [
            other.outline[0][2]
            + (lifted - (points[:, :2] - other.outline[0][:2]) @ other.normal[:2]) / other.normal[2]
            for other in plan.roof.faces
        ]
        assert (heights[face] - np.min(heights, axis=0)).max() < 0.02, (part.mark, wing)


@pytest.mark.parametrize("lap", [2.0, 3.0, 3.5])
def test_by_hand_caps_lap_as_far_as_along_their_run(lap: float) -> None:
    """Square to the miter line the wing on top reaches past it by the lap.

    The miter plane goes through the point of the roof, square to the difference of the ways in which both run to it.
    """
    plan = hip("6/12", "6/12", lap)
    found = heads(plan)
    reached = []
    for over, at, face, wing in found:
        for under, other_at, other_face, other in found:
            mine, theirs = cut_of(over, at, wing), cut_of(under, other_at, other)
            if under is over or other_face != face or np.abs(mine - theirs[:1]).max() > 20:
                continue
            ways = [
                part.run.edge.direction * (1 if end else -1) for part, end in ((over, at), (under, other_at))
            ]
            across = (ways[0] - ways[1]) / np.linalg.norm(ways[0] - ways[1])
            apex = plan.roof.vertices[over.run.edge.vertices[at]]
            past = (mine - apex) @ across
            reached.append(float(past.max()))
    assert max(reached) == pytest.approx(lap, abs=0.03)
    assert len(reached) == 12
    assert sum(past > lap / 2 for past in reached) == 6, "on each face one cap is on top"


def test_a_hip_that_comes_down_to_a_lower_ridge_lies_over_its_cap() -> None:
    """An L of 20 and 28 ft: a hip falls from the main ridge to the wing's, which is 8 ft * 6/12 / 2 = 2 ft lower."""
    ell = [["0", "0"], ["50'", "0"], ["50'", "28'"], ["20'", "28'"], ["20'", "50'"], ["0", "50'"]]
    plan = build(scene_of({"title": "L", "roof": {"form": "outline", "outline": ell, "pitch": "6/12"}}))
    [hip] = [run for run in plan.runs if run.trim == "hip" and run.edge.start[2] > 150]
    [ridge] = [
        run for run in plan.runs if run.trim == "ridge" and set(run.edge.vertices) & {hip.edge.vertices[0]}
    ]
    assert hip.edge.end[2] - hip.edge.start[2] == pytest.approx(24)
    lowest = plan.parts_of(hip.name)[0]
    assert {part.mark for part in plan.parts_of(ridge.name)} & set(plan.setting(lowest.mark).over)


def test_a_ridge_lies_over_all_hips_that_come_up_to_it() -> None:
    """By hand: of three hips the one in the middle lies lowest, the others on it, and the ridge on both of these."""
    roof = {
        "form": "outline",
        "outline": [[0, 0], [131, -2.5], [262, 0], [262, 308], [0, 308]],
        "pitch": "5/12",
    }
    sides = {3: {"pitch": "6/12"}, 4: {"pitch": "7/12"}, 5: {"pitch": "6/12"}}
    layout = build(scene_of({"title": "Bent", "roof": roof | {"sides": sides, "wall_height": 240}}))
    ridge = layout.parts_of("ridge 3-5")[0]
    hips = [layout.parts_of(name)[-1] for name in ("hip 2-3", "hip 1-5", "hip 1-2")]
    assert [part.ends.high.lies for part in hips[:2]] == [None, None] and hips[2].ends.high.lies == "under"
    assert ridge.ends.low.lies == "over" and set(ridge.ends.low.others) == {hip.mark for hip in hips[:2]}
    assert not [one for one in check(layout) if one.severity == "error"]
