"""How sure lengths are: bounds hold for roofs laid out anew, counts split where they change, chance is counted."""

from typing import Any

import numpy as np
import pytest
from zoo import SCENES

from trimwright.model.checks.run import check
from trimwright.model.improve.search import improve
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.draft import Change, draft_of
from trimwright.model.scene.read import read_scene, scene_of
from trimwright.model.scene.schema import Scene, SurveySpec
from trimwright.model.sureness.trial import tried
from trimwright.model.sureness.unknowns import unknowns_of


def scene_named(name: str) -> Scene:
    scene = read_scene(next(path for path in SCENES if path.stem == name))
    return scene.model_copy(update={"survey": scene.survey or SurveySpec()})


def shed(width: float, **tables: Any) -> Layout:
    """Return a shed whose rakes are as long as its width and overhangs, near enough, by tape alone."""
    roof = {
        "form": "shed",
        "length": 120,
        "width": width,
        "pitch": "1 deg",
        "overhang": {"eave": 0, "high": 0},
    }
    survey = {"tape": "1/4 in", "pitch": "0.01 deg"}
    return build(scene_of({"title": "Shed", "roof": roof, "survey": survey, **tables}))


def test_nothing_is_said_where_nobody_says_how_well_it_was_measured() -> None:
    assert build(read_scene(SCENES[0]).model_copy(update={"survey": None})).sureness is None


@pytest.mark.parametrize("name", ["cooperage", "boat-shed", "harbor-office", "bakehouse", "rope-store"])
def test_roofs_drawn_by_chance_lie_within_the_bounds(name: str) -> None:
    """Each roof is laid out anew, joints and all, with no help of the slopes that the bounds were found by."""
    scene = scene_named(name)
    layout = build(scene)
    sure, unknowns = layout.sureness, unknowns_of(scene, layout.roof, layout.survey)
    assert sure is not None and unknowns is not None
    random = np.random.default_rng(11)
    miters = {(one.run, one.at): one for one in sure.miters}
    for _ in range(12):
        off = np.clip(random.normal(0.0, 0.5, len(unknowns.most)), -1.0, 1.0)
        trial = tried(unknowns, off, scene, layout.limits)
        for run, reach in trial.reach.items():
            low, high = sure.runs[run].total
            assert low - 1e-6 <= reach[1] - reach[0] <= high + 1e-6
        for key, angle in trial.miters.items():
            assert abs(angle - miters[key].angle) <= miters[key].off + 1e-6


@pytest.mark.parametrize("name", ["cooperage", "boat-shed", "rope-store"])
def test_the_bounds_are_reached_by_the_measures_that_make_them(name: str) -> None:
    """All measures off their most at once: some run comes as near to its bound as rounding lets it."""
    scene = scene_named(name)
    layout = build(scene)
    sure, unknowns = layout.sureness, unknowns_of(scene, layout.roof, layout.survey)
    assert sure is not None and unknowns is not None
    for run in layout.runs:
        low, high = sure.runs[run.name].total
        now = sum(part.piece.length - run.spec.lap for part in layout.parts_of(run.name)) + run.spec.lap
        assert low <= now <= high
        assert high - low == pytest.approx(2 * (high - now), rel=0.15, abs=0.05)


def test_an_eave_is_as_unsure_as_what_it_is_measured_by() -> None:
    """By hand: length and both overhangs, a quarter of an inch each, the overhang twice; and half a mark."""
    layout = shed(100)
    assert layout.sureness is not None
    low, high = layout.sureness.runs["front eave"].total
    assert high - low == pytest.approx(2 * (0.25 + 2 * 0.25) + 2 / 32, abs=1e-3)


def test_a_run_splits_where_its_count_of_pieces_changes() -> None:
    """A rake as long as its stock, to a thousandth: half the roofs take one piece, half of them two."""
    long = shed(300)
    reach = (
        long.parts_of("right-end left rake")[-1].piece.end
        - long.parts_of("right-end left rake")[0].piece.start
    )
    layout = shed(300, metal={"stock": [reach]})
    assert layout.sureness is not None
    run = layout.sureness.runs["right-end left rake"]
    assert sorted(division.count for division in run.divisions) == [1, 2]
    assert sum(division.share for division in run.divisions) == pytest.approx(1.0)
    assert {division.share > 0.4 for division in run.divisions} == {True}
    assert any(piece.fit for piece in layout.sureness.pieces.values() if piece.mark.startswith("R1"))


def test_a_short_piece_that_may_be_long_enough_says_how_likely() -> None:
    """By hand: the last piece is the limit of 24 in as drawn, the tape a quarter off either way: about half of them."""
    trim = {"rake": {"start": "low"}, "eave": {"start": "low"}}
    layout = shed(200, trim=trim)
    parts = layout.parts_of("right-end left rake")
    assert len(parts) == 2
    width = 200 + 24.0 - parts[-1].piece.length
    found = shed(width, trim=trim)
    assert found.parts_of("right-end left rake")[-1].piece.length == pytest.approx(24.0, abs=0.01)
    assert found.sureness is not None
    assert found.sureness.runs["right-end left rake"].short == pytest.approx(0.5, abs=0.1)
    told = [one for one in check(found) if one.rule == "length-in-doubt"]
    assert any("of 100 roofs that measure so" in str(one.message) for one in told)


def test_pieces_by_hand_that_may_not_cover_say_how_likely() -> None:
    layout = shed(200)
    run = "right-end left rake"
    parts = layout.parts_of(run)
    total = parts[-1].piece.end - parts[0].piece.start
    placed = shed(200, run={run: {"pieces": [126, total - 126 + 0.05]}})
    assert placed.sureness is not None
    assert placed.sureness.runs[run].bare == pytest.approx(0.35, abs=0.1)
    assert not any(one.fit for one in placed.sureness.pieces.values() if one.mark.startswith("R1"))
    told = [str(one.message) for one in check(placed) if one.rule == "length-in-doubt"]
    assert any("the pieces placed by hand do not cover it" in one for one in told)


def test_an_edge_that_nobody_measured_is_cut_to_fit() -> None:
    scene = scene_named("boat-shed")
    taped = scene.roof.model_copy(update={"taped": {"front eave": 400.0}})
    layout = build(scene.model_copy(update={"roof": taped}))
    assert layout.sureness is not None
    assert layout.sureness.runs["front eave"].told and not layout.sureness.runs["ridge"].told
    last = layout.parts_of("ridge")[-1].mark
    assert layout.sureness.pieces[last].fit


def test_the_same_scene_says_the_same_twice() -> None:
    one, two = (build(scene_named("cooperage")).sureness for _ in range(2))
    assert one is not None and two is not None
    assert one.runs == two.runs and one.pieces == two.pieces


def test_a_better_layout_is_found_as_without_a_survey() -> None:
    text = next(path for path in SCENES if path.stem == "boat-shed").read_text(encoding="utf-8")
    plain, sure = draft_of(text), draft_of(text).changed([Change(("survey",), {"tape": "1/8 in"})])
    one, other = improve(sure), improve(plain)
    assert one.changes == other.changes and one.after.score == other.after.score
    assert one.after.layout.scene.survey == sure.scene().survey
