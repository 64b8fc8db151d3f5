"""The scenes that ship with the project can all be read."""

from pathlib import Path

import pytest
from trimwright.model.scene.read import read_scene

ZOO = sorted((Path(__file__).parents[3] / "scenes").glob("*.toml"))


def test_the_zoo_has_every_form() -> None:
    assert len(ZOO) >= 8
    assert {read_scene(path).roof.form for path in ZOO} == {"gable", "hip", "shed"}
    assert {read_scene(path).unit for path in ZOO} >= {"in", "mm"}


@pytest.mark.parametrize("path", ZOO, ids=lambda path: path.stem)
def test_a_scene_of_the_zoo_can_be_read(path: Path) -> None:
    assert read_scene(path).title
