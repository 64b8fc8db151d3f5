"""Screws: rows and their tape marks by hand on a roof whose seams stay out of the way, and on every scene."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from ordinary_roofs import ordinary
from zoo import NAMES, OTHERS, layout

from trimwright.model.errors import SceneError
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.screw_lines import EDGE, INSET, OFF_LAP
from trimwright.model.screws import Screw
from trimwright.model.sheet.fold import facets
from trimwright.model.tolerances import TAPE

GABLE = """
title = "Store"
[roof]
form = "gable"
length = "20'"
width = "20'"
pitch = "6/12"
[panels]
cover = 60
offset = 30
"""

EAR = """
[trim.eave]
face = "3 1/2 in"
"""
"""The eave trim hangs less deep than the rakes, whose faces then reach down past its kick, farther than their tabs."""


def built(more: str = "") -> Layout:
    return build(scene_from(GABLE + more))


def marks(plan: Layout, mark: str) -> list[float]:
    """Return the tape marks of one piece, rising."""
    return sorted(screw.at for screw in plan.screws if screw.mark == mark)


def row_lists(plan: Layout) -> list[tuple[Part, list[Screw]]]:
    """Return every row of screws with its piece."""
    result = []
    for part in plan.parts:
        rows: dict[float, list[Screw]] = {}
        for screw in plan.screws:
            if screw.mark == part.mark:
                rows.setdefault(round(screw.across, 6), []).append(screw)
        result += [(part, sorted(row, key=lambda screw: screw.at)) for row in rows.values()]
    return result


def test_by_hand_a_full_rake_piece() -> None:
    """R1-1 is 126 in long: first at 6 in; its high end lies under R1-2 by 4 in, so the last is at 126 - 6 = 120 in.

    Its low end is not its tab. 114 in at no more than 20 in make six steps of 19 in.
    """
    assert marks(built(EAR), "R1-1") == pytest.approx([6, 25, 44, 63, 82, 101, 120], abs=TAPE)


def test_by_hand_the_scenes_own_numbers_win() -> None:
    """First at 5 in, ends 5 in, at most 15 in apart: 116 in make eight steps of 14 1/2 in."""
    plan = built(EAR + "[screws]\nfirst = 5\nspacing = 15\nends = [5, 6]\n")
    assert marks(plan, "R1-1") == pytest.approx([5 + 14.5 * k for k in range(9)], abs=TAPE)


def test_a_lap_longer_than_the_band_pushes_the_screw_off_it() -> None:
    """A 9 in lap hides the high end of R1-1: its last screw is half an inch outside the lap."""
    plan = built('[trim.rake]\nlap = "9 in"\n')
    part = next(part for part in plan.parts if part.mark == "R1-1")
    assert part.length - marks(plan, "R1-1")[-1] == pytest.approx(9 + OFF_LAP)


def test_one_row_lies_an_inch_in_from_the_free_edge_of_its_leg() -> None:
    across = {screw.across for screw in built().screws if screw.mark == "R1-1"}
    assert across == {INSET}


def test_caps_have_a_row_on_each_wing_the_same_distance_from_both_edges() -> None:
    plan = built()
    cap = next(part for part in plan.parts if part.run.trim == "ridge")
    low, high = sorted({screw.across for screw in plan.screws if screw.mark == cap.mark})
    assert low == pytest.approx(cap.run.section.width - high)


def test_high_wind_puts_two_rows_on_each_wing_of_a_cap_and_one_on_a_rake() -> None:
    """FEMA P-499 fact sheet 7.6: two rows either side of a hip or ridge."""
    plan = built('[rules]\nset = "high wind"\n')
    rows = {part.mark: 0 for part in plan.parts}
    for part, _ in row_lists(plan):
        rows[part.mark] += 1
    assert {rows[part.mark] for part in plan.parts if part.run.trim == "ridge"} == {4}
    assert {rows[part.mark] for part in plan.parts if part.run.trim in ("eave", "rake")} == {1}


def test_hand_placed_screws_win_and_are_said_to_be_placed() -> None:
    plan = built("[screws.placed]\nR1-1 = [60, 10, 110]\n")
    mine = [screw for screw in plan.screws if screw.mark == "R1-1"]
    assert [screw.at for screw in mine] == [10, 60, 110]
    assert all(screw.placed for screw in mine)
    assert not any(screw.placed for screw in plan.screws if screw.mark != "R1-1")


def test_all_hand_placed_mistakes_are_told_at_once() -> None:
    with pytest.raises(SceneError) as caught:
        built("[screws.placed]\nR9-1 = [10]\nR1-1 = [10, 200]\n")
    unknown, beyond = map(str, caught.value.problems)
    assert unknown.startswith("screws.placed.R9-1: there is no such piece; there are: E1-1, ")
    assert beyond == "screws.placed.R1-1: 16' 8\" is beyond its far end; it is 10' 6\" long"


def test_pilot_holes_are_cut_where_the_screws_go() -> None:
    """Twelve corners on a circle of 1/8 in: an area of 12/2 (1/16)^2 sin 30 each."""
    plain, drilled = built(), built('[screws]\npilot = "1/8 in"\n')
    for before, after in zip(plain.parts, drilled.parts, strict=True):
        screws = [screw for screw in drilled.screws if screw.mark == after.mark]
        assert len(after.sheet.holes) == len(screws)
        lost = len(screws) * 6 * (1 / 16) ** 2 * math.sin(math.pi / 6)
        assert before.sheet.area - after.sheet.area == pytest.approx(lost, abs=1e-9)
        for hole, screw in zip(after.sheet.holes, screws, strict=True):
            assert hole.mean(axis=0) == pytest.approx([after.low + screw.at, screw.across])


def test_without_a_pilot_nothing_is_drilled() -> None:
    assert all(part.sheet.holes == () for part in built().parts)


GOOD = [name for name in (*NAMES, *OTHERS) if name != "slip-shed"]


@pytest.mark.parametrize("name", GOOD)
def test_rows_are_never_farther_apart_than_asked(name: str) -> None:
    plan = layout(name)
    most = plan.scene.screws.spacing or plan.limits.number("screw-spacing")
    for _, row in row_lists(plan):
        assert len(row) >= 2
        assert all(0 < b.at - a.at <= most + 1e-6 for a, b in pairwise(row))


@pytest.mark.parametrize("name", GOOD)
def test_end_screws_keep_off_cuts_and_hidden_laps(name: str) -> None:
    plan = layout(name)
    for part, row in row_lists(plan):
        laps = {end.at: end.lap for end in part.ends.laps}
        low, high = row[0].at, part.length - row[-1].at
        if part.length > 30:
            assert low >= max(EDGE, laps.get("low", 0) + OFF_LAP if "low" in laps else 0) - 1e-9
            assert high >= max(EDGE, laps.get("high", 0) + OFF_LAP if "high" in laps else 0) - 1e-9


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_screw_stands_on_its_sheet_with_its_head_on_the_painted_side(name: str) -> None:
    """Carried back to the flat, its point is its tape mark; it stands half a sheet out of the mid plane."""
    plan = layout(name)
    for part in plan.parts:
        back = np.linalg.inv(part.placement)
        parts = {facet.strip: facet for facet in facets(part.sheet) if not facet.tab}
        for screw in (screw for screw in plan.screws if screw.mark == part.mark):
            middle = screw.point - screw.normal * part.run.section.thickness / 2
            facet = parts[int(np.searchsorted(part.run.section.v, screw.across) - 1)]
            local = (back @ [*middle, 1.0])[:3]
            flat = (local - facet.fold[:, 2]) @ facet.fold[:, :2]
            assert flat == pytest.approx([part.low + screw.at, screw.across], abs=1e-6)
            assert facet.to_space(flat[None])[0] == pytest.approx(local, abs=1e-6)
            assert part.placement[:3, :3] @ facet.normal == pytest.approx(screw.normal, abs=1e-9)


def test_by_hand_the_band_of_a_turned_down_end_begins_at_its_fold() -> None:
    """The flap of a ridge's end is no length of the cap: the last screw is 6 in from the fold, not from its edge."""
    plan = built()
    ends = [(part, end) for part in plan.parts for end in part.ends if end.kind.name == "ridge end"]
    assert len(ends) == 2
    for part, end in ends:
        fold = float(end.cut.tabs[0].hinge[0, 0]) - part.low
        assert abs(end.outermost - part.low - fold) > 1.0, "the flap hangs beyond it"
        for row in (row for other, row in row_lists(plan) if other is part):
            nearest = row[0 if end.at == "low" else -1].at
            assert abs(fold - nearest) == pytest.approx(6, abs=TAPE)


def test_two_screws_of_a_short_piece_keep_off_its_cuts() -> None:
    """The last piece of the high edge is some 9 in long with a lap of 4 in: what is left has room for two screws
    1 in apart or more, each 1 1/2 in from the cut and 1/2 in off the lap."""
    shed = """
title = "Shed"
[roof]
form = "shed"
length = "29' 6 in"
width = "9'"
pitch = "6/12"
[trim.eave]
start = "low"
[trim.high]
start = "low"
lap = "4 in"
"""
    short = []
    for length in ("20'", "20' 3 in", "20' 6 in", "20' 9 in"):
        plan = build(scene_from(shed.replace("29' 6 in", length)))
        for part, row in row_lists(plan):
            edge = min(row[0].at, part.length - row[-1].at)
            assert edge >= EDGE - 1e-9 or part.length < 5, (part.mark, edge)
            gaps = [b.at - a.at for a, b in pairwise(row)]
            assert min(gaps) >= 1.0 - 1e-9, part.mark
            short += [part.mark] if part.length < 14 else []
    assert short, "one of the lengths leaves a short piece"


def test_screws_keep_off_a_cut_that_runs_beside_their_row() -> None:
    """Where a shallow end meets steep sides the hip head's cut runs at some 8 degrees to the rows of the hip caps."""
    plan = build(scene_of(ordinary(44)))
    assert plan.scene.roof.form == "hip"
    for part in plan.parts:
        if part.run.trim != "hip":
            continue
        body = shapely.Polygon(np.concatenate([part.sheet.low.line, part.sheet.high.line[::-1]]))
        spots = [shapely.Point(part.low + screw.at, screw.across) for screw in plan.screws_of(part.mark)]
        assert spots and min(body.exterior.distance(spot) for spot in spots) >= 0.5 - 1e-6, part.mark
