"""Sizes that are read under a roof, by hand: across its ends, and from corner to corner."""

import math

import pytest
from zoo import NAMES, layout

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.read import scene_of
from trimwright.model.survey.quantities import under_the_roof

LONG, WIDE = 300 + 2 * 6, 200 + 2 * 12
"""Of the deck of a gable of 300 by 200 in, whose rakes lie 6 in outside of its walls and whose eaves 12 in."""


@pytest.mark.parametrize(
    ("form", "long", "spans"),
    [("gable", LONG, [WIDE, WIDE]), ("shed", LONG, []), ("hip", 300 + 2 * 12, [])],
)
def test_ends_without_an_edge_are_spanned_and_both_diagonals_are_as_long(
    form: str, long: float, spans: list[float]
) -> None:
    overhang = {"eave": 12, "rake": 6, "high": 12}
    roof = {"form": form, "length": 300, "width": 200, "pitch": "6/12", "overhang": overhang}
    there = build_roof(scene_of({"title": "House", "roof": roof}).roof)
    level = {one.name: one.value(there.vertices) for one in under_the_roof(there) if one.kind == "plan"}
    across = math.hypot(long, WIDE)
    assert level == pytest.approx(
        {f"span {number}": far for number, far in enumerate(spans, 1)}
        | {f"plan diagonal {number}": across for number in (1, 2)}
    )


@pytest.mark.parametrize("form", ["gable", "shed", "hip"])
def test_ridges_and_high_edges_are_as_high_over_an_eave_as_the_slope_rises_to_them(form: str) -> None:
    """By hand: 6 in 12 over half the width of the deck, or over all of it on a shed."""
    overhang = {"eave": 12, "rake": 6, "high": 12}
    roof = {"form": form, "length": 300, "width": 200, "pitch": "6/12", "overhang": overhang}
    there = build_roof(scene_of({"title": "House", "roof": roof}).roof)
    heights = [one.value(there.vertices) for one in under_the_roof(there) if one.kind == "height"]
    assert heights == pytest.approx(2 * [WIDE / 2 if form == "shed" else WIDE / 4])


@pytest.mark.parametrize("name", NAMES)
def test_a_height_is_read_over_an_eave_of_a_slope_that_ends_there(name: str) -> None:
    """On a house with wings another eave may be out of sight, or higher."""
    roof = layout(name).roof
    for one in under_the_roof(roof):
        if one.kind == "height":
            low, top = (
                {
                    face
                    for edge in roof.edges
                    if edge.kind in kinds and at in edge.vertices
                    for face in edge.faces
                }
                for at, kinds in zip(one.corners, (("eave",), ("ridge", "high")), strict=True)
            )
            assert low & top
