"""Continuous cleats: lengths out of stock that lap, nest and are screwed down, by hand; clear of all that is near."""

from itertools import pairwise

import numpy as np
import pytest
from porches import porch_roof
from slots import unsealed
from solids import collisions, depths

from trimwright.model.layout import Layout
from trimwright.model.panels.cleats import Cleat
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

T = 0.0239
"""Thickness of the steel of the scenes below, inches."""


def cleated(thickness: float = T, stock: int = 10, **rest: object) -> Layout:
    """Return a gable, 30 by 20 ft at 6 in 12, whose eaves and rakes have no lip."""
    trim = {"eave": {"profile": "plain drip"}, "rake": {"profile": "box rake"}}
    roof = {"form": "gable", "length": "30 ft", "width": "20 ft", "pitch": "6/12", "overhang": {"rake": 0}}
    metal = {"kind": "aluminum", "thickness": thickness, "stock": [f"{stock} ft"]}
    return build(scene_of({"title": "Any", "roof": roof, "metal": metal, "trim": trim} | rest))


def on(here: Layout, name: str) -> list[Cleat]:
    return [cleat for cleat in here.cleats if cleat.at == name]


def test_an_eave_by_hand() -> None:
    """360 in and laps of 3: a fourth length of 360 + 9 - 360 = 9 in would be a stub, shorter than 24 in.

    Shared with the one beside it, its first lap would be at 117 to 120 in, on the trim's at 116 to 120: so all four
    are (360 + 9) / 4 = 92 1/4 in. Wind from the left, the usual, puts the one nearer to it on top.
    """
    here = cleated()
    own = on(here, "front eave")
    assert [cleat.length for cleat in own] == pytest.approx([92.25] * 4)
    assert [cleat.start for cleat in own] == pytest.approx([0, 89.25, 178.5, 267.75])
    assert [cleat.mark for cleat in own] == ["E1-K1", "E1-K2", "E1-K3", "E1-K4"]
    for lower, upper in pairwise(own):
        (high,) = (end for end in lower.laps if end.at == "high")
        (low,) = (end for end in upper.laps if end.at == "low")
        assert high.lap == low.lap == pytest.approx(3.0)
        assert {high.lies, low.lies} == {"over", "under"}
        top, below = (lower, upper) if high.lies == "over" else (upper, lower)
        assert below.mark in here.setting(top.mark).over


def test_rather_on_the_trims_lap_than_with_a_stub() -> None:
    """132 in and a lap of 3: two of 67 1/2 in lap at 64 1/2 to 67 1/2 in, on the trim's at 64 to 68; from the high end
    it would be one of 120 and a stub of 15 in, whose lap is clear of the trim's.
    """
    roof = {"form": "gable", "length": "11 ft", "width": "12 ft", "pitch": "6/12", "overhang": {"rake": 0}}
    assert [cleat.length for cleat in on(cleated(roof=roof), "front eave")] == pytest.approx([67.5, 67.5])


def test_one_screw_holds_a_lap_and_none_is_under_it() -> None:
    """At the middle of the lap, 1 1/2 in from the end of the length on top; none farther apart than 12 in."""
    here = cleated()
    for run in here.runs:
        own = on(here, run.name)
        at = sorted(cleat.start + screw for cleat in own for screw in cleat.screws)
        assert max(np.diff(at), default=0.0) <= 12 + 1e-6
        for lower, upper in pairwise(own):
            first, last = upper.start, lower.start + lower.length
            assert [u for u in at if first - 1 / 2 < u < last + 1 / 2] == pytest.approx([(first + last) / 2])


def test_the_screws_at_the_ends_of_an_eave_by_hand() -> None:
    """An inch from where the metal ends, and between it and the lap's, 90 3/4 - 1 in off, 8 gaps of 11.22 in."""
    own = on(cleated(), "front eave")
    first, last = own[0], own[-1]
    assert [round(first.screws[0], 6), round(last.length - last.screws[-1], 6)] == [1.0, 1.0]
    assert np.diff(first.screws) == pytest.approx([89.75 / 8] * (len(first.screws) - 1))


def test_underneath_a_length_has_no_folded_edge() -> None:
    """Only the flange goes under, back from the fold too: the fold of the one on top closes round it."""
    here = cleated()
    under = on(here, "right-end right rake")[0]
    assert [end.lies for end in under.laps] == ["under"]
    section = under.sheet.section
    fold = float(section.v[section.strip_of("return")])
    outline = under.sheet.outline
    high = under.sheet.extent[1]
    assert outline[outline[:, 1] > fold + 1e-6, 0].max() < high - 3.0
    assert outline[outline[:, 0] > high - 3.0, 1].max() < float(section.v[1])


@pytest.mark.parametrize("thickness", [0.0179, 0.0239, 0.032, 0.04])
@pytest.mark.parametrize("profile", ["double lock", "screwed rib"])
def test_cleats_nest_and_panels_clear_them(thickness: float, profile: str) -> None:
    """Lapped they touch and no more, whatever the metal; pans of thick metal lie higher than 1/8 in for that.

    The flange of a screwed rib lies lower than pans: it begins where the cleat ends.
    """
    here = cleated(thickness, panels={"profile": profile})
    assert depths(here) == [] and unsealed(here) == []
    marks = {cleat.mark for cleat in here.cleats}
    for one, other, depth in collisions(here):
        if {one, other} <= marks:
            assert depth < thickness / 10


def test_laps_of_cleats_keep_off_those_of_the_trim() -> None:
    here = cleated()
    for run in here.runs:
        own, parts = on(here, run.name), here.parts_of(run.name)
        if not own:
            continue
        laps = [(two.start, one.start + one.length) for one, two in pairwise(own)]
        below = [(two.low, one.high) for one, two in pairwise(parts)]
        assert all(last < low or high < first for first, last in laps for low, high in below)


def test_the_lap_is_a_limit() -> None:
    here = cleated(rules={"limits": {"cleat-lap": {"value": 5, "reason": "wind"}}})
    laps = [end.lap for cleat in here.cleats for end in cleat.laps]
    assert laps == pytest.approx([5.0] * len(laps))


def test_a_hip_meets_the_screws_on_metal() -> None:
    """At a hip the flange is cut back as far in as it is deep: its end screws keep 1 in from where it ends."""
    here = build(
        scene_of(
            {
                "title": "Hip",
                "roof": {"form": "hip", "length": "40 ft", "width": "20 ft", "pitch": "6/12"},
                "trim": {"eave": {"profile": "plain drip"}},
            }
        )
    )
    for cleat in here.cleats:
        for u, v in cleat.screws_flat:
            flat = cleat.sheet.outline - [cleat.sheet.extent[0], 0.0]
            crossing = [
                a[0] + (v - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
                for a, b in zip(flat, np.roll(flat, -1, axis=0), strict=True)
                if (a[1] - v) * (b[1] - v) < 0
            ]
            assert min(crossing) + 1 - 1e-6 <= u <= max(crossing) - 1 + 1e-6


def test_at_a_hip_between_unequal_pitches_no_lip_stands_out_past_the_other_eaves() -> None:
    """Lips reach 1 in past the deck along the slope, 0.7 in level at 12 in 12.

    The hip goes 2 in back for each inch in from the end: on its line the end's lip would reach 1.4 in past the front.
    """
    roof = {"form": "hip", "length": "40 ft", "width": "20 ft", "pitch": "6/12", "end_pitch": "12/12"}
    here = build(scene_of({"title": "Hip", "roof": roof, "trim": {"eave": {"profile": "plain drip"}}}))
    for eave in (edge for edge in here.roof.edges if edge.kind == "eave"):
        out = eave.outward * [1.0, 1.0, 0.0] / np.linalg.norm(eave.outward[:2])
        assert max(float(((one.solid.vertices - eave.start) @ out).max()) for one in here.cleats) <= 1.001


def test_at_a_porch_cleats_end_before_the_line_that_halves_the_corner() -> None:
    """By hand: half of 1/8 in along their own edge, give or take the metal round the fold; they lie in one plane.

    What hangs as far out from its edge as it is away from the corner is on that line.
    """
    here = cleated(roof=porch_roof())
    tops = [edge.end for edge in here.roof.edges if edge.kind == "rake" and "porch" in edge.name]
    met = [
        (edge, corner)
        for edge in here.roof.edges
        for corner in tops
        if any(np.allclose(corner, end) for end in (edge.start, edge.end))
    ]
    assert len(met) == 4
    for edge, corner in met:
        points = np.vstack([cleat.solid.vertices for cleat in on(here, edge.name)]) - corner
        away = edge.direction * (1 if np.allclose(corner, edge.start) else -1)
        assert (points @ away - points @ edge.outward).min() == pytest.approx(1 / 16, abs=T)


@pytest.mark.parametrize("rake", ["box rake", "plain drip"])
def test_no_head_of_the_trims_screws_is_under_a_cleat(rake: str) -> None:
    """A top leg of 4 in takes its screws in the middle, 2 in from the edge: the flange ends before their heads."""
    here = cleated(trim={"eave": {"profile": "plain drip"}, "rake": {"profile": rake}})
    for run in here.runs:
        inner = [float(cleat.sheet.section.points[0, 0]) for cleat in on(here, run.name)]
        heads = [
            float((screw.point - run.frame[:3, 3]) @ run.frame[:3, 1]) + here.scene.screws.head / 2
            for part in here.parts_of(run.name)
            for screw in here.screws_of(part.mark)
        ]
        assert not inner or max(heads) < min(inner)
