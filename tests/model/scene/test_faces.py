"""Faces read off a building: roofs as seen from above, walls, both in inches from the lowest corner."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from trimwright.model.cityjson import ROOF, WALL, City
from trimwright.model.errors import SceneError
from trimwright.model.measures import parse_length
from trimwright.model.message import Message
from trimwright.model.scene.faces import MOST_FACES, faces_of_building
from trimwright.model.scene.read import scene_of

Ring = list[list[float]]
SLOPE: Ring = [[10, 20, 3], [12.54, 20, 3], [12.54, 22.54, 5.54], [10, 22.54, 5.54]]
"""A roof of 100 in by 100 in plan, at 45 degrees, meters; its lowest corner is at 10, 20, 3."""
HOLE: Ring = [[11, 21, 4], [11, 21.5, 4.5], [11.5, 21.5, 4.5]]
SIDE: Ring = [[10, 20, 3], [10, 22.54, 5.54], [10, 22.54, 3]]


def town(*surfaces: tuple[str, list[Ring]]) -> City:
    """Return a file of one building that has these surfaces, each its kind and its rings."""
    points = [point for _, rings in surfaces for ring in rings for point in ring]
    boundaries = [[[points.index(point) for point in ring] for ring in rings] for _, rings in surfaces]
    geometry = {
        "type": "MultiSurface",
        "lod": "2",
        "boundaries": boundaries,
        "semantics": {
            "surfaces": [{"type": kind} for kind, _ in surfaces],
            "values": list(range(len(surfaces))),
        },
    }
    house = {"type": "Building", "geometry": [geometry]}
    return City({"house": house}, {"house": np.array(points)})


def read(*surfaces: tuple[str, list[Ring]]) -> dict[str, Any]:
    """Return the faces, holes and walls of such a building, in inches."""
    found = faces_of_building(town(*surfaces), "house")
    assert not isinstance(found, Message)

    def inches(rings: list[list[list[str]]]) -> list[Any]:
        return [
            pytest.approx(np.array([[parse_length(x) for x in point] for point in ring])) for ring in rings
        ]

    holes = {number: inches(rings) for number, rings in found["holes"].items()}
    return {"faces": inches(found["faces"]), "holes": holes, "walls": inches(found["walls"])}


def by_hand(ring: Ring) -> Any:
    return (np.array(ring) - [10, 20, 3]) / 0.0254


def test_a_roof_comes_in_inches_from_the_lowest_corner_and_keeps_its_hole() -> None:
    found = read(
        (WALL, [SIDE]), (ROOF, [SIDE]), (ROOF, [SLOPE]), (ROOF, [SLOPE, HOLE]), ("GroundSurface", [SLOPE])
    )
    assert [by_hand(SLOPE)] * 2 == found["faces"]
    assert found["holes"].keys() == {2} and [by_hand(HOLE)] == found["holes"][2]
    assert [by_hand(SIDE)] * 2 == found["walls"]


def test_a_roof_that_the_file_has_upside_down_is_turned_with_its_hole() -> None:
    found = read((ROOF, [SLOPE[::-1], HOLE[::-1]]))
    assert [by_hand(SLOPE)] == found["faces"] and [by_hand(HOLE)] == found["holes"][1]


@pytest.mark.parametrize(("lean", "faces"), [(4.0, 0), (6.0, 1)])
def test_what_leans_less_than_5_degrees_from_plumb_is_a_wall(lean: float, faces: int) -> None:
    out = 2.54 * np.tan(np.radians(lean))
    steep: Ring = [[10, 20, 3], [12.54, 20, 3], [12.54, 20 + out, 5.54], [10, 20 + out, 5.54]]
    found = read((ROOF, [SLOPE]), (ROOF, [steep]))
    assert (len(found["faces"]), len(found["walls"])) == (1 + faces, 1 - faces)


@pytest.mark.parametrize(("count", "refused"), [(MOST_FACES, False), (MOST_FACES + 1, True)])
def test_a_building_has_at_most_so_many_faces(count: int, refused: bool) -> None:
    found = faces_of_building(town(*[(ROOF, [SLOPE])] * count), "house")
    assert isinstance(found, Message) == refused


def test_a_building_that_has_only_walls_or_is_not_there_is_refused() -> None:
    for city, name in (
        (town((WALL, [SIDE])), "house"),
        (town((ROOF, [SLOPE])), "barn"),
        (town((ROOF, [SLOPE])), 3),
    ):
        assert isinstance(faces_of_building(city, name), Message)


def test_a_file_is_named_by_its_whole_path_where_the_scene_is_in_none(tmp_path: Path) -> None:
    house = town((ROOF, [SLOPE]))
    path = tmp_path / "town.json"
    text = {"type": "CityJSON", "CityObjects": house.objects, "vertices": house.vertices["house"].tolist()}
    path.write_text(json.dumps(text), encoding="utf-8")
    roof = {"form": "faces", "file": str(path), "building": "house"}
    assert len(scene_of({"title": "Town", "roof": roof}).roof.faces) == 1
    with pytest.raises(SceneError, match=r"'town\.json' is relative, and the scene is in no file"):
        scene_of({"title": "Town", "roof": {**roof, "file": "town.json"}})
