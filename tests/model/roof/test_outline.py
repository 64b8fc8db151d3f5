"""Roofs over outlines: their names, overhangs, eaves and walls, by hand; and what is refused."""

import math
from typing import Any

import pytest
from outlines import outline

from trimwright.model.errors import GeometryError
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.outline import OutlineSpec

ELL = [[0, 0], [528, 0], [528, 312], [288, 312], [288, 480], [0, 480]]
GABLES = {2: {"edge": "gable"}, 5: {"edge": "gable"}}
SIZES: dict[str, Any] = {
    "form": "outline",
    "outline": ELL,
    "pitch": "6/12",
    "sides": GABLES,
    "wall_height": 108,
    "overhang": {"eave": 12, "rake": 8},
}


def ell(**changes: Any) -> Roof:
    return build_roof(OutlineSpec(**{**SIZES, **changes}))


def kinds(roof: Roof) -> dict[str, str]:
    return {edge.name: edge.kind for edge in roof.edges}


def test_names_are_those_of_the_sides() -> None:
    roof = ell()
    assert [face.name for face in roof.faces] == ["side 1", "side 3", "side 4", "side 6"]
    assert kinds(roof) == {
        "eave 1": "eave",
        "eave 3": "eave",
        "eave 4": "eave",
        "eave 6": "eave",
        "left rake 2": "rake",
        "right rake 2": "rake",
        "left rake 5": "rake",
        "right rake 5": "rake",
        "hip 3-6": "hip",
        "hip 1-6": "hip",
        "ridge 1-3": "ridge",
        "ridge 4-6": "ridge",
        "valley 3-4": "valley",
    }


def test_names_stay_when_a_dimension_changes() -> None:
    longer = [[x * 1.1, y * 1.3] for x, y in ELL]
    assert kinds(ell(outline=longer, pitch="9/12")).keys() == kinds(ell()).keys()


def test_sizes_by_hand() -> None:
    # Eaves 12 in out and 6 in down; the main ridge over the middle of 312 + 24 in, the wing's of 288 + 24 in.
    roof = ell()
    edges = {edge.name: edge for edge in roof.edges}
    assert edges["eave 1"].start.tolist() == [-12, -12, 102]
    assert edges["eave 1"].end.tolist() == [536, -12, 102]
    assert edges["ridge 1-3"].start.tolist() == pytest.approx([156, 156, 102 + 168 / 2])
    assert edges["ridge 4-6"].end.tolist() == pytest.approx([144, 488, 102 + 156 / 2])
    # Both slopes of the valley are 6/12: 18 in of valley for 12 in of run, here the wing's half width.
    assert edges["valley 3-4"].length == pytest.approx(18 * 156 / 12)
    assert math.degrees(edges["valley 3-4"].dihedral) == pytest.approx(180 + 36.8699, abs=1e-4)


def test_walls_rise_to_the_underside_of_the_deck() -> None:
    # Square to 1/2 in of deck at 6/12: 0.559 in lower than the top of the deck, 102 + 6 in over the wall.
    walls = ell().walls
    drop = 0.5 * math.sqrt(1.25)
    assert len(walls) == 6
    assert walls[0].tolist() == [
        [0, 0, 0],
        [528, 0, 0],
        [528, 0, pytest.approx(108 - drop)],
        [0, 0, pytest.approx(108 - drop)],
    ]
    gable = walls[1]
    assert gable[:, 2].max() == pytest.approx(108 + 156 / 2 - drop)
    assert (gable[:, 0] == 528).all()


def test_eaves_are_at_the_height_of_the_first_one() -> None:
    # Side 1 is steeper and reaches farther: 108 in less 18 in at 8/12; the other walls reach up to that eave.
    roof = ell(sides={**GABLES, 1: {"pitch": "8/12", "overhang": 18}})
    eaves = [edge for edge in roof.edges if edge.kind == "eave"]
    assert {round(float(edge.start[2]), 9) for edge in eaves} == {108 - 18 * 8 / 12}
    assert roof.walls[2][:, 2].max() == pytest.approx(108 - 12 + 12 * 0.5 - 0.5 * math.sqrt(1.25))


def test_a_courtyard_has_sides_numbered_on() -> None:
    court = [[240, 240], [240, 480], [480, 480], [480, 240]]
    roof = ell(outline=[[0, 0], [720, 0], [720, 720], [0, 720]], sides={}, holes=[court])
    assert {face.name for face in roof.faces} == {f"side {number}" for number in range(1, 9)}
    assert (
        sorted(edge.kind for edge in roof.edges)
        == ["eave"] * 8 + ["hip"] * 4 + ["ridge"] * 4 + ["valley"] * 4
    )


def test_corners_at_which_a_side_does_not_turn_are_no_corners() -> None:
    straight = [[0, 0], [240, 0], [528, 0], [528, 312], [288, 312], [288, 480], [0, 480]]
    roof = ell(outline=straight, sides={3: {"edge": "gable"}, 6: {"edge": "gable"}})
    assert [face.name for face in roof.faces] == ["side 1", "side 4", "side 5", "side 7"]
    assert [edge.length for edge in roof.edges] == pytest.approx([edge.length for edge in ell().edges])


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"wall_height": 6}, "eaves come out .* below the ground.*side 1"),
        (
            {
                "outline": [
                    [0, 0],
                    [500, 0],
                    [500, 300],
                    [300, 300],
                    [300, 100],
                    [285, 100],
                    [285, 300],
                    [0, 300],
                ],
                "sides": {},
            },
            "nothing is left of the deck's edge at side 5",
        ),
        (
            {
                "outline": [
                    [0, 0],
                    [500, 0],
                    [480, 300],
                    [300, 300],
                    [320, 100],
                    [240, 100],
                    [285, 300],
                    [0, 300],
                ],
                "sides": {},
            },
            "overhangs of walls that face each other meet",
        ),
        (
            {
                "outline": [[0, 0], [288, 0], [288, -24], [528, -24], [528, 480], [0, 480]],
                "sides": {3: {"pitch": "4/12"}},
            },
            "side 1 and side 3 come into one line at .*, with unequal pitches",
        ),
    ],
    ids=["ground", "eaten up", "overhangs meet", "jog"],
)
def test_what_makes_no_roof_is_refused_with_its_place(changes: dict[str, Any], says: str) -> None:
    with pytest.raises(GeometryError, match=says):
        ell(**changes)


@pytest.mark.parametrize("seed", range(0, 60, 2))
def test_random_outlines_become_roofs(seed: int) -> None:
    rings = outline(seed)
    roof = ell(
        outline=rings[0].tolist(), holes=[ring.tolist() for ring in rings[1:]], sides={}, overhang={"eave": 4}
    )
    assert all(len(edge.faces) == 2 or edge.kind == "eave" for edge in roof.edges)
