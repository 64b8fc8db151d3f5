"""Another metal or form takes what suits it and gives the rest back; finishes that are tried can be kept."""

import tomllib
from typing import Any

import pytest
from workspaces import Told, acts, change

from trimwright.model.scene.read import scene_from
from trimwright.viewer.app.workspace import Workspace

HIP = """title = "Ferry office"
[roof]
form = "hip"
length = "30'"
width = "20'"
pitch = "6/12"
end_pitch = "9/12"
[metal]
kind = "steel"
thickness = "24 ga"
[colors]
panels = "#5d7076"
"""

COPPER = {"color": "#b5704a", "bare": True, "of": "copper"}
RED = {"color": "#8c3b2e", "bare": False, "of": None}
WALLS = "#e4ded2"


@pytest.fixture
def hip(workspace: Workspace) -> Workspace:
    workspace.begin(HIP, "office")
    return workspace


def tables(workspace: Workspace) -> dict[str, Any]:
    return tomllib.loads(workspace.text)


def test_another_metal_comes_in_its_usual_thickness_and_says_so(hip: Workspace, told: Told) -> None:
    acts(hip, change(["metal", "kind"], "copper"))
    assert hip.problems == ()
    assert tables(hip)["metal"] == {"kind": "copper"}
    [said] = told.of("said")
    assert "16 oz" in said and "Thickness" in said
    acts(hip, change(["metal", "kind"], "steel"))
    assert tables(hip)["metal"] == {"kind": "steel", "thickness": "24 ga"}
    assert tables(hip)["colors"] == {"panels": "#5d7076"}


def test_what_another_form_does_not_know_is_set_aside_and_comes_back(hip: Workspace, told: Told) -> None:
    acts(hip, change(["roof", "form"], "gable"))
    assert hip.problems == () and "end_pitch" not in tables(hip)["roof"]
    assert "Pitch of the ends" in told.of("said")[0]
    acts(hip, change(["roof", "form"], "hip"))
    assert tables(hip)["roof"]["end_pitch"] == "9/12"


def test_what_was_written_meanwhile_is_not_overwritten(hip: Workspace) -> None:
    acts(hip, change(["metal", "kind"], "copper"), change(["metal", "thickness"], "20 oz"))
    acts(hip, change(["metal", "kind"], "steel"), change(["metal", "kind"], "copper"))
    assert tables(hip)["metal"]["thickness"] == "20 oz"


def test_a_finish_is_used_and_can_be_taken_back(hip: Workspace, told: Told) -> None:
    acts(hip, {"do": "finish", "trim": COPPER, "panels": COPPER, "walls": WALLS})
    scene = scene_from(hip.text)
    assert (scene.metal.kind, scene.colors.panels, scene.colors.walls) == ("copper", "#b5704a", WALLS)
    assert told.state["undo"] and told.state["unsaved"]
    acts(hip, {"do": "undo"})
    assert hip.text == HIP


def test_a_shed_that_becomes_an_outline_says_that_its_slope_is_two(workspace: Workspace, told: Told) -> None:
    acts(workspace, {"do": "begin", "name": "plain-shed"})
    acts(workspace, change(["roof", "form"], "outline"))
    [said] = told.of("said")
    assert said.startswith("An outline has no single slope")


def test_paint_on_a_metal_that_is_bare_as_a_rule_is_said(hip: Workspace) -> None:
    acts(hip, change(["metal", "kind"], "zinc"))
    acts(hip, {"do": "finish", "trim": RED, "panels": RED, "walls": WALLS})
    assert scene_from(hip.text).colors.coat == "satin"


def test_two_metals_on_one_roof_are_refused(hip: Workspace, told: Told) -> None:
    acts(hip, {"do": "finish", "trim": COPPER, "panels": RED, "walls": WALLS})
    assert "one metal" in told.of("refused")[0]
    assert hip.text == HIP


@pytest.mark.parametrize(
    "wrong", [{}, {"trim": COPPER}, {"trim": {"color": "<b>"}, "panels": RED, "walls": WALLS}]
)
def test_what_is_no_finish_is_refused(hip: Workspace, told: Told, wrong: dict[str, Any]) -> None:
    acts(hip, {"do": "finish", **wrong})
    assert told.of("refused") and hip.text == HIP


def test_looks_are_saved_by_name_replaced_and_taken_away(hip: Workspace, told: Told) -> None:
    copper = {"trim": COPPER, "panels": COPPER, "walls": WALLS}
    acts(hip, {"do": "look", "name": " Old  copper ", **copper})
    acts(hip, {"do": "look", "name": "Red", "trim": RED, "panels": RED, "walls": WALLS})
    assert [look.name for look in scene_from(hip.text).look] == ["Old copper", "Red"]
    acts(hip, {"do": "look", "name": "Old copper", "trim": RED, "panels": RED, "walls": WALLS})
    assert scene_from(hip.text).look[0].colors["trim"] == "#8c3b2e"
    acts(hip, {"do": "unlook", "number": 0}, {"do": "unlook", "number": 7})
    assert [look.name for look in scene_from(hip.text).look] == ["Red"]
    assert "no such look" in told.of("refused")[0]
    acts(hip, {"do": "look", "name": "  ", **copper})
    assert "a name" in told.of("refused")[0]
