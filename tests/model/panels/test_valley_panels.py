"""Panels at a valley: they hook the cleats on its pan, and their blanks are as long as worked out by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from valleys import cut_to_the_valley, laid_out

from trimwright.model.checks.run import check
from trimwright.model.edge_kinds import KINDS
from trimwright.model.layout import Layout
from trimwright.model.panels.flaps import ENGAGED
from trimwright.model.panels.flat import ROUND
from trimwright.model.panels.valley_cleats import valley_lip
from trimwright.model.runs import Run, frame_on, pan_height
from trimwright.model.tolerances import POINT

SHORT = KINDS["valley"].short
PITCHES = [("6/12", "6/12"), ("12/12", "8/12"), ("10/12", "3/12"), ("2/12", "3/12"), ("18/12", "12/12")]


def valley_run(layout: Layout) -> Run:
    return next(run for run in layout.runs if run.trim == "valley")


@pytest.mark.parametrize(("main", "wing"), PITCHES)
def test_every_panel_at_a_valley_reaches_under_its_cleat(main: str, wing: str) -> None:
    layout = laid_out(wing, main, cover=16)
    run, t = layout.run("valley 3-4"), layout.scene.metal.thickness
    tip, under = valley_lip(valley_run(layout), layout.scene)
    seen = 0
    for panel in (panel for face in run.edge.faces for panel in layout.panels_of(face)):
        if run.name not in panel.borders:
            continue
        assert all(end.ending == "hooked" for end in panel.ends if end.border == run.name)
        inward = np.linalg.inv(frame_on(layout.roof, run.edge, panel.face))
        at = panel.solid.vertices @ inward[:3, :3].T + inward[:3, 3]
        below = at[(at[:, 2] < under) & (at[:, 2] > 0) & (at[:, 1] > -SHORT - 2)]
        below = below[(below[:, 0] > 2) & (below[:, 0] < run.length - 2)]
        if len(below):
            seen += 1
            assert tip - below[:, 1].min() >= ENGAGED - 1e-6
            assert below[:, 1].max() - tip >= ROUND - t
            assert below[:, 2].max() <= under - 1 / 64
    assert seen > 3
    assert not [finding for finding in check(layout) if finding.rule in ("panel-unhooked", "panels-collide")]


def test_a_panel_that_slips_off_its_cleat_is_found() -> None:
    layout = laid_out("6/12", "6/12", cover=16)
    panel = cut_to_the_valley(layout, "side 3")[0]
    face = layout.roof.faces[panel.face]
    up = np.array([0.0, 0.0, 1.0]) - face.normal[2] * face.normal
    moved = replace(
        panel, solid=replace(panel.solid, vertices=panel.solid.vertices - up / np.linalg.norm(up) * 0.5)
    )
    slipped = replace(layout, panels=tuple(moved if one is panel else one for one in layout.panels))
    found = [finding for finding in check(slipped) if finding.rule == "panel-unhooked"]
    assert [finding.where for finding in found] == [panel.name]


def test_length_of_a_blank_cut_to_a_valley() -> None:
    """At 7/12 and 7/12, from the eave line: the fold's lower end stands at s tan P + 4 / cos P, s from the corner.

    P is 49.18 deg. The fold keeps off the seam by half its gap of t + 0.01, its bend of 3/4 t and t, and by 1/64 along
    itself. The blank begins lower by what is folded down and back, square to the cut: (drop + hook) cos P; it ends 1 in
    below the ridge, with what is turned up there beyond.
    """
    layout = laid_out("7/12", "7/12", cover=16)
    t, lip = layout.scene.metal.thickness, valley_lip(valley_run(layout), layout.scene)[1]
    drop = pan_height(layout.roof, layout.scene) - lip + 1 / 32 + t
    p = math.atan(math.sqrt(1 + (7 / 12) ** 2))
    assert math.degrees(p) == pytest.approx(49.18, abs=0.005)
    valley = layout.run("valley 3-4").edge
    ridge = 120 * math.sqrt(1 + (7 / 12) ** 2)  # up the slope of the wing, whose half span is 120
    for panel in cut_to_the_valley(layout, "side 4"):
        if not any(end.border == "ridge 4-6" for end in panel.ends):
            continue
        seams = (panel.outline - valley.start)[:, 1] * np.sign(valley.direction[1])
        inside = (t + 0.01) / 2 + 0.75 * t + t
        low = (float(seams.min()) + inside) * math.tan(p) + SHORT / math.cos(p) + math.sin(p) / 64
        fold = (drop + ROUND + ENGAGED) * math.cos(p)
        (top,) = (end for end in panel.ends if end.border == "ridge 4-6")
        assert panel.length == pytest.approx(ridge - 1.0 - low + fold + top.turned, abs=1 / 256)


def test_each_pan_has_its_own_cleats_and_none_lies_across_a_lap() -> None:
    layout = laid_out("6/12", "6/12", cover=16)
    pans = layout.parts_of("valley 3-4")
    cleats = [cleat for cleat in layout.cleats if cleat.at == "valley 3-4"]
    assert len(cleats) == 2 * len(pans)
    assert [cleat.mark for cleat in cleats] == [f"V1-K{k}" for k in range(1, len(cleats) + 1)]
    for pan, own in zip(pans, zip(cleats[::2], cleats[1::2], strict=True), strict=True):
        laps_over = next((other.low for other in pans if other.low > pan.low), math.inf)
        for cleat in own:
            assert cleat.start + cleat.length < laps_over + POINT
            assert cleat.length <= pan.length
            assert all(0 < at < cleat.length for at in cleat.screws)
            assert max(np.diff(cleat.screws)) <= 6 + POINT


def test_pans_lie_higher_on_a_roof_with_valleys_alone() -> None:
    from zoo import layout as scene

    with_valley, without = scene("rope-store"), scene("boat-shed")
    assert pan_height(without.roof, without.scene) == 1 / 8
    assert (
        pan_height(with_valley.roof, with_valley.scene)
        > valley_lip(valley_run(with_valley), with_valley.scene)[1] + with_valley.scene.metal.thickness
    )
