"""The outside of the house: openings stay in their walls, siding ends where they begin, and a scene has its say."""

import numpy as np
import pytest
import shapely
from zoo import NAMES, layout

from trimwright.model.errors import SceneError
from trimwright.model.pipeline import build
from trimwright.model.roof.record import Roof
from trimwright.model.scene.house import HouseSpec, OpeningSpec
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.openings import HEAD_BOARD, Opening, openings_of
from trimwright.viewer.display.outside import outside_bodies
from trimwright.viewer.display.wall_frames import frames_of, side_of

DEEP = """title = "Hut"
[roof]
form = "gable"
length = "30'"
width = "20'"
pitch = "{pitch}/12"
wall_height = "10'"
[roof.overhang]
eave = "{overhang} in"
"""


LEG = """title = "House"
[roof]
form = "outline"
outline = [["0", "-8'"], ["16'", "-8'"], ["16'", "0"], ["40'", "0"], ["40'", "24'"], ["0", "24'"]]
pitch = "6/12"
wall_height = "9'"
"""


def opened(roof: Roof, spec: HouseSpec) -> dict[str, list[Opening]]:
    """The openings of each side of a house."""
    frames = frames_of(roof)
    found: dict[str, list[Opening]] = {side: [] for side in ("front", "right", "back", "left")}
    for frame, some in zip(frames, openings_of(roof, frames, spec), strict=True):
        found[side_of(frame)] += some
    return found


@pytest.mark.parametrize("name", NAMES)
def test_openings_lie_within_their_walls_and_apart(name: str) -> None:
    found = 0
    roof = layout(name).roof
    frames = frames_of(roof)
    for frame, openings in zip(frames, openings_of(roof, frames, HouseSpec()), strict=True):
        wall = shapely.Polygon(frame.outline)
        boxes = [shapely.box(one.left, one.low, one.right, one.high) for one in openings]
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
    found = opened(roof, spec)
    assert [one.door for one in found["front"]] == [False] * len(found["front"])
    [door] = [one for one in found["right"] if one.door]
    assert (door.left, door.low, door.high) == (42.0, 8.0, 88.0)


def test_a_window_of_its_own_takes_those_of_its_wall_alone() -> None:
    roof = layout("harbor-office").roof
    usual, found = (
        opened(roof, HouseSpec()),
        opened(roof, HouseSpec(opening=(OpeningSpec(wall="front", at=60.0),))),
    )
    assert [(one.left, one.right) for one in found["front"] if not one.door] == [(42.0, 78.0)]
    assert [one for one in found["front"] if one.door] == [one for one in usual["front"] if one.door] != []
    assert all(found[side] == usual[side] != [] for side in ("left", "right", "back"))


def test_a_side_of_several_walls_is_measured_from_its_left_end() -> None:
    """By hand: the wing's front is 16 ft wide; 20 ft along the front is 4 ft into the wall behind it."""
    roof = build(scene_from(LEG)).roof
    spec = HouseSpec(
        opening=(OpeningSpec(wall="front", at=60.0), OpeningSpec(kind="door", wall="front", at=240.0))
    )
    frames = frames_of(roof)
    walls = zip(frames, openings_of(roof, frames, spec), strict=True)
    found = {frame.length: some for frame, some in walls if side_of(frame) == "front"}
    assert [(one.door, one.left, one.right) for one in found[192.0]] == [(False, 42.0, 78.0)]
    assert [(one.left, one.right) for one in found[288.0] if one.door] == [(30.0, 66.0)]


def test_a_door_under_the_trim_is_there_and_no_window_before_it() -> None:
    roof = layout("boat-shed").roof
    found = opened(roof, HouseSpec(opening=(OpeningSpec(kind="door", wall="front", at=58.0),)))["front"]
    assert [(one.left, one.right) for one in found if one.door] == [(40.0, 76.0)]
    boxes = [shapely.box(one.left, one.low, one.right, one.high) for one in found]
    assert shapely.union_all(boxes).area == pytest.approx(sum(box.area for box in boxes))


@pytest.mark.parametrize("pitch", [4, 8, 12, 16])
@pytest.mark.parametrize("overhang", [0, 12, 30])
def test_windows_keep_their_heads_under_the_eaves(pitch: int, overhang: int) -> None:
    """At the wall the deck's edge lies as much lower as the overhang falls, and a board of 5 1/2 hangs under it."""
    roof = build(scene_from(DEEP.format(pitch=pitch, overhang=overhang))).roof
    frames = frames_of(roof)
    deck = roof.deck / np.cos(np.arctan(pitch / 12))
    edge = min(edge.start[2] for edge in roof.edges) - min(wall[:, 2].min() for wall in roof.walls)
    placed = HouseSpec(opening=(OpeningSpec(wall="back", at=60.0, height=36.0),))
    found = [
        one
        for spec in (HouseSpec(), placed)
        for frame, some in zip(frames, openings_of(roof, frames, spec), strict=True)
        for one in some
        if side_of(frame) in ("front", "back") and not one.door
    ]
    assert len(found) > 4
    assert all(one.high + HEAD_BOARD <= edge - deck - 5.5 + 1e-6 for one in found)
    assert all(one.high - one.low >= 24.0 for one in found)


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
