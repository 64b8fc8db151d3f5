"""The patterns of panels, closures and cleats as DXF: read back by ezdxf alone, and measured there."""

import io
import re

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf.document import Drawing as Document
from pytest import approx
from zoo import layout

from trimwright.model.panels.cleats import Cleat
from trimwright.model.panels.closures import Closure
from trimwright.model.panels.record import Panel
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.data.dxf import LAYERS, text_of
from trimwright.viewer.data.panel_dxf import PanelPattern, panel_document, panel_patterns

SCENES = ["boat-shed", "harbor-office", "bakehouse", "salt-house"]


def read_back(pattern: PanelPattern) -> Document:
    return ezdxf.read(io.StringIO(text_of(panel_document(pattern))))


def outline(document: Document) -> np.ndarray:
    (ring,) = document.modelspace().query('LWPOLYLINE[layer=="outline"]')
    assert ring.closed
    return np.array(list(ring.vertices()))


def texts(document: Document) -> list[str]:
    return [entity.dxf.text for entity in document.modelspace().query('TEXT[layer=="text"]')]


@pytest.mark.parametrize("name", SCENES)
def test_every_panel_closure_and_cleat_has_a_pattern_that_measures_as_it_does(name: str) -> None:
    here = layout(name)
    patterns = panel_patterns(here)
    formed = {one.name: one for one in (*here.panels, *here.closures)} | {
        one.mark: one for one in here.cleats
    }
    assert sorted(name for pattern in patterns for name in pattern.names) == sorted(formed)
    assert len({pattern.name for pattern in patterns}) == len(patterns)
    for pattern in patterns:
        document = read_back(pattern)
        assert not document.audit().has_errors
        assert {entity.dxf.layer for entity in document.modelspace()} <= set(LAYERS)
        ring = outline(document)
        area = shapely.Polygon(ring).area
        for one in map(formed.__getitem__, pattern.names):
            assert area == approx(one.sheet.area, rel=1e-4)
            assert np.ptp(ring[:, 0]) == approx(one.length, abs=1e-3)
            if isinstance(one, Panel):
                assert np.ptp(ring[:, 1]) <= one.width + 1e-6
        assert ring[:, 0].min() == approx(0)
        bends = [entity for entity in document.modelspace() if entity.dxf.layer.startswith("bend")]
        assert bends or isinstance(pattern.first, Closure)


def test_bends_of_a_whole_panel_are_those_of_a_double_lock() -> None:
    # The edge under is turned up 90 and folded over 180; the edge over is turned up, over and down by 90 each and
    # hooked by 180; the end at the eave is turned down and back, that at the ridge up: 4 right angles and 2 folds flat
    # by the brake, 3 tabs.
    here = layout("boat-shed")
    whole = next(one for one in here.panels if one.ripped is None)
    pattern = next(one for one in panel_patterns(here) if whole.name in one.names)
    document = read_back(pattern)
    assert np.ptp(outline(document)[:, 1]) == approx(whole.width, abs=1e-3)
    said = [text for text in texts(document) if " deg " in text]
    brake = sorted(round(float(text.split()[0])) for text in said if not text.startswith("tab"))
    assert brake == [90, 90, 90, 90, 180, 180]
    assert [round(float(text.split()[1])) for text in said if text.startswith("tab")] == [90, 90, 90]
    up = [text for text in said if re.search(r"deg up", text)]
    assert {entity.dxf.layer for entity in document.modelspace().query("LWPOLYLINE")} >= {
        "bend up",
        "bend down",
    }
    assert len(up) == sum(entity.dxf.layer == "bend up" for entity in document.modelspace())


def test_alike_panels_are_in_one_file_that_says_which() -> None:
    here = layout("boat-shed")
    patterns = [one for one in panel_patterns(here) if isinstance(one.first, Panel)]
    most = max(patterns, key=lambda one: len(one.names))
    assert len(most.names) > 12
    assert f"for {most.names[0]} and {len(most.names) - 1} more" in texts(read_back(most))


def test_foam_is_cut_with_a_knife_and_has_no_pattern_of_sheet() -> None:
    gable = 'title = "Any"\n[roof]\nform = "gable"\nlength = 240\nwidth = 120\npitch = "6/12"\n'
    here = build(scene_from(gable + '[trim.ridge]\nclosure = "foam"\n', "any.toml"))
    assert not any(isinstance(one.first, Closure) for one in panel_patterns(here))


def test_screws_of_a_cleat_are_crosses_on_its_flange() -> None:
    drip = '[trim.eave]\nprofile = "plain drip"\n'
    gable = 'title = "Any"\n[roof]\nform = "gable"\nlength = 240\nwidth = 120\npitch = "6/12"\n'
    here = build(scene_from(gable + drip, "any.toml"))
    pattern = next(one for one in panel_patterns(here) if isinstance(one.first, Cleat))
    document = read_back(pattern)
    marks = [
        np.array(list(one.vertices())) for one in document.modelspace().query('LWPOLYLINE[layer=="mark"]')
    ]
    centers = {tuple(mark.mean(axis=0).round(3)) for mark in marks}
    # A flange of 1 1/2 in on the deck, screws in the middle of it.
    assert centers == {(round(at, 3), 0.75) for at in pattern.first.screws}
