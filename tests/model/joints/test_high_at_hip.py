"""The top of a gable wall that ends level: a rake, the high trim and a hip's cap meet at each end of it."""

import math

import numpy as np
import pytest
from covered import assert_covered
from hypothesis import example, given, settings
from hypothesis import strategies as st
from ordinary_outlines import ordinary_outline
from sound import assert_sound
from uncut import left_uncut

from trimwright.model.checks.run import check
from trimwright.model.joints import high_at_hip, hip_at_high, sealed_end
from trimwright.model.joints.ridge_end import COVER
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import facets
from trimwright.model.tolerances import CLEARANCE

OUTLINES = (3003, 3005, 3021, 3032, 3034, 3043, 3049, 3054)
"""Outlines with one: of 4/12 to 14/12, on all sides alike or not, square or not."""

FRONT = 8.0
"""How far the deck reaches past the gable wall, inches."""


def house(run: float, side: str, far: str, **trim: bool) -> Layout:
    """Return a house 30 feet wide, so shallow that the slope at its back comes up to the gable wall at its front.

    Args:
        run: How deep it is, inches.
        side: Pitch of the two slopes beside the wall.
        far: Pitch of the one at the back.
        trim: Kinds of edge that are to have trim, or not.
    """
    roof = {
        "form": "outline",
        "outline": [[0, 0], [360, 0], [360, run], [0, run]],
        "pitch": side,
        "wall_height": "9'",
        "sides": {1: {"edge": "gable"}, 3: {"pitch": far}},
    }
    return build(scene_of({"title": "House", "roof": roof, "trim": trim}))


def of_kind(there: Layout, trim: str) -> list[Part]:
    """Return the pieces of a kind of trim that end at such a corner."""
    kinds = (high_at_hip.KIND, hip_at_high.KIND)
    return [
        part for part in there.parts if part.run.trim == trim and any(end.kind in kinds for end in part.ends)
    ]


def assert_made(there: Layout) -> None:
    """Check it by manifold3d and every rule; its steps follow every line of the cut."""
    assert_sound(there)
    assert_covered(there)
    assert max(left_uncut(end) for part in there.parts for end in part.ends) < 0.05


def test_the_top_leg_is_cut_on_half_the_angle_to_the_hip() -> None:
    """By hand, 12/12: the hip goes ``(-1, -1, -1)`` from the corner, the high edge ``(1, 0, 0)``, so 125.26 degrees.

    Half of that lies between the cut and the edge, at either end of the high edge.
    """
    there = house(120.0, "12/12", "12/12")
    (part,) = of_kind(there, "high")
    section = part.run.section
    top = section.strip_of("top")
    half = math.acos(-1 / math.sqrt(3)) / 2
    for cut, sign in ((part.sheet.low, -1), (part.sheet.high, 1)):
        inboard = [u for u, v in cut.line if v == section.v[top]][-1]
        at_face = next(u for u, v in cut.line if v == section.v[top + 1])
        back = (at_face - inboard) * sign
        assert math.atan2(section.v[top + 1] - section.v[top], back) == pytest.approx(half, abs=1e-3)


def test_flaps_hang_in_one_plane_before_the_wall() -> None:
    """By hand, 12/12: wings' painted normals are ``(-1, 0, 1)`` and ``(0, 1, 1)`` by root 2, the flaps' ``(0, -1, 0)``.

    So they are turned down by 90 and by 135 degrees. All stand over the rake's hook lip, as far out as it, and 3/4 in
    below the deck.
    """
    there = house(120.0, "12/12", "12/12")
    caps = of_kind(there, "hip")
    assert len(caps) == 2
    for part in caps:
        assert part.ends.high.kind is hip_at_high.KIND
        folds = sorted(math.degrees(abs(tab.angle)) for tab in part.ends.high.cut.tabs)
        assert folds == pytest.approx([90.0, 135.0], abs=0.2)
        flaps = [one for one in facets(part.sheet) if one.tab]
        corners = [one.to_space(one.ring) @ part.placement[:3, :3].T + part.placement[:3, 3] for one in flaps]
        out = -np.concatenate(corners)[:, 1]
        lip = max(-met.solid.vertices[:, 1].min() for met in of_kind(there, "rake"))
        assert np.ptp(out) < 0.01 and lip < out.mean() < lip + 0.5
        for flap, face in zip(corners, part.run.edge.faces, strict=True):
            normal = there.roof.faces[face].normal
            above = (flap - part.run.edge.end) @ normal / normal[2]
            assert np.sort(above)[1] <= -COVER + 0.1


def test_the_middle_bend_is_flattened_in_the_flap_that_reaches_over_it() -> None:
    """By hand, 12/12: the hip goes ``(-1, -1, -1)``, its flap's fold on the high trim ``(1, 0, 0)``: 54.74 degrees.

    The bend goes through the flap at that angle, from the fold to the outer line, but for the bend's own width.
    """
    for part in of_kind(house(120.0, "12/12", "12/12"), "hip"):
        end = part.ends.high
        (flat,) = (one for one in end.steps if one.verb == "ease")
        verbs = [one.verb for one in end.steps]
        assert verbs.index("fold") == verbs.index("ease") + 1
        ((first, v), (last, other)) = flat.lines[0]
        assert v == other == pytest.approx(part.run.section.width / 2, abs=0.01)
        through = end.cut.tabs[0].width / math.sin(math.acos(1 / math.sqrt(3)))
        assert abs(first - last) == pytest.approx(through, abs=0.1)


def test_kicks_meet_in_one_point() -> None:
    """The bends above both kicks end in one point, but for the clearance and the sheet that lies between them."""
    for pitch in ("4/12", "12/12"):
        there = house(120.0, pitch, pitch)
        (high,) = of_kind(there, "high")
        for rake in of_kind(there, "rake"):
            ends = []
            for part, cut in ((rake, rake.sheet.high), (high, high.sheet.low), (high, high.sheet.high)):
                section, line = part.run.section, part.run.section.strip_of("face") + 1
                u = [u for u, v in cut.line if abs(v - section.v[line]) < 1e-9][-1]
                ends.append((part.placement @ [u, *section.points[line], 1.0])[:3])
            near = min(float(np.linalg.norm(ends[0] - one)) for one in ends[1:])
            assert near < 2 * CLEARANCE + there.scene.metal.thickness


@pytest.mark.parametrize("number", OUTLINES)
def test_nothing_is_wrong_with_ordinary_outlines(number: int) -> None:
    there = build(scene_of(ordinary_outline(number)))
    assert_made(there)
    assert of_kind(there, "high") and of_kind(there, "rake") and of_kind(there, "hip")
    assert "corner-without-joint" not in {one.rule for one in check(there)}


@settings(max_examples=10, deadline=None)
@example(3, 1, 60)
@given(st.integers(3, 14), st.integers(-2, 2), st.integers(60, 160))
def test_nothing_is_wrong_with_any_house(side: int, more: int, run: int) -> None:
    there = house(float(run), f"{side}/12", f"{max(side + more, 3)}/12")
    assert_made(there)


def test_a_top_too_short_for_two_caps_is_sealed() -> None:
    """By hand: 30 feet less twice the depth, front overhang and all, is left where all slopes are alike."""
    for left, made in ((25.0, True), (23.0, False)):
        there = house((360.0 - left) / 2 - FRONT, "6/12", "6/12")
        assert bool(of_kind(there, "hip")) is made
        assert ("corner-without-joint" in {one.rule for one in check(there)}) is not made


@pytest.mark.parametrize("bare", ["rake", "high"])
def test_without_trim_to_close_over_a_cap_is_sealed(bare: str) -> None:
    there = house(120.0, "6/12", "6/12", **{bare: False})
    ends = [part.ends.high.kind for part in there.parts if part.run.trim == "hip"]
    assert sealed_end.KIND in ends and hip_at_high.KIND not in ends
    assert_sound(there)
