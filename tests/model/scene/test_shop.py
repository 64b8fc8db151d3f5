"""The shop's own color chart: its names hold wherever a scene wants a color."""

import pytest

from trimwright.model.errors import SceneError
from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.read import scene_from

SCENE = """title = "Hut"
[roof]
form = "shed"
length = "12'"
width = "9'"
pitch = "3/12"
[colors]
panels = "Harbor  red"
walls = "red"
[[shop.color]]
name = "Harbor red"
color = "#8C3B2E"
reflectance = 32
[[shop.color]]
name = "Red"
color = "#aa1122"
[[look]]
name = "Second"
colors = { panels = "harbor-red" }
"""


def test_names_of_the_chart_come_before_all_others() -> None:
    scene = scene_from(SCENE)
    assert (scene.colors.panels, scene.colors.walls) == ("#8c3b2e", "#aa1122")
    assert dressed(scene, scene.look[0]).colors.panels == "#8c3b2e"


@pytest.mark.parametrize(
    ("of", "to", "said"),
    [
        ("reflectance = 32", "reflectance = 132", "too large"),
        ('color = "#aa1122"', 'color = "reddish"', "not a color"),
        ('panels = "Harbor  red"', 'panels = "Harbour red"', "not a color"),
    ],
)
def test_what_the_chart_does_not_have_is_refused(of: str, to: str, said: str) -> None:
    with pytest.raises(SceneError, match=said):
        scene_from(SCENE.replace(of, to))
