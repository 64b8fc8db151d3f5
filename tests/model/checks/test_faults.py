"""Faults that no scene can ask for, made on a built layout by moving, cutting or taking away."""

import math
from dataclasses import replace

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline

from trimwright.model.checks.facts import facts_of
from trimwright.model.checks.rules import screws_per_piece
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.sheet.sheet import Cut
from trimwright.model.sheet.solid import Solid

GABLE = """title = "Gear shed"
[roof]
form = "gable"
length = "18'"
width = "20'"
pitch = "6/12"
"""
T = 0.0239


SHED = """
title = "Shed"
[roof]
form = "shed"
length = "20'"
width = "8'"
pitch = "14/12"
[metal]
stock = ["20'"]
"""


@pytest.fixture(scope="module")
def layout():
    return build(scene_from(GABLE))


def found(layout, rule):
    return [finding for finding in check(layout) if finding.rule == rule]


def changed(layout, mark, change):
    parts = tuple(change(part) if part.mark == mark else part for part in layout.parts)
    return replace(layout, parts=parts)


def moved(shift):
    """Return the change that moves a part by ``shift`` along its run, outward and up, inches."""

    def change(part):
        by = part.run.frame[:3, :3] @ np.asarray(shift, dtype=float)
        placement = part.placement.copy()
        placement[:3, 3] += by
        solid = Solid(part.solid.vertices + by, part.solid.faces, part.solid.side)
        return replace(part, placement=placement, solid=solid)

    return change


def slid(along):
    """Return the change that cuts a part ``along`` inches farther up its run at both ends."""

    def change(part):
        by = np.array([along, 0.0])
        low, high = Cut(part.sheet.low.line + by), Cut(part.sheet.high.line + by)
        return replace(part, sheet=replace(part.sheet, low=low, high=high))

    return change


def test_without_a_fault_nothing_is_found(layout):
    for rule in ("miter-gap", "pieces-collide", "gap-in-run", "screw-rows", "lap-faces-upslope", "lap-gap"):
        assert found(layout, rule) == []


@pytest.mark.parametrize("down", [0.1, 0.25, 1.0])
def test_a_rake_set_too_far_down_opens_its_miter_by_the_level_part_of_that(layout, down):
    [finding] = found(changed(layout, "R1-1", moved((-down, 0, 0))), "miter-gap")
    assert finding.pieces == ("R1-1", "E1-2")
    assert finding.severity == "error"
    assert finding.measured == pytest.approx(down * math.cos(math.atan(0.5)), abs=0.02)


def test_a_rake_set_a_hair_too_far_down_is_let_pass(layout):
    assert found(changed(layout, "R1-1", moved((-0.03, 0, 0))), "miter-gap") == []


def test_a_rake_standing_off_the_corner_opens_its_miter(layout):
    [finding] = found(changed(layout, "R3-1", moved((0, 0.5, 0))), "miter-gap")
    assert finding.pieces == ("R3-1", "E2-2")
    assert finding.measured == pytest.approx(0.5, abs=0.05)


@pytest.fixture(scope="module")
def blunt():
    """A rake goes on at 15 degrees, in plan, to its eave: R2-1, with a tab, lies over E1-1."""
    return build(scene_of(ordinary_outline(197)))


@pytest.mark.parametrize("mark", ["E1-1", "R2-1"])
@pytest.mark.parametrize("by", [0.25, 4.0])
def test_a_piece_that_ends_short_of_a_blunt_corner_opens_its_miter_by_about_that(blunt, mark, by):
    """The slot is measured along the face: square to the other one it is a third as wide, or none."""
    [finding] = found(changed(blunt, mark, slid(by)), "miter-gap")
    assert set(finding.pieces) == {"E1-1", "R2-1"}
    assert finding.measured == pytest.approx(by, abs=0.2) and finding.measured > by / 2


def test_an_eave_that_ends_short_of_a_blunt_corner_leaves_its_edge_bare_by_that(blunt):
    [finding] = found(changed(blunt, "E1-1", slid(4.0)), "gap-in-run")
    assert finding.pieces == ("E1-1",)
    assert finding.measured == pytest.approx(4.0, abs=0.1)


def test_a_slot_at_a_blunt_corner_counts_where_no_tab_covers_it(blunt):
    def bare(part):
        ends = part.ends._replace(low=replace(part.ends.low, tab=None))
        return replace(part, ends=ends)

    assert found(blunt, "miter-gap") == []
    [finding] = found(changed(blunt, "R2-1", bare), "miter-gap")
    assert finding.measured == pytest.approx(0.118, abs=0.005)


def test_a_piece_pressed_down_on_its_neighbor_by_a_sheet_runs_into_it_by_a_sheet(layout):
    fault = changed(layout, "R1-2", moved((0, 0, -T)))
    clash = [f for f in found(fault, "pieces-collide") if f.pieces == ("R1-1", "R1-2")]
    assert len(clash) == 1
    assert clash[0].measured == pytest.approx(1.0, abs=0.1)
    assert clash[0].where == "right-end left rake"


def test_a_rake_set_too_far_up_runs_its_tab_into_the_eave_trim(layout):
    fault = changed(layout, "R1-1", moved((0.03, 0, 0)))
    [finding] = [f for f in found(fault, "pieces-collide") if set(f.pieces) == {"R1-1", "E1-2"}]
    assert 0.5 < finding.measured < 0.03 * math.cos(math.atan(0.5)) / T + 0.01


def test_a_piece_cut_too_far_along_leaves_a_gap(layout):
    [finding] = found(changed(layout, "E1-2", slid(6.0)), "gap-in-run")
    assert finding.pieces == ("E1-1", "E1-2")
    assert finding.measured == pytest.approx(2.0)
    assert (
        str(finding.message) == 'front eave, E1-1 and E1-2, 10\' 7" along: 2" of the edge has no metal on it.'
    )
    assert str(finding.remedy) == 'Lengthen E1-1 by 2" and the lap.'


def test_a_piece_cut_too_short_leaves_the_end_of_its_edge_bare(layout):
    [finding] = found(changed(layout, "E1-2", slid(-3.0)), "gap-in-run")
    assert finding.pieces == ("E1-2",)
    assert finding.measured == pytest.approx(3.0, abs=0.01)


def test_a_piece_set_under_the_one_below_it_catches_water(layout):
    fault = changed(layout, "R1-2", moved((0, 0, -2 * T)))
    [finding] = found(fault, "lap-faces-upslope")
    assert str(finding.message).startswith("right-end left rake, R1-2 under R1-1, ")
    assert str(finding.message).endswith(" up: water runs into the lap.")
    assert str(finding.remedy) == "Put R1-2 over R1-1."


@pytest.mark.parametrize("up", [0.1, 0.5])
def test_a_piece_that_stands_off_its_neighbor_opens_the_lap_by_that(layout, up):
    [finding] = found(changed(layout, "R1-2", moved((0, 0, up))), "lap-gap")
    assert finding.pieces == ("R1-1", "R1-2")
    assert finding.measured == pytest.approx(up, abs=0.005)


def test_a_wing_without_screws_has_too_few_rows(layout):
    ridge = [part for part in layout.parts if part.run.trim == "ridge"]
    middle = ridge[0].sheet.section.width / 2
    fault = replace(
        layout,
        screws=tuple(s for s in layout.screws if not (s.mark.startswith("C") and s.across < middle)),
    )
    [finding] = found(fault, "screw-rows")
    assert (finding.where, finding.measured) == ("ridge", 0.0)
    assert {f.pieces[0] for f in found(fault, "screws-per-piece")} == {part.mark for part in ridge}


def test_a_face_cut_short_is_told_though_the_top_reaches_the_end():
    """The face of a shed's rake ends 21 in short of the high edge, level; its top leg and the run's tape do not."""
    layout = build(scene_from(SHED))

    def short(part):
        bend = part.run.section.v[part.run.section.strip_of("face")]
        line, by = part.sheet.high.line, np.array([21 / math.cos(part.run.edge.slope), 0.0])
        line = np.concatenate([line[line[:, 1] <= bend], line[line[:, 1] >= bend] - by])
        high = replace(part.ends.high, cut=Cut(line))
        return replace(part, sheet=replace(part.sheet, high=high.cut), ends=part.ends._replace(high=high))

    mark = next(p.mark for p in layout.parts if p.ends.high.kind.name == "high-rake" and p.run.trim == "rake")
    assert not found(layout, "gap-in-run")
    [finding] = found(changed(layout, mark, short), "gap-in-run")
    assert finding.measured == pytest.approx(21, abs=0.1)


def test_a_part_without_a_tab_is_told(layout):
    def without(part):
        low = replace(part.ends.low, cut=Cut(part.sheet.low.line), tab=None)
        return replace(part, sheet=replace(part.sheet, low=low.cut), ends=part.ends._replace(low=low))

    [finding] = found(changed(layout, "R2-1", without), "tab-too-small")
    assert finding.pieces == ("R2-1",)


def with_panel(layout, panel, by):
    """Return the layout with one panel moved by ``(3,)`` inches to the right, up the slope and off the deck."""
    up, right, off = panel.placement[:3, :3].T
    way = right * by[0] + up * by[1] + off * by[2]
    placement = panel.placement.copy()
    placement[:3, 3] += way
    solid = Solid(panel.solid.vertices + way, panel.solid.faces, panel.solid.side)
    other = replace(panel, placement=placement, solid=solid, outline=panel.outline + way)
    return replace(layout, panels=tuple(other if one is panel else one for one in layout.panels))


def test_a_panel_slid_down_lies_less_under_the_lip(layout):
    panel = layout.panels_of(0)[4]
    (finding,) = found(with_panel(layout, panel, (0, -1 / 4, 0)), "panel-unhooked")
    assert (finding.where, finding.severity) == (panel.name, "error")
    assert finding.measured == pytest.approx(3 / 4 - 1 / 4)


def test_a_panel_slid_up_runs_into_the_closure_on_its_neighbor(layout):
    panel = layout.panels_of(0)[4]
    (finding,) = found(with_panel(layout, panel, (0, 3, 0)), "panels-collide")
    assert finding.measured > 0.5


def test_a_panel_moved_aside_runs_into_the_one_beside_it(layout):
    panel, beside = layout.panels_of(0)[4:6]
    fault = with_panel(replace(layout, closures=()), panel, (1 / 4, 0, 0))
    (finding,) = found(fault, "panels-collide")
    (clash,) = facts_of(fault).clashes
    met = {fault.panels[number - len(fault.parts)].name for number in (clash.first, clash.second)}
    assert met == {panel.name, beside.name}
    assert finding.where in met and finding.pieces == ()


def test_a_panel_pressed_down_runs_into_the_trim_under_it(layout):
    panel = layout.panels_of(0)[4]
    alone = replace(layout, closures=(), panels=(panel,))
    assert found(alone, "panels-collide") == []
    (finding,) = found(with_panel(alone, panel, (0, 0, -1 / 8)), "panels-collide")
    assert finding.severity == "error"
    assert finding.where == panel.name and finding.pieces[0].startswith("E1")


def test_screws_over_a_closure_that_is_left_out_hold_nothing(layout):
    screw = next(one for one in layout.screws if one.holds == "closure" and one.mark.startswith("C1"))
    reach = [np.abs(one.solid.vertices - screw.point).max(axis=1).min() for one in layout.closures]
    gone = layout.closures[int(np.argmin(reach))]
    fault = replace(layout, closures=tuple(one for one in layout.closures if one is not gone))
    findings = found(fault, "screw-without-hold")
    assert findings and {finding.severity for finding in findings} == {"error"}
    assert all(mark.startswith("C1") for finding in findings for mark in finding.pieces)


def test_an_upper_end_left_flat_is_told(layout):
    panel = layout.panels_of(0)[4]
    ends = tuple(replace(end, turned=0.0) if end.at == "high" else end for end in panel.ends)
    other = replace(panel, ends=ends)
    fault = replace(layout, panels=tuple(other if one is panel else one for one in layout.panels))
    (finding,) = found(fault, "panel-end-open")
    assert (finding.where, finding.measured) == (panel.name, 0.0)


@pytest.mark.parametrize(("inches", "told"), [(2.9, 0), (3.1, 1)])
def test_the_tip_of_a_panel_need_not_be_turned_up(layout, inches, told):
    """Sealant closes a cut of up to 3 in."""
    panel = layout.panels_of(0)[4]
    ends = tuple(replace(end, turned=0.0, length=inches) for end in panel.ends if end.at == "high")
    other = replace(panel, ends=ends)
    fault = replace(layout, panels=tuple(other if one is panel else one for one in layout.panels))
    assert len(found(fault, "panel-end-open")) == told


def test_a_closure_left_out_leaves_a_slot(layout):
    gone = layout.closures[5]
    open_layout = replace(layout, closures=tuple(one for one in layout.closures if one is not gone))
    (finding,) = found(open_layout, "closure-gap")
    assert finding.where == gone.at
    assert finding.measured == pytest.approx(gone.length, abs=0.3)


@pytest.mark.parametrize(("inches", "told"), [(15.0, []), (17.0, ["C1-1"])])
def test_one_screw_over_an_inch_of_closure_holds_no_long_wing(layout, inches, told):
    """At 8 in from both its ends it is the last screw of both; the wing of a long piece lifts beyond it."""
    facts = facts_of(layout)
    wings = [
        replace(row, at=np.array([inches / 2]), metal=(0.0, inches)) if row.leg.name == "left wing" else row
        for row in facts.rows["C1-1"]
    ]
    run = facts.runs["ridge"]
    under = {("ridge", face): (7.0, 8.0) for face in run.edge.faces}
    changed_facts = replace(facts, rows={**facts.rows, "C1-1": tuple(wings)}, held=under)
    assert [finding.pieces[0] for finding in screws_per_piece.find(changed_facts)] == told


@pytest.mark.parametrize("mark", ["H1-1", "H2-1"])
def test_a_hip_that_begins_farther_up_leaves_more_bare_by_the_level_part_of_that(mark):
    layout = build(
        scene_of({"title": "Hip", "roof": {"form": "hip", "length": 300, "width": 200, "pitch": "9/12"}})
    )
    slope = next(part.run.edge.slope for part in layout.parts if part.mark == mark)
    bare = [
        finding.measured
        for far in (6.0, 8.0)
        for finding in found(changed(layout, mark, slid(far)), "gap-in-run")
        if finding.pieces == (mark,)
    ]
    assert bare[1] - bare[0] == pytest.approx(2 * math.cos(slope), abs=1e-3)
