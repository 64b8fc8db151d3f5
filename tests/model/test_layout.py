"""The whole layout: a symmetric roof has symmetric trim, a turned roof turned trim, a longer roof more of it."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.tolerances import TAPE

CLOSE = 5e-3
"""Inches. A rake's end is found in two rounds, so that equal corners come out equal to a few thousandths."""


def built(form: str = "gable", wind: str = "left", start: str = "low", **sizes: float) -> Layout:
    roof = {"form": form, "length": 240, "width": 240, "pitch": "6/12", **sizes}
    trim = {kind: {"start": start} for kind in ("eave", "rake", "ridge", "hip", "high")}
    return build(scene_of({"title": "Store", "wind": wind, "roof": roof, "trim": trim}))


def parts_of(plan: Layout, run: str) -> list[Part]:
    return [part for part in plan.parts if part.run.name == run]


def gap(first: np.ndarray, second: np.ndarray) -> float:
    """Return how far the farthest of two clouds' points is from the other cloud, inches."""
    apart = np.linalg.norm(first[:, None] - second[None], axis=2)
    return float(max(apart.min(axis=0).max(), apart.min(axis=1).max()))


def middle(plan: Layout) -> np.ndarray:
    """Return the plan's middle, at height 0."""
    ends = plan.roof.vertices
    return np.asarray((ends.min(axis=0) + ends.max(axis=0)) / 2) * [1.0, 1.0, 0.0]


pitches = st.sampled_from(["3/12", "5/12", "8/12", "12/12"])


@given(st.integers(230, 420), pitches)
@settings(max_examples=12)
def test_left_and_right_rakes_of_a_gable_are_mirror_images(width: int, pitch: str) -> None:
    """Every piece but the two at a peak, where one lies on the other: those agree up to there.

    Flat patterns are the same sheet cut; the solids are mirror images across the middle of the gable's end. A sliver
    at the top borrows from the piece below what the cuts of its own peak need, so slivers are left out.
    """
    plan = built(width=width, pitch=pitch)
    left, right = parts_of(plan, "right-end left rake"), parts_of(plan, "right-end right rake")
    assert len(left) == len(right)
    assume(len(left) == 1 or left[-1].length > 20)
    for one, other in zip(left[:-1], right[:-1], strict=True):
        assert gap(one.sheet.outline, other.sheet.outline) < CLOSE
        mirrored = one.solid.vertices * [1, -1, 1] + 2 * middle(plan) * [0, 1, 0]
        assert gap(mirrored, other.solid.vertices) < CLOSE
        assert {one.run.hand, other.run.hand} == {"left", "right"}
        assert np.linalg.det(one.placement[:3, :3]) == pytest.approx(
            -np.linalg.det(other.placement[:3, :3]), abs=1e-9
        )
    assert gap(left[-1].sheet.low.line, right[-1].sheet.low.line) < CLOSE


@pytest.mark.parametrize("form", ["gable", "hip"])
@pytest.mark.parametrize("start", ["low", "even"])
def test_a_roof_turned_by_half_has_its_trim_turned_with_it(form: str, start: str) -> None:
    """Turned about its middle the roof is itself, front for back and left for right; the wind is turned too.

    Ridge caps are left out: a ridge runs to the right, whichever way the roof is turned.
    """
    plan, turned = built(form, "left", start), built(form, "right", start)
    center = middle(plan)
    solids = [part.solid.vertices for part in turned.parts if part.run.trim != "ridge"]
    for part in (part for part in plan.parts if part.run.trim != "ridge"):
        vertices = (part.solid.vertices - center) * [-1, -1, 1] + center
        low, high = vertices.min(axis=0), vertices.max(axis=0)
        near = [
            other
            for other in solids
            if np.abs(other.min(axis=0) - low).max() < 0.1 and np.abs(other.max(axis=0) - high).max() < 0.1
        ]
        assert near, part.mark
        assert min(gap(vertices, other) for other in near) < CLOSE


@given(st.integers(100, 500), st.sampled_from(["low", "high", "centered", "even", "shared"]))
@settings(max_examples=12)
def test_a_roof_twice_as_long_has_about_twice_the_eave_and_the_same_rakes(length: int, start: str) -> None:
    once, twice = built(length=length, start=start), built(length=2 * length, start=start)
    for name in ("front eave", "back eave", "ridge"):
        few, many = len(parts_of(once, name)), len(parts_of(twice, name))
        assert few <= many <= 2 * few + 1
        assert many >= 2 * few - 2
    for run in (run.name for run in once.runs if run.trim == "rake"):
        assert [p.length for p in parts_of(once, run)] == pytest.approx(
            [p.length for p in parts_of(twice, run)], abs=CLOSE
        )


@given(
    st.sampled_from(["gable", "hip", "shed"]),
    st.integers(60, 500),
    st.integers(60, 400),
    pitches,
    st.sampled_from(["low", "high", "centered", "even", "shared"]),
)
@settings(max_examples=25)
def test_every_run_is_covered_and_lapped(form: str, length: int, width: int, pitch: str, start: str) -> None:
    plan = built(form, start=start, length=length, width=width, pitch=pitch)
    assert {part.run.name for part in plan.parts} == {edge.name for edge in plan.roof.edges}
    for run in plan.runs:
        parts = parts_of(plan, run.name)
        assert parts[0].low <= TAPE
        assert parts[-1].high >= run.length - 1 / 4
        for before, after in pairwise(parts):
            assert before.high - after.low >= run.spec.lap - TAPE
        assert all(part.length <= plan.scene.metal.stock[-1] + TAPE for part in parts)
