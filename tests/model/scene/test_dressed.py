import pytest
from pydantic import ValidationError

from trimwright.model.errors import SceneError
from trimwright.model.metals import METALS
from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.look import LookSpec
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene

SCENE = """
title = "Ferry hut"
unit = "mm"
[roof]
form = "shed"
length = "6 m"
width = "4 m"
pitch = "4/12"
[metal]
kind = "galvanized"
thickness = "24 ga"
stock = [3000]
[colors]
walls = "#aa9988"
[[look]]
name = "Copper"
metal = { kind = "copper" }
[[look]]
name = "Wide and red"
metal = { color = "#882222" }
panels = { cover = 500 }
"""


@pytest.fixture
def scene() -> Scene:
    return scene_from(SCENE)


def test_another_metal_comes_as_it_usually_does(scene: Scene) -> None:
    copper = dressed(scene, scene.look[0])
    assert copper.metal.thickness == METALS["copper"].thickness
    assert copper.metal.stock == scene.metal.stock
    assert copper.colors.panels == copper.metal.color == METALS["copper"].color
    assert copper.colors.walls == "#aa9988"
    assert copper.screws.kind in METALS["copper"].fasteners


def test_what_a_look_says_is_in_the_units_of_the_scene(scene: Scene) -> None:
    red = dressed(scene, scene.look[1])
    assert red.panels.cover == pytest.approx(500 / 25.4)
    assert red.metal.thickness == scene.metal.thickness
    assert red.colors.trim == "#882222"


def test_a_look_without_changes_changes_nothing(scene: Scene) -> None:
    same = dressed(scene, LookSpec(name="As it is"))
    assert same == scene.model_copy(update={"look": ()})


def test_a_look_with_a_key_that_its_table_does_not_know_is_refused(scene: Scene) -> None:
    with pytest.raises(ValidationError, match="gauge"):
        dressed(scene, LookSpec(name="Wrong", metal={"gauge": 24}))


def test_a_wrong_look_is_refused_where_it_stands_when_the_scene_is_read() -> None:
    with pytest.raises(SceneError) as refusal:
        scene_from(
            SCENE.replace('kind = "copper"', 'kind = "copper", thickness = "24 ga"').replace("500", '"wide"')
        )
    first, second = str(refusal.value).splitlines()
    assert "look no. 1.metal.thickness" in first and "24 ga" in first
    assert "look no. 2.panels.cover" in second
