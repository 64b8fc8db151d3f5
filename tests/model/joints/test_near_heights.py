"""A wing whose ridge comes up almost as high as the main one: all that ends there makes up one corner."""

from functools import cache

import pytest
from solids import depths
from uncut import left_uncut

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof, is_bridged
from trimwright.model.scene.read import scene_of
from trimwright.model.scene.schema import Scene

MAIN = 312.0


def house(wing: float, pitch: str = "6/12", shape: str = "T") -> Scene:
    """Return a house 26 ft wide with a wing at its back, that wide, in the middle or at its left end."""
    left = (528 - wing) / 2 if shape == "T" else 0.0
    right, deep = left + wing, MAIN + 120
    outline = [[0, 0], [528, 0], [528, MAIN], [right, MAIN], [right, deep], [left, deep]]
    outline += [[left, MAIN], [0, MAIN]] if shape == "T" else []
    gables = {"2": {"edge": "gable"}, "5": {"edge": "gable"}} | (
        {"8": {"edge": "gable"}} if shape == "T" else {}
    )
    roof = {"form": "outline", "outline": outline, "pitch": pitch, "sides": gables, "wall_height": "20'"}
    return scene_of({"title": shape, "roof": roof})


@cache
def laid(wing: float, pitch: str, shape: str) -> Layout:
    return build(house(wing, pitch, shape))


@pytest.mark.parametrize(
    ("wing", "pitch", "shape"),
    [
        (311.0, "6/12", "T"),
        (308.0, "6/12", "T"),
        (306.0, "3/12", "T"),
        (303.0, "12/12", "T"),
        (296.0, "6/12", "T"),
        (288.0, "6/12", "T"),
        (310.0, "6/12", "L"),
        (306.0, "12/12", "L"),
        (300.0, "3/12", "L"),
    ],
)
def test_nothing_is_wrong_at_any_difference(wing: float, pitch: str, shape: str) -> None:
    """Against manifold3d and every rule; a short hip is covered by a patch, and told."""
    layout = laid(wing, pitch, shape)
    found = [one for one in check(layout) if one.severity != "note"]
    short = {edge.name for edge in layout.roof.edges if is_bridged(edge)}
    assert {one.rule for one in found} <= {"edge-without-trim"} and {one.where for one in found} <= short
    assert depths(layout) == []
    assert max(left_uncut(end) for part in layout.parts for end in part.ends) < 0.05


def test_a_slope_that_is_all_but_cut_off_is_parted_as_where_the_heights_are_one() -> None:
    """By hand: 5 in less width at 6/12 is 1 1/4 in less height, so the valleys meet 2 1/2 in from the ridge in plan."""
    near, one = (build_roof(house(wing).roof) for wing in (MAIN - 5.0, MAIN))
    assert {face.name for face in near.faces} == {face.name for face in one.faces}
    (neck,) = (edge for edge in near.edges if edge.is_neck)
    assert {edge.name for edge in near.edges} - {neck.name} == {edge.name for edge in one.edges}
    assert neck.length == pytest.approx((2.5**2 + 1.25**2) ** 0.5)
    assert sum(face.area for face in near.faces) == pytest.approx(
        sum(face.area for face in one.faces) - 120 * 5 * (1 + 0.5**2) ** 0.5, rel=1e-3
    )


def test_a_neck_is_no_edge_that_wants_trim() -> None:
    layout = laid(308.0, "6/12", "T")
    assert any(edge.is_neck for edge in layout.roof.edges) and layout.untrimmed == ()


def test_a_slope_wider_there_stays_whole() -> None:
    assert not any(edge.is_neck for edge in build_roof(house(280.0).roof).edges)
