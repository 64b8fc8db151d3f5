"""Closures on valleys' pans, from the edge of the panels to the rib: their length, height and place."""

import math
from dataclasses import replace

import pytest
from ordinary_outlines import ordinary_outline
from slots import unsealed
from solids import depths, manifold
from zoo import layout

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.panels.closures import Closure
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

WITH_VALLEYS = {
    "chandlery": 2,
    "fish-market": 8,
    "pilot-station": 4,
    "rope-store": 2,
    "salt-house": 4,
    "signal-house": 2,
}
"""Scenes of the zoo by how many wings of caps go on over a valley's pan."""


def on_pans(here: Layout) -> list[Closure]:
    return [closure for closure in here.closures if closure.pan is not None]


def test_length_and_height_by_hand() -> None:
    """Under a level ridge at 8/12, over valleys that run at 45 degrees in plan."""
    here = layout("salt-house")
    # Up the slope it is sqrt(1 + (8/12)^2) for each inch across, so the valley leaves the ridge at an angle of
    # atan(1.2019) on the slope. Panels end 4 in off its middle: that is 4 / sin of it along the ridge.
    angle = math.atan(math.hypot(1.0, 8 / 12))
    # The foot of the rib, its bend and the room before it take some 0.55 in, level and square to the valley.
    rib = 0.55 / math.sin(math.radians(45))
    for closure in on_pans(here):
        length = math.dist(*closure.line)
        assert length == pytest.approx(4 / math.sin(angle) - rib, abs=1 / 8)
        # The pan lies on the deck and is as thick as a panel: higher by as much as the panels' pans are off the deck.
        other = next(one for one in here.closures if one.at == closure.at and one.pan is None)
        assert closure.height - other.height == pytest.approx(0.2151, abs=1 / 64)


@pytest.mark.parametrize("name", WITH_VALLEYS)
def test_one_stands_under_each_wing_that_goes_on_over_a_pan(name: str) -> None:
    here = layout(name)
    assert len(on_pans(here)) == WITH_VALLEYS[name]
    assert depths(here) == [] and unsealed(here) == []


@pytest.mark.parametrize("name", WITH_VALLEYS)
def test_left_out_each_is_open_and_told(name: str) -> None:
    here = layout(name)
    fault = replace(here, closures=tuple(one for one in here.closures if one.pan is None))
    assert len(unsealed(fault)) == WITH_VALLEYS[name]
    told = [found for found in check(fault) if found.rule == "closure-gap"]
    assert len(told) == WITH_VALLEYS[name] and all(found.measured > 3 for found in told)


@pytest.mark.parametrize("kind", sorted(closure_catalogue()))
@pytest.mark.parametrize("profile", ["W valley", "open valley"])
def test_every_kind_closes_on_a_pan_with_a_rib_or_without(kind: str, profile: str) -> None:
    scene = ordinary_outline(0)
    scene["trim"] = {
        "ridge": {"closure": kind},
        "hip": {"closure": kind},
        "valley": {"profile": profile},
    }
    here = build(scene_of(scene))
    assert [closure.kind for closure in on_pans(here)] == [kind, kind]
    assert all(len(manifold(closure.solid).decompose()) == 1 for closure in on_pans(here))
    assert depths(here) == [] and unsealed(here) == []


def test_it_is_set_after_its_pan_and_the_panel_beside_it_and_before_its_cap() -> None:
    here = layout("chandlery")
    order = {setting.name: place for place, setting in enumerate(here.order)}
    for closure in on_pans(here):
        assert closure.pan is not None
        assert max(order[closure.pan], order[closure.panel]) < order[closure.name]
        caps = [setting.name for setting in here.order if closure.name in setting.over]
        assert caps and all(order[closure.name] < order[cap] for cap in caps)


def test_what_stands_between_panels_and_pan_is_sealed_up_one_side() -> None:
    here = layout("salt-house")
    edges = [one for one in here.sealed if one.place == "edge of the panels"]
    assert len(edges) == WITH_VALLEYS["salt-house"]
    height = on_pans(here)[0].height - here.scene.metal.thickness  # from middle to middle of its metal
    assert all(one.bead == pytest.approx(height) for one in edges)


def test_no_screw_goes_through_foam_and_a_pan() -> None:
    scene = ordinary_outline(0)
    scene["trim"] = {"ridge": {"closure": "foam"}, "hip": {"closure": "foam"}}
    here = build(scene_of(scene))
    caps = {part.mark for part in here.parts if part.run.trim in ("ridge", "hip")}
    for closure in on_pans(here):
        low, high = closure.solid.vertices.min(axis=0), closure.solid.vertices.max(axis=0)
        over = [
            s
            for s in here.screws
            if s.mark in caps and (low[:2] < s.point[:2]).all() and (s.point[:2] < high[:2]).all()
        ]
        assert over == []
