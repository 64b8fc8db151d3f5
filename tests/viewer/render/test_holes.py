"""Perforated sheet: dark holes where they are seen one by one, and as dark as its share of holes from far off."""

import math

import numpy as np
import pytest
from zoo import layout

from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.perforated import SHOWS
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.page.payload import seen_of
from trimwright.viewer.render.hole_kernels import through
from trimwright.viewer.render.light import PATTERN

VENTED = """
title = "Vented"
[roof]
form = "gable"
length = "16'"
width = "12'"
pitch = "6/12"
[trim.ridge]
closure = "vented Z"
"""


def at(x: float, z: float, pixel: float) -> float:
    """A web that faces the front: along is x, and up is z."""
    return float(through((x, -5.0, z), (0.0, -1.0, 0.0), 0.125, 0.1875, pixel, PATTERN))


def test_a_hole_is_dark_and_the_sheet_between_holes_is_not() -> None:
    """By hand: rows stand 0.1875 x 0.866 = 0.1624 apart, every other one by half a distance to the side."""
    row = 0.1875 * math.sqrt(3) / 2
    assert at(0.0, 0.0, 0.001) == at(0.1875, 0.0, 0.001) == at(0.09375, row, 0.001) == pytest.approx(SHOWS)
    assert at(0.09375, 0.0, 0.001) == at(0.0, row, 0.001) == 1.0


def test_sheet_far_off_is_as_dark_as_its_share_of_holes() -> None:
    share = closure_catalogue()["vented Z"].open_share
    assert at(0.0, 0.0, 1.0) == at(0.09, 0.1, 1.0) == pytest.approx(1 - (1 - SHOWS) * share)
    places = np.random.default_rng(5).uniform(0, 60, (20_000, 2))
    mean = np.mean([at(x, z, 0.001) for x, z in places])
    assert mean == pytest.approx(at(0.0, 0.0, 1.0), abs=0.01)


def test_the_closures_that_let_air_through_have_holes_and_no_others() -> None:
    stage = stage_of(build(scene_from(VENTED)))
    assert {body.holes for body in stage.bodies if body.kind == "closure"} == {(0.125, 0.1875)}
    assert {body.holes for body in stage.bodies if body.kind != "closure"} == {None}
    assert seen_of(stage)["holes"] == pytest.approx([0.003175, 0.0047625])
    assert seen_of(stage_of(layout("boat-shed")))["holes"] == [0, 0]
