"""What a scene says of an outline, and what cannot be meant: refused with the place and the way out."""

# ruff: noqa: E501

from typing import Any

import pytest

from trimwright.model.errors import SceneError
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.scene.read import scene_of

ELL = [[0, 0], ["44'", 0], ["44'", "26'"], ["24'", "26'"], ["24'", "40'"], [0, "40'"]]
COURT = [["6'", "6'"], ["6'", "12'"], ["12'", "12'"], ["12'", "6'"]]


def roof(**changes: Any) -> OutlineSpec:
    raw = {"form": "outline", "outline": ELL, "pitch": "6/12", **changes}
    spec = scene_of({"title": "Ell", "roof": raw}, "ell.toml").roof
    assert isinstance(spec, OutlineSpec)
    return spec


def problems(**changes: Any) -> list[str]:
    with pytest.raises(SceneError) as caught:
        roof(**changes)
    return [str(problem) for problem in caught.value.problems]


def test_sides_have_the_roofs_values_or_their_own() -> None:
    spec = roof(sides={"2": {"edge": "gable"}, "5": {"pitch": "8/12", "overhang": "18 in"}})
    assert [spec.is_gable(number) for number in range(1, 7)] == [False, True, False, False, False, False]
    assert spec.pitch_of(1) == spec.pitch
    assert spec.pitch_of(5) > spec.pitch
    assert [spec.overhang_of(number) for number in (1, 2, 5)] == [12, 8, 18]
    assert (spec.length, spec.width) == (528, 480)


def test_a_bare_number_is_in_the_unit_of_the_scene() -> None:
    raw = {"form": "outline", "outline": [[0, 0], [12, 0], [12, 8], [0, 8]], "pitch": "6/12"}
    spec = scene_of({"title": "Ell", "unit": "m", "roof": raw}).roof
    assert spec.length == pytest.approx(12 / 0.0254)


@pytest.mark.parametrize(
    ("changes", "lines"),
    [
        (
            {"outline": ELL[::-1]},
            ["roof.outline: its corners go round clockwise seen from above; list them counter-clockwise"],
        ),
        (
            {"holes": [COURT[::-1]]},
            ["roof.holes no. 1: its corners go round counter-clockwise seen from above; list them clockwise"],
        ),
        ({"outline": ELL[:2]}, ["roof.outline: too few; give at least 3, or leave the key out"]),
        (
            {"outline": [ELL[0], ELL[2], ELL[1], ELL[5]]},
            [
                "roof.outline: sides cross or touch at (26' 8\", 15' 9 1/16\"); list the corners in order round the house, holes inside it"
            ],
        ),
        (
            {"holes": [[["50'", 0], ["50'", "5'"], ["55'", 0]]]},
            [
                'roof.outline: sides cross or touch at (50\' 0", 0"); list the corners in order round the house, holes inside it'
            ],
        ),
        (
            {"outline": [*ELL, [0, 3]]},
            [
                'roof.outline: side 7 is 3" long, and trim needs 6" or more; move or leave out one of its corners'
            ],
        ),
        (
            {"sides": {"9": {}}},
            ["roof.sides.9: there is no side 9; the sides are numbered 1 to 6, side 1 from the first corner"],
        ),
        (
            {"sides": {"3": {"edge": "gable"}}},
            [
                "roof.sides.3.edge: a gable stands between two outside corners, and this side has an inside corner; make it an eave"
            ],
        ),
        (
            {"sides": {"1": {"edge": "gable"}, "2": {"edge": "gable"}}},
            [
                "roof.sides.1.edge: a gable stands between two eaves, and side 2 beside it is a gable too; make one an eave",
                "roof.sides.2.edge: a gable stands between two eaves, and side 1 beside it is a gable too; make one an eave",
            ],
        ),
        (
            {"sides": {"2": {"edge": "gable", "pitch": "8/12"}}},
            ["roof.sides.2.pitch: a gable has the slopes of its neighbors; leave pitch out, or edge"],
        ),
        (
            {
                "outline": [[0, 0], ["20'", 0], ["40'", 0], ["40'", "20'"], [0, "20'"]],
                "sides": {"2": {"pitch": "8/12", "overhang": 6}},
            },
            [
                "roof.sides.2: goes on in the line of side 1, with another pitch; give both the same",
                "roof.sides.2: goes on in the line of side 1, with another overhang; give both the same",
            ],
        ),
        (
            {"outline": [[0, 0], ["wide", 0], [1, 2000]]},
            [
                "roof.outline no. 2 no. 1: wide is not a length; write 12' 6 3/8\", 6 3/8 in, 3810 mm, 3.2 m, 2 ft or a bare number (inches)"
            ],
        ),
    ],
    ids=[
        "clockwise",
        "hole counter-clockwise",
        "two corners",
        "crossed",
        "hole outside",
        "short side",
        "no such side",
        "gable at an inside corner",
        "two gables",
        "pitch of a gable",
        "one line",
        "no length",
    ],
)
def test_what_cannot_be_meant_is_refused(changes: dict[str, Any], lines: list[str]) -> None:
    assert problems(**changes) == [f"ell.toml: {line}" for line in lines]


@pytest.mark.parametrize(("side", "long"), [(1, 44), (2, 26), (3, 20), (5, 24), (6, 40)])
def test_a_porch_ends_within_its_own_side(side: int, long: int) -> None:
    porch = {"side": side, "from": "1'", "to": f"{long}'", "depth": "6'"}
    assert len(roof(porch=[porch]).porch) == 1
    assert problems(porch=[{**porch, "to": f"{long + 1}'"}]) == [
        f"ell.toml: roof.porch no. 1.to: it goes from 1' 0\" to {long + 1}' 0\"; "
        f'give at least 6" of width within the side, which is {long}\' 0" long'
    ]


def test_sides_of_a_courtyard_are_numbered_on() -> None:
    assert roof(holes=[COURT], sides={"10": {"pitch": "3/12"}}).pitch_of(10) < roof().pitch
