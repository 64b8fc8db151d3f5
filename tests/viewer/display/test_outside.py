"""The outside of the house: openings stay in their walls, siding ends where they begin, and a scene has its say."""

import numpy as np
import pytest
import shapely
from zoo import NAMES, layout

from trimwright.model.errors import SceneError
from trimwright.model.scene.house import HouseSpec, OpeningSpec
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.openings import frames_of, openings_in, side_of
from trimwright.viewer.display.outside import outside_bodies


@pytest.mark.parametrize("name", NAMES)
def test_openings_lie_within_their_walls_and_apart(name: str) -> None:
    found = 0
    for frame in frames_of(layout(name).roof):
        wall = shapely.Polygon(frame.outline)
        boxes = [
            shapely.box(one.left, one.low, one.right, one.high)
            for one in openings_in(frame, HouseSpec(), True)
        ]
        assert all(wall.contains(box) for box in boxes)
        assert shapely.union_all(boxes).area == pytest.approx(sum(box.area for box in boxes))
        found += len(boxes)
    assert found > 0


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("siding", ["lap", "boards"])
def test_siding_lies_on_the_walls_and_within_them(name: str, siding: str) -> None:
    roof = layout(name).roof
    [body] = [body for body in outside_bodies(roof, HouseSpec(siding=siding)) if body.kind == "siding"]  # type: ignore[arg-type]
    frames = frames_of(roof)
    away = np.min([np.abs((body.vertices - frame.start) @ frame.out) for frame in frames], axis=0)
    assert away.max() < 1.0
    points = np.concatenate([roof.vertices, *roof.walls])
    assert (body.vertices > points.min(axis=0) - 1).all() and (body.vertices < points.max(axis=0) + 1).all()


def test_a_scene_places_its_own() -> None:
    roof = layout("boat-shed").roof
    spec = HouseSpec(
        opening=(OpeningSpec(kind="door", wall="right", at=60.0), OpeningSpec(wall="right", at=5000.0))
    )
    found = {side_of(frame): list(openings_in(frame, spec, True)) for frame in frames_of(roof)}
    assert {side: len(some) for side, some in found.items()} == {"front": 0, "right": 1, "back": 0, "left": 0}
    [door] = found["right"]
    assert (door.door, door.left, door.low, door.high) == (True, 42.0, 8.0, 88.0)


def test_a_door_under_the_trim_is_there_and_no_window_before_it() -> None:
    roof = layout("boat-shed").roof
    [frame] = [frame for frame in frames_of(roof) if side_of(frame) == "front"]
    found = list(
        openings_in(frame, HouseSpec(opening=(OpeningSpec(kind="door", wall="front", at=58.0),)), True)
    )
    assert [(one.left, one.right) for one in found if one.door] == [(40.0, 76.0)]
    boxes = [shapely.box(one.left, one.low, one.right, one.high) for one in found]
    assert shapely.union_all(boxes).area == pytest.approx(sum(box.area for box in boxes))


def test_a_house_may_be_plain() -> None:
    spec = HouseSpec(siding="plain", openings="none", foundation=0.0)
    assert list(outside_bodies(layout("boat-shed").roof, spec)) == []


def test_a_door_with_a_sill_is_refused() -> None:
    text = """title = "Hut"
[roof]
form = "shed"
length = "12'"
width = "9'"
pitch = "3/12"
[[house.opening]]
kind = "door"
wall = "front"
at = "4'"
sill = "2'"
"""
    with pytest.raises(SceneError, match="a door stands on the foundation"):
        scene_from(text)
