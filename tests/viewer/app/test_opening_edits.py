"""Doors and windows put in by the form."""

import tomllib
from typing import Any

import pytest
from workspaces import Told, acts, change

from trimwright.model.scene.read import scene_from
from trimwright.viewer.app.beginnings import PLAIN
from trimwright.viewer.app.opening_edits import with_opening
from trimwright.viewer.app.scene_text import EditError
from trimwright.viewer.app.workspace import Workspace


def test_a_door_stands_in_the_middle_of_the_front_and_goes_again() -> None:
    plain = PLAIN["plain-gable"]
    text = with_opening(with_opening(plain, {"kind": "door"}), {"kind": "window"})
    door, window = scene_from(text).house.opening
    assert (door.kind, door.wall, door.at, door.height) == ("door", "front", 144, 80)
    assert (window.kind, window.at) == ("window", 72)
    gone = with_opening(with_opening(text, {"away": 0}), {"away": 0})
    assert scene_from(gone) == scene_from(plain)


@pytest.mark.parametrize("asked", [{}, {"kind": "gate"}, {"away": 0}, {"away": -1}, {"kind": ["door"]}])
def test_what_is_no_opening_is_refused(asked: dict[str, Any]) -> None:
    with pytest.raises(EditError):
        with_opening(PLAIN["plain-gable"], asked)


def test_a_window_that_becomes_a_door_can_be_rid_of_its_sill(workspace: Workspace, told: Told) -> None:
    at = ["house", "opening", 0]
    acts(workspace, {"do": "ready"}, {"do": "opening", "kind": "window"}, change([*at, "sill"], "30 in"))
    assert told.state["current"] and tomllib.loads(workspace.text)["house"]["opening"][0]["sill"] == "30 in"
    acts(workspace, change([*at, "kind"], "door"))
    assert not told.state["current"]
    acts(workspace, change([*at, "sill"], ""))
    assert told.state["current"]
