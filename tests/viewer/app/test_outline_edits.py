"""Changes of an outline: what the scene says of sides goes with them, and what cannot be is refused."""

import math
import tomllib
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workspaces import Told, acts, change
from zoo import SCENES

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.scene.read import scene_from
from trimwright.viewer.app.beginnings import PLAIN
from trimwright.viewer.app.outline_edits import with_outline_edit
from trimwright.viewer.app.scene_text import EditError
from trimwright.viewer.app.setting_aside import SetAside
from trimwright.viewer.app.workspace import Workspace

HOUSE = """
title = "A house on the quay"
[roof]
form = "outline"
outline = [["0", "0"], ["48'", "0"], ["48'", "36'"], ["0", "36'"]]   # outside of the walls
pitch = "6/12"
sides = { 2 = { edge = "gable" }, 3 = { pitch = "8/12" }, 4 = { edge = "gable" } }

[run."eave 3"]
lap = "5 in"

[run."left rake 2"]
lap = "6 in"

[roof.taped]
"eave 3" = "50' 1\\""
"side 3 diagonal 1" = "52'"
"""


def outline_of(text: str) -> OutlineSpec:
    spec = scene_from(text, "").roof
    assert isinstance(spec, OutlineSpec)
    return spec


def edited(text: str, what: str, **more: Any) -> str:
    return with_outline_edit(text, {"what": what, **more})


def test_a_corner_on_a_side_moves_what_is_said_of_the_sides_after_it() -> None:
    tables = tomllib.loads(edited(HOUSE, "add", side=2))
    assert tables["roof"]["outline"][2] == ["48'", "18'"]
    assert tables["roof"]["sides"] == {
        "2": {"edge": "gable"},
        "3": {"edge": "gable"},
        "4": {"pitch": "8/12"},
        "5": {"edge": "gable"},
    }
    assert set(tables["run"]) == {"eave 4", "left rake 2"}
    assert set(tables["roof"]["taped"]) == {"eave 4", "side 4 diagonal 1"}


def test_a_corner_that_goes_takes_what_was_said_of_its_side_with_it() -> None:
    tables = tomllib.loads(edited(edited(HOUSE, "add", side=2), "remove", ring=0, corner=2))
    assert tables["roof"]["outline"] == tomllib.loads(HOUSE)["roof"]["outline"]
    assert tables["roof"]["sides"] == tomllib.loads(HOUSE)["roof"]["sides"]
    gone = tomllib.loads(edited(HOUSE, "remove", ring=0, corner=1))
    assert set(gone["run"]) == {"eave 2"} and gone["roof"]["sides"] == {
        "2": {"pitch": "8/12"},
        "3": {"edge": "gable"},
    }


def test_a_wing_drawn_to_the_end_of_its_wall_is_the_leg_of_an_l() -> None:
    winged = edited(HOUSE, "wing", side=1)
    drawn = edited(winged, "move", corners=[[0, 1, 0.0, 0.0], [0, 2, 0.0, -96.0]])
    spec = outline_of(drawn)
    assert spec.outline == ((0, -96), (384, -96), (384, 0), (576, 0), (576, 432), (0, 432))
    assert [number for number in range(1, 7) if spec.is_gable(number)] == [1, 4]
    assert set(tomllib.loads(drawn)["run"]) == {"eave 5", "left rake 4"}
    assert outline_of(edited(winged, "length", side=1, value="0")).outline[0] == (0, -96)


def test_corners_that_lie_on_each_other_are_one() -> None:
    five = edited(HOUSE, "add", side=2, at=[600.0, 200.0])
    assert outline_of(edited(five, "move", corners=[[0, 2, 576.0, 0.0]])).outline == outline_of(HOUSE).outline


def test_comments_stay_where_a_corner_is_dragged() -> None:
    text = edited(HOUSE, "move", corners=[[0, 2, 600.0, 432.0]])
    assert "# outside of the walls" in text and outline_of(text).outline[2] == (600, 432)
    assert '"36\'"' in text, "what did not move is written as it was"


def test_a_wing_has_a_gable_and_stands_out_of_the_side() -> None:
    spec = outline_of(edited(HOUSE, "wing", side=1))
    assert spec.outline[1:5] == ((192, 0), (192, -96), (384, -96), (384, 0))
    assert [number for number in range(1, 9) if spec.is_gable(number)] == [3, 6, 8]
    assert len(build_roof(spec).faces) == 4


@pytest.mark.parametrize(
    ("side", "moved"), [(1, {1: (540, 0), 2: (540, 432)}), (2, {2: (576, 540), 3: (0, 540)})]
)
def test_a_side_of_another_length_takes_what_is_square_to_its_end_along(
    side: int, moved: dict[int, tuple[float, float]]
) -> None:
    corners = outline_of(edited(HOUSE, "length", side=side, value="45'")).outline
    before = outline_of(HOUSE).outline
    assert corners == tuple(moved.get(k, corner) for k, corner in enumerate(before))


def test_a_courtyard_and_a_porch_come_and_go() -> None:
    yard = edited(HOUSE, "court")
    (hole,) = outline_of(yard).holes
    assert np.ptp(hole, axis=0) == pytest.approx([144, 144]) and len(build_roof(outline_of(yard)).faces) > 4
    porch = edited(yard, "porch", side=1)
    assert outline_of(porch).porch[0].side == 1 and build_roof(outline_of(porch)).faces
    assert outline_of(edited(porch, "uncourt", ring=1)).holes == ()
    assert outline_of(edited(porch, "unporch", porch=0)).porch == ()
    assert outline_of(edited(edited(porch, "add", side=4), "remove", ring=0, corner=4)) == outline_of(porch)


def test_a_porch_of_a_side_that_goes_is_gone() -> None:
    gone = edited(edited(HOUSE, "porch", side=1), "remove", ring=0, corner=0)
    assert "porch" not in tomllib.loads(gone)["roof"]


@pytest.mark.parametrize(
    "asked",
    [
        {"what": "nonsense"},
        {"what": "remove", "ring": 0, "corner": 9},
        {"what": "remove", "ring": 3, "corner": 0},
        {"what": "add", "side": 77},
        {"what": "add", "side": True},
        {"what": "add", "side": 1, "at": ["x", 3]},
        {"what": "add", "side": 1, "at": [math.nan, 3]},
        {"what": "move", "corners": [[0, 0, math.inf, 0]]},
        {"what": "move", "corners": "all"},
        {"what": "move", "corners": [[0, "0", 1, 2]]},
        {"what": "length", "side": 1, "value": "far"},
        {"what": "length", "side": 1, "value": "-3'"},
        {"what": "uncourt", "ring": 0},
        {"what": "unporch", "porch": 0},
    ],
)
def test_what_cannot_be_done_is_refused_and_nothing_changes(asked: dict[str, Any]) -> None:
    with pytest.raises(EditError):
        with_outline_edit(HOUSE, asked)


def test_a_triangle_keeps_its_corners() -> None:
    triangle = edited(HOUSE, "remove", ring=0, corner=3)
    with pytest.raises(EditError, match="three corners"):
        edited(triangle, "remove", ring=0, corner=0)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(0, 40), min_size=1, max_size=5))
def test_whatever_is_put_in_can_be_taken_out_again(sides: list[int]) -> None:
    """Corners put in, and taken out in the other order, leave the outline and what is said of its sides."""
    text = before = next(path for path in SCENES if path.stem == "rope-store").read_text(encoding="utf-8")
    put = [1 + side % (6 + k) for k, side in enumerate(sides)]
    for side in put:
        text = edited(text, "add", side=side)
    for side in reversed(put):
        text = edited(text, "remove", ring=0, corner=side)
    assert outline_of(text) == outline_of(before)


@pytest.mark.parametrize("name", list(PLAIN))
def test_an_outline_begins_with_the_house_as_it_stands_and_the_form_before_comes_back(name: str) -> None:
    aside = SetAside()
    text, away = aside.chosen(PLAIN[name], ("roof", "form"), "outline")
    was, spec = scene_from(PLAIN[name]).roof, outline_of(text)
    assert away == () and (spec.length, spec.width) == (was.length, was.width), "all of it is in the outline"
    if name != "plain-shed":
        heights = [float(build_roof(one).vertices[:, 2].max()) for one in (was, spec)]
        assert heights[0] == pytest.approx(heights[1])
    back, _ = aside.chosen(text, ("roof", "form"), was.form)
    assert scene_from(back) == scene_from(PLAIN[name])
    again, _ = aside.chosen(edited(text, "wing", side=1), ("roof", "form"), was.form)
    assert len(outline_of(aside.chosen(again, ("roof", "form"), "outline")[0]).outline) == 8


@pytest.mark.parametrize("form", ["gable", "hip", "shed", "cross gable"])
def test_another_form_of_an_outline_has_its_sizes(form: str) -> None:
    text = next(path for path in SCENES if path.stem == "rope-store").read_text(encoding="utf-8")
    new, _ = SetAside().chosen(text, ("roof", "form"), form)
    spec = scene_from(new).roof
    assert (spec.form, spec.length, spec.width) == (form, 44 * 12, 40 * 12)


def test_an_impossible_outline_is_told_at_the_place(workspace: Workspace, told: Told) -> None:
    workspace.replace(HOUSE)
    acts(workspace, {"do": "ready"}, {"do": "outline", "what": "move", "corners": [[0, 2, 240.0, -60.0]]})
    outline = told.state["outline"]
    assert not outline["current"] and "cross" in outline["problem"] and told.state["form"]["loose"] == []
    (place,) = [one for one in outline["wrong"] if "at" in one]
    assert place["at"] == pytest.approx([240 * 432 / 492, 0]), "where the third side comes over the first"
    acts(workspace, {"do": "undo"}, change(["roof", "sides", "1", "edge"], "gable"))
    outline = told.state["outline"]
    assert {"side": 1} in outline["wrong"] and outline["gables"] == [1, 2, 4]
    acts(workspace, {"do": "undo"})
    assert told.state["current"] and told.state["outline"]["wrong"] == []


def test_every_edge_of_the_deck_lies_over_its_side(workspace: Workspace, told: Told) -> None:
    workspace.replace(HOUSE)
    acts(workspace, {"do": "ready"})
    sides = {one["name"]: one["side"] for one in told.state["outline"]["edges"]}
    assert (
        sides["eave 1"] == 1 and sides["left rake 2"] == sides["right rake 2"] == 2 and sides["eave 3"] == 3
    )
    assert [side for name, side in sides.items() if name.startswith("ridge")] == [None]


def test_what_names_edges_is_set_aside_with_the_form(workspace: Workspace, told: Told) -> None:
    workspace.replace(HOUSE)
    acts(workspace, {"do": "ready"}, change(["roof", "form"], "gable"))
    assert told.state["current"] and "taped" in told.of("said")[0] and "single runs" in told.of("said")[0]
    acts(workspace, change(["roof", "far_wall_height"], "9'"))
    acts(workspace, change(["roof", "form"], "outline"))
    assert outline_of(workspace.text) == outline_of(HOUSE) and "eave 3" in workspace.text
    assert "Height of the back wall" in told.of("said")[-1], (
        "by what its field is called, which is not in this form"
    )


@pytest.mark.parametrize("name", ["plain-gable", "plain-hip"])
def test_a_house_of_another_form_gets_a_porch_in_one_step(
    workspace: Workspace, told: Told, name: str
) -> None:
    workspace.replace(PLAIN[name])
    acts(workspace, {"do": "ready"}, {"do": "outline", "what": "porch", "side": 1})
    assert told.state["form"]["porches"] and len(outline_of(workspace.text).porch) == 1
    acts(workspace, {"do": "undo"})
    assert workspace.text == PLAIN[name] and told.state["form"]["porches"]


@pytest.mark.parametrize(("wall", "depth"), [("8'", 24.0), ("9'", 42.0), ("12'", 72.0)])
def test_one_walks_upright_under_the_eave_of_a_new_porch(wall: str, depth: float) -> None:
    """6 in 12 over an overhang of 12: the eave lies 6 under the wall's top, and half of what it stands out under that.

    To 80 over the ground there are 10, 22 and 58 under walls of 8, 9 and 12 ft: the porch stands out twice as far, to
    half a foot, and no less than 24 and no more than 72.
    """
    text = PLAIN["plain-hip"].replace("8'", wall)
    drawn, _ = SetAside().chosen(text, ("roof", "form"), "outline")
    assert outline_of(edited(drawn, "porch", side=1)).porch[0].depth == depth
