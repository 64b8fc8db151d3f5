"""The roof on a photograph: where it is drawn, and what stays as it was taken."""

from pathlib import Path

import numpy as np
import pytest
import shapely
from photographs import Shot, from_the_front_left
from PIL import Image
from zoo import layout

from trimwright.model.errors import SceneError
from trimwright.model.scene.photo import PhotoSpec
from trimwright.viewer.photo.corners import tapped
from trimwright.viewer.photo.drawn import before_and_after
from trimwright.viewer.photo.placed import place

NAME = "sail-loft"


@pytest.fixture
def one(tmp_path: Path) -> Shot:
    """Return a photograph of plain gray, written as ``house.png``."""
    Image.new("RGB", (1600, 1200), (128, 128, 128)).save(tmp_path / "house.png")
    return from_the_front_left(NAME, noise=0.5)


def spec_of(one: Shot, **more: object) -> PhotoSpec:
    edges = layout(NAME).roof.edges
    points = [
        {"corner": [edge.name for edge in edges if number in edge.vertices], "at": at.tolist()}
        for number, at in enumerate(one.taps)
    ]
    return PhotoSpec.model_validate({"file": "house.png", "point": points, **more})


def test_the_roof_fills_its_own_outline_and_nothing_else_is_touched(one: Shot, tmp_path: Path) -> None:
    before, after = before_and_after(place(layout(NAME), spec_of(one), tmp_path), layout(NAME), tmp_path)
    changed = (before != after).any(axis=2)
    faces = [shapely.Polygon(one.camera.project(face.outline)) for face in layout(NAME).roof.faces]
    outline = shapely.union_all(faces)
    y, x = np.nonzero(changed)
    inside = shapely.contains_xy(outline.buffer(40), x, y)
    assert inside.all()
    assert changed.sum() > 0.5 * outline.area


def test_what_stands_in_front_stays(one: Shot, tmp_path: Path) -> None:
    mask = Image.new("L", (1600, 1200), 0)
    mask.paste(255, (0, 0, 800, 1200))
    mask.save(tmp_path / "front.png")
    spec = spec_of(one, front="front.png")
    before, after = before_and_after(place(layout(NAME), spec, tmp_path), layout(NAME), tmp_path)
    assert (before[:, :790] == after[:, :790]).all()
    assert (before[:, 810:] != after[:, 810:]).any()


def test_the_sun_is_where_it_is_said_to_be(one: Shot, tmp_path: Path) -> None:
    pictures = [
        before_and_after(place(layout(NAME), spec_of(one, sun=sun), tmp_path), layout(NAME), tmp_path)[1]
        for sun in ((0, 20), (180, 20))
    ]
    assert (pictures[0] != pictures[1]).any()


def test_corners_that_are_none_are_all_refused() -> None:
    points = [
        {"corner": ["ridge"], "at": [1, 2]},
        {"corner": ["rigde", "front eave"], "at": [1, 2]},
        {"corner": ["front eave", "back eave"], "at": [1, 2]},
    ]
    with pytest.raises(SceneError) as refusal:
        tapped(layout(NAME).roof, PhotoSpec.model_validate({"file": "house.png", "point": points}))
    first, second, third = str(refusal.value).splitlines()
    assert first.startswith("photo.point no. 1.corner") and "2 corners" in first
    assert "rigde" in second and "do not meet" in third


def test_a_camera_that_there_is_not_is_refused(one: Shot, tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="choose"):
        place(layout(NAME), spec_of(one, choose=9), tmp_path)
