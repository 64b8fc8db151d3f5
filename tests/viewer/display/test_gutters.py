"""Gutters: one under every level eave, mitered round corners; downspouts before no opening; in the offer too."""

from decimal import Decimal

import numpy as np
import pytest
import trimesh
from zoo import NAMES, layout

from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.house import HouseSpec
from trimwright.model.scene.read import scene_from
from trimwright.model.takeoff.count import take_off
from trimwright.viewer.display.gutter_bodies import gutter_bodies
from trimwright.viewer.display.gutters import PIPE, downspouts_of, gutters_of
from trimwright.viewer.display.openings import openings_of
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.display.wall_frames import frames_of
from trimwright.viewer.offer.quantities import quantities_of

BOX, ROUND = HouseSpec(gutters="box"), HouseSpec(gutters="half-round")

HIP = """
title = "Hip"
[roof]
form = "hip"
length = "36'"
width = "24'"
pitch = "6/12"
overhang = { eave = "12 in" }
[house]
gutters = "box"
[colors]
gutters = "white"
"""


@pytest.mark.parametrize("name", NAMES)
def test_they_hang_under_every_level_eave_and_nowhere_else(name: str) -> None:
    roof = layout(name).roof
    eaves = {edge.name for edge in roof.edges if edge.kind == "eave" and edge.slope < 1e-3}
    assert {gutter.edge.name for gutter in gutters_of(roof, BOX)} == eaves
    assert gutters_of(roof, HouseSpec()) == downspouts_of(roof, HouseSpec()) == ()
    for gutter in gutters_of(roof, BOX):
        rim = gutter.edge.start + 5 * gutter.out - [0, 0, gutter.rim]
        face = roof.faces[gutter.edge.faces[0]]
        assert (rim - gutter.edge.start) @ face.normal < 0, "what slides off the roof passes over the rim"


@pytest.mark.parametrize("name", NAMES)
def test_a_downspout_runs_down_its_wall_before_no_door_and_no_window(name: str) -> None:
    roof = layout(name).roof
    frames = frames_of(roof)
    for spout in downspouts_of(roof, BOX):
        steep = np.diff(spout.path, axis=0)
        assert (steep[:, 2] < 0).all(), "water runs down all the way"
        for frame, openings in zip(frames, openings_of(roof, frames, BOX), strict=True):
            foot = spout.path[-2]
            off, x = (foot - frame.start) @ frame.out, (foot - frame.start) @ frame.along
            if abs(off) < 4 and abs(frame.out @ spout.along) < 0.01 and 0 < x < frame.length:
                assert off > PIPE / 2, "it stands before its wall, not in it"
                for one in openings:
                    assert not one.left - PIPE / 2 < x < one.right + PIPE / 2


def hip() -> Layout:
    return build(scene_from(HIP))


def test_round_a_hip_roof_they_are_one_closed_body_with_a_downspout_a_corner() -> None:
    roof = hip().roof
    assert len(downspouts_of(roof, BOX)) == 4
    for spec in (BOX, ROUND):
        [body] = gutter_bodies(roof, spec)
        mesh = trimesh.Trimesh(body.vertices, body.faces, process=False)
        assert mesh.is_watertight and mesh.is_winding_consistent and mesh.volume > 0


def test_a_hip_roofs_gutters_are_as_long_as_its_eaves_and_stand_in_the_offer() -> None:
    here = hip()
    told = {one.items[-1]: one.measures for one in quantities_of(here, take_off(here))}
    round_it = 2 * (38 + 26)  # the walls and a foot of overhang on every side
    assert float(told["gutter"]["ft"]) == pytest.approx(round_it)
    assert told["downspouts"]["each"] == Decimal(4)
    plain = build(scene_from(HIP.replace('gutters = "box"', "")))
    assert not {"gutter", "downspouts"} & {one.items[-1] for one in quantities_of(plain, take_off(plain))}


def test_they_are_seen_where_the_finished_house_is_and_not_where_pieces_are_told_apart() -> None:
    stage = stage_of(hip())
    assert "gutter" in stage.view("street").shows and "gutter" not in stage.view("bare").shows
    assert any(body.kind == "gutter" for body in stage.bodies)
