"""Panels as sheets: they tile every face, hook what they should, close, and measure what is worked out by hand."""

import math
from typing import Any

import manifold3d
import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.solids import clashes
from trimwright.model.errors import GeometryError
from trimwright.model.layout import Layout
from trimwright.model.panels.columns import cut_columns
from trimwright.model.panels.flaps import ENGAGED
from trimwright.model.panels.flat import ROUND, laid_flat
from trimwright.model.panels.record import Panel
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.tolerances import POINT

T = 0.0239
"""Thickness of the steel of the scenes below, inches."""


def plan(roof: str, rest: str = "") -> Layout:
    return build(scene_from(f'title = "Any"\n[roof]\n{roof}\n{rest}', "any.toml"))


def gable(pitch: str = "6/12", rest: str = "") -> Layout:
    return plan(f'form = "gable"\nlength = 240\nwidth = 120\npitch = "{pitch}"', rest)


def on(here: Layout, face: int) -> list[Panel]:
    return [panel for panel in here.panels if panel.face == face]


@pytest.mark.parametrize("pitch", ["2/12", "3/12", "6/12", "12/12", "18/12"])
@pytest.mark.parametrize(
    "trim", ["", '[trim.eave]\nprofile = "plain drip"\n[trim.rake]\nprofile = "box rake"\n']
)
def test_panels_reach_under_every_lip_and_not_round_the_kick(pitch: str, trim: str) -> None:
    here = gable(pitch, trim)
    cleats = {cleat.at: cleat for cleat in here.cleats}
    for run in here.runs:
        if run.trim not in ("eave", "rake"):
            continue
        holder = cleats[run.name].sheet.section if trim else run.section
        lip = holder.strip_of("return")
        tip = float(holder.points[: lip + 1, 0].max()) + T / 2
        under = float(holder.points[lip : lip + 2, 1].min()) - T / 2
        inward = np.linalg.inv(run.frame)
        for panel in on(here, run.edge.faces[0]):
            at = panel.solid.vertices @ inward[:3, :3].T + inward[:3, 3]
            below = at[(at[:, 2] < under) & (at[:, 1] > 0) & (at[:, 0] > 2) & (at[:, 0] < run.length - 2)]
            if len(below):
                # Metal under the lip reaches in past its tip by what is asked, and round it with room.
                assert tip - below[:, 1].min() >= ENGAGED - 1e-6
                assert below[:, 1].max() - tip >= ROUND - T
                assert below[:, 2].max() <= under - 1 / 64
        assert any(
            name in panel.edges or any(end.ending == name for end in panel.ends)
            for panel in on(here, run.edge.faces[0])
            for name in ("hooked",)
        )


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_every_panel_closure_and_cleat_is_one_closed_solid_of_its_flat_sheet(name: str) -> None:
    here = layout(name)
    for one in (*here.panels, *here.closures, *here.cleats):
        mesh = manifold3d.Manifold(
            manifold3d.Mesh(
                np.asarray(one.solid.vertices, dtype=np.float32), np.asarray(one.solid.faces, dtype=np.uint32)
            )
        )
        assert mesh.status() == manifold3d.Error.NoError
        assert len(mesh.decompose()) == 1
        assert one.solid.volume == pytest.approx(one.sheet.area * here.scene.metal.thickness, rel=0.02)


@pytest.mark.parametrize("profile", ["double lock", "single lock", "snap lock", "screwed rib"])
@pytest.mark.parametrize("laid_from", ["left", "right"])
@pytest.mark.parametrize("thickness", [0.0159, 0.0239, 0.0336])
def test_panels_lock_into_each_other_without_running_into_anything(
    profile: str, laid_from: str, thickness: float
) -> None:
    asked = (
        f'[metal]\nthickness = "{thickness} in"\n[panels]\nprofile = "{profile}"\nlaid_from = "{laid_from}"\n'
    )
    here = gable("6/12", asked)
    ours = [*here.panels, *here.closures]
    solids = [one.solid for one in (*ours, *here.parts)]
    for clash in clashes(solids, thickness / 2):
        assert min(clash.first, clash.second) >= len(ours), (clash, profile)


def test_a_whole_panel_by_hand() -> None:
    # 16 in from seam to seam, seams 1 1/2 in high, folds of 1/4 in, steel of 0.0239 in bent round 3/4 of that.
    here = gable()
    panel = next(panel for panel in here.panels if panel.ripped is None)
    r = 0.75 * T
    gap = T + 0.01
    under = (1.5 - T - 0.02) + 0.25
    over = 1.5 + (gap + T + 3 * r + 2.5 * T) + (0.25 + 2 * T + r + 0.03) + (0.25 - 0.02)
    # Each bend takes 2 (R + T) off the outside widths and gives back (0.64 T + 1.57 R) for every 90 degrees.
    square = 2 * (r + T) - (0.64 * T + 1.57 * r)
    flat_back = 2 * (r + T) - 2 * (0.64 * T + 1.57 * r)
    assert panel.width == pytest.approx((16 - gap) + under + over - 4 * square - 2 * flat_back, abs=1e-6)
    # The slope is (60 + 12) in of run at 6 in 12, times 1.118. It goes out past the lip by 1/8 in, turns down to the
    # middle of a sheet that lies 1/32 in under the lip, back under it by 1/8 + 3/4 in, and at the ridge stops 1 in
    # short and turns up 1 in.
    run = next(run for run in here.runs if run.trim == "eave")
    assert run.section.lip is not None
    tip, below = run.section.lip
    drop = (1 / 8 + T / 2) - (below - 1 / 32 - T / 2)
    slope = 72 * math.sqrt(1.25)
    assert panel.length == pytest.approx(slope + tip + 1 / 8 + drop + 7 / 8 - 1 + 1, abs=1e-6)


def test_the_first_panel_of_a_rake_by_hand() -> None:
    # Its first seam stands 10 in from the edge of the deck; the rake's lip reaches out past that edge.
    here = gable("6/12", "[panels]\noffset = 10\n")
    first = on(here, 0)[0]
    run = next(
        run for run in here.runs if run.trim == "rake" and run.edge.faces == (0,) and run.hand == "right"
    )
    assert run.section.lip is not None
    tip, below = run.section.lip
    r, gap = 0.75 * T, T + 0.01
    assert first.cover == pytest.approx(10 + tip + 1 / 8)
    pan = first.cover - gap / 2 + T / 2
    drop = (1 / 8 + T) - (below - 1 / 32 - T)
    hook = 1 / 8 + 3 / 4 + T / 2
    under = (1.5 - T - 0.02) + 0.25
    square = 2 * (r + T) - (0.64 * T + 1.57 * r)
    flat_back = 2 * (r + T) - 2 * (0.64 * T + 1.57 * r)
    assert first.edges == ("hooked", "under")
    assert first.width == pytest.approx(pan + drop + hook + under - 3 * square - flat_back, abs=1e-6)


def test_a_hip_panel_by_hand() -> None:
    # At equal pitches the hip stands at 45 degrees in plan. On a slope of 6 in 12 it climbs 1 in across for 1.118 up,
    # so that one side of a panel 16 in wide is 17.89 in longer than the other; the cut is beveled by 48.19 degrees.
    here = plan('form = "hip"\nlength = 480\nwidth = 240\npitch = "6/12"')
    steep = math.sqrt(1.25)
    panels = [panel for panel in on(here, 0) if panel.edges == ("over", "under")]
    cut = next(
        panel for panel in panels if [end.border for end in panel.ends] == ["front eave", "front-left hip"]
    )
    assert math.degrees(cut.ends[1].bevel) == pytest.approx(math.degrees(math.atan(steep)))
    assert math.degrees(cut.ends[1].bevel) == pytest.approx(48.19, abs=0.005)
    left = float(np.linalg.norm(cut.seams[0][1] - cut.seams[0][0]))
    after = here.panels[here.panels.index(cut) + 1]
    right = float(np.linalg.norm(after.seams[0][1] - after.seams[0][0]))
    assert right - left == pytest.approx(16 * steep)
    assert right - left == pytest.approx(17.89, abs=0.005)
    # Its seam runs up to 2 in off the hip, measured square to it: by 2 / cos(bevel) less than to the hip itself.
    run = next(run for run in here.runs if run.name == "front eave")
    assert run.section.lip is not None
    from_corner = float((cut.seams[0][0] - run.edge.start) @ run.edge.direction)
    to_hip = from_corner * steep + run.section.lip[0] + 1 / 8
    assert left == pytest.approx(to_hip - 2 / math.cos(cut.ends[1].bevel))
    # Its sheet is as wide as that of a whole panel, the turned-up end snipped to it. Its fold line ends 1/64 in short
    # of the bend of the right edge, half a seam's gap and a bend in from the seam; from there the end stands up 1 in
    # square to the hip. Below, the eave's fold goes down to a sheet 1/32 in under the lip, and back 7/8 in.
    assert cut.width == pytest.approx(next(panel for panel in here.panels if panel.ripped is None).width)
    bevel, gap, r = cut.ends[1].bevel, T + 0.01, 0.75 * T
    right_bend = 16 - gap / 2 - (r + T)
    _, below = run.section.lip
    hook = (1 / 8 + T / 2) - (below - 1 / 32 - T / 2) + 7 / 8
    turned = 1.0 * math.cos(bevel) - 1 / 64 * math.sin(bevel)
    assert cut.length == pytest.approx(hook + left + right_bend * steep + turned, abs=1e-3)


@pytest.mark.parametrize(
    ("offset", "covers"), [(10, [10, 40, 40, 40, 40, 40, 40, 6]), (24, [24, 40, 40, 40, 40, 40, 32])]
)
def test_an_offset_sets_the_first_seam_and_the_rest_is_ripped(offset: float, covers: list[float]) -> None:
    here = gable("6/12", f"[panels]\ncover = 40\noffset = {offset}\n")
    past = next(run for run in here.runs if run.trim == "rake").section.lip
    assert past is not None
    covers[0] += past[0] + ROUND
    covers[-1] += past[0] + ROUND
    assert [panel.cover for panel in on(here, 0)] == pytest.approx(covers)
    assert [panel.ripped for panel in on(here, 0)][1:-1] == [None] * (len(covers) - 2)


@pytest.mark.parametrize(("laid", "at"), [("left", 0), ("right", -1)])
def test_a_face_laid_from_one_end_begins_there_with_all_that_a_sheet_gives(laid: str, at: int) -> None:
    """The hook at a rake takes more of the sheet or less than a seam's edge; the pan takes what it leaves."""
    here = gable("6/12", f'[panels]\nstart = "{laid}"\n')
    whole = next(panel for panel in here.panels if panel.ripped is None and "hooked" not in panel.edges)
    for face in range(2):
        panel = on(here, face)[at]
        assert "hooked" in panel.edges
        assert panel.width == pytest.approx(whole.width, abs=1e-6)


@pytest.mark.parametrize("offset", [11.5, 12.0])
def test_a_hook_along_a_side_that_leans_ends_within_its_own_panel(offset: float) -> None:
    """The fold along a rake that leans ends at the peak, short of the panel's right seam by less than its hook drifts.

    Folded, the hook lies 7/8 in back from the fold and square to it: its inner corner is cut off to lie 1/64 in inside
    the pan's edge, as close as snips go, since the next panel's hook goes another way.
    """
    gables = "sides = { 2 = { edge = 'gable' }, 4 = { edge = 'gable' } }"
    here = plan(
        f'form = "outline"\noutline = [[0, 0], [360, 0], [440, 200], [80, 200]]\npitch = "6/12"\n{gables}',
        f"[panels]\noffset = {offset}\n",
    )
    for face, rake in ((0, "right rake 4"), (1, "right rake 2")):
        panel = next(panel for panel in on(here, face) if {rake, "ridge 1-3"} <= panel.borders)
        section, pan = panel.sheet.section, panel.sheet.section.strip_of("pan")
        hook = next(tab for tab in panel.sheet.high.tabs if tab.on is not None)
        drop = hook.on
        assert drop is not None
        way = (drop.hinge[1] - drop.hinge[0]) / np.linalg.norm(drop.hinge[1] - drop.hinge[0])
        back = np.array([-way[1], way[0]]) * math.copysign(
            7 / 8, (drop.hinge[0] - drop.flap[0]) @ [-way[1], way[0]]
        )
        folded = [drop.hinge[0] + way * ((corner - drop.hinge[0]) @ way) + back for corner in hook.flap]
        assert max(v for _, v in folded) == pytest.approx(section.v[pan + 1] - 1 / 64, abs=1e-6)


raw_roofs: st.SearchStrategy[dict[str, Any]] = st.fixed_dictionaries(
    {
        "form": st.sampled_from(("gable", "hip", "shed")),
        "length": st.floats(60, 500),
        "width": st.floats(60, 400),
        "pitch": st.integers(2, 18).map(lambda rise: f"{rise}/12"),
        "wall_height": st.just(600.0),
    }
)


@settings(max_examples=25)
@given(raw_roofs, st.floats(8, 30), st.floats(0, 0.99))
def test_panels_tile_every_face(roof: dict[str, Any], cover: float, share: float) -> None:
    try:
        here = build(
            scene_of({"title": "Any", "roof": roof, "panels": {"cover": cover, "offset": cover * share}})
        )
    except GeometryError:
        assume(False)
        raise
    for index, face in enumerate(here.roof.faces):
        laid, flat = on(here, index), laid_flat(face)
        assert [panel.name for panel in laid] == [f"{face.name} {n}" for n in range(1, len(laid) + 1)]
        pans = [shapely.Polygon(flat.flatten(panel.outline)) for panel in laid]
        whole = shapely.union_all(pans, grid_size=POINT)
        # They neither overlap nor leave a strip between them, by more than a point.
        assert sum(pan.area for pan in pans) == pytest.approx(whole.area, rel=1e-6)
        assert whole.geom_type == "Polygon" and not whole.interiors
        deck = shapely.Polygon(flat.flatten(face.outline))
        assert deck.difference(whole).area <= deck.length * 2.5
        for panel in laid:
            assert panel.cover <= cover + 4
            low, high = panel.outline @ flat.axes[1], panel.solid.vertices @ flat.axes[1]
            assert np.ptp(high) >= np.ptp(low) - 2


def test_a_face_with_inside_corners_and_an_opening_gives_a_panel_for_each_part_of_a_column() -> None:
    outline = [(0, 0), (100, 0), (100, 80), (70, 80), (70, 40), (30, 40), (30, 80), (0, 80)]
    opening = [(42, 10), (58, 10), (58, 25), (42, 25)]
    area = shapely.Polygon(outline, [opening])
    columns = cut_columns(area, [20, 40, 60, 80], ())
    parts = [shapely.Polygon(column.ring) for column in columns]
    assert sum(part.area for part in parts) == pytest.approx(area.area)
    assert all(part.within(area.buffer(1e-6)) for part in parts)
    # Only the middle column is cut again: through the opening, and at both its sides, so that no part runs round it.
    middle = [column.ring for column in columns if column.number == 2]
    assert [column.number for column in columns if column.number != 2] == [0, 1, 3, 4]
    assert sorted({float(x) for ring in middle for x in ring[:, 0]}) == [40, 42, 50, 58, 60]
    assert len(middle) == 6
    for column in columns:
        for chain in (column.low, column.high):
            xs = [side.start[0] for side in chain] + [chain[-1].end[0]]
            assert xs == sorted(xs)


@pytest.mark.parametrize("top", [[(100, 60), (0, 60)], [(100, 60), (50, 90), (0, 60)]])
def test_a_seam_on_a_side_of_a_face_or_beyond_it_makes_no_column(top: list[tuple[float, float]]) -> None:
    area = shapely.Polygon([(0, 0), (100, 0), *top])
    plain, more = (cut_columns(area, seams, ()) for seams in ([20, 60], [-30, 0, 20, 60, 100, 120]))
    assert [column.number for column in more] == [column.number for column in plain] == [0, 1, 2]
    assert [column.ring.tolist() for column in more] == [column.ring.tolist() for column in plain]


def test_panels_at_a_break_are_as_long_where_one_length_makes_its_apron() -> None:
    """A shed of 6 ft takes one piece along its break, one of 30 ft three or more."""
    lengths = []
    for length in ("6'", "30'"):
        roof = {"form": "shed", "length": length, "width": "16'", "pitch": "4/12", "break_at": "6'"}
        plan = build(
            scene_of({"title": "Lean-to", "roof": {**roof, "upper_pitch": "10/12", "wall_height": "7'"}})
        )
        lengths.append({round(panel.length, 6) for panel in plan.panels})
    assert lengths[0] == lengths[1]
