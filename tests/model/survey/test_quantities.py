"""Sizes that are read under a roof, by hand: across its ends, and from corner to corner."""

import math

import pytest

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
