"""The search for a better layout: never worse, as good as trying everything where that can be done, and repeatable."""

from itertools import product

import numpy as np
import pytest

from trimwright.model.improve.score import Score, joints_in_sight, judged
from trimwright.model.improve.search import MOST, STARTS, improve, started
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene
from trimwright.model.tolerances import TAPE

PLAIN = """
title = "Bait shed"
[roof]
form = "{form}"
length = {length}
width = {width}
pitch = "{pitch}/12"
[metal]
stock = [{stock}]
[trim.eave]
start = "low"
[trim.rake]
start = "low"
"""


def any_scene(draw: np.random.Generator) -> Scene:
    """Return an ordinary roof that nobody chose."""
    return scene_from(
        PLAIN.format(
            form=draw.choice(["gable", "hip", "shed"]),
            length=int(draw.integers(160, 600)) + 200,
            width=int(draw.integers(120, 330)),
            pitch=int(draw.integers(3, 13)),
            stock=int(draw.choice([120, 126, 144])),
        )
    )


def never_worse(count: int, seed: int) -> None:
    draw = np.random.default_rng(seed)
    for _ in range(count):
        scene = any_scene(draw)
        found = improve(scene)
        names = [run.name for run in found.before.layout.runs]
        alike = [judged(build(started(scene, dict.fromkeys(names, start)))).score for start in STARTS]
        assert found.after.score.ranked <= min(score.ranked for score in alike), scene.roof
        assert found.after.score.ranked <= found.before.score.ranked
        assert found.tried <= MOST + len(names) + 1


def test_a_few_roofs_are_never_laid_out_worse_than_by_one_rule_for_all() -> None:
    never_worse(1, seed=1)


@pytest.mark.sweep
def test_two_hundred_roofs_are_never_laid_out_worse_than_by_one_rule_for_all() -> None:
    never_worse(200, seed=2)


def test_on_a_small_roof_it_is_the_best_of_all_ways() -> None:
    """Two eaves and a high edge of one length, two rakes in one piece: 5 x 5 ways, each eave on its own 25 more."""
    text = PLAIN.format(form="shed", length=250, width=84, pitch=4, stock=126)
    scene = scene_from(text)
    found = improve(scene)
    runs = [run.name for run in found.before.layout.runs if run.trim in ("eave", "high")]
    scores = [
        judged(build(started(scene, dict(zip(runs, starts, strict=True))))).score
        for starts in product(STARTS, repeat=len(runs))
    ]
    assert found.after.score.ranked == min(score.ranked for score in scores)
    assert set(found.best) == {"errors", "warnings", "joints", "metal", "screws"}


def test_what_is_pinned_by_hand_stays() -> None:
    text = PLAIN.format(form="gable", length=330, width=204, pitch=6, stock=126)
    text += '[run."front eave"]\nstart = "high"\n[run."back eave"]\npieces = [120, 126, 126]\n'
    text += "[screws.placed]\nR1-1 = [6, 20, 40, 60, 80, 100, 118]\n"
    found = improve(scene_from(text))
    changed = {change.key[1] for change in found.changes}
    assert not changed & {"front eave", "back eave", "right-end left rake"}
    before, after = ({part.mark: part for part in one.layout.parts} for one in (found.before, found.after))
    for mark in ("E1-1", "E2-1", "E2-3", "R1-1", "R1-2"):
        assert after[mark].length == pytest.approx(before[mark].length, abs=2 * TAPE)


def test_the_same_scene_gives_the_same_changes_and_its_twins_stay_twins() -> None:
    text = PLAIN.format(form="gable", length=330, width=204, pitch=6, stock=126)
    one, other = improve(scene_from(text)), improve(scene_from(text))
    assert one.changes == other.changes
    assert one.after.score.warnings == 0 < one.before.score.warnings
    rakes = {change.value for change in one.changes if str(change.key[1]).endswith("rake")}
    assert len(rakes) == 1 and sum(str(change.key[1]).endswith("rake") for change in one.changes) == 4


def test_nothing_is_changed_that_makes_nothing_better() -> None:
    scene = scene_from(PLAIN.format(form="gable", length=120, width=120, pitch=6, stock=252))
    found = improve(scene)
    assert found.changes == () and found.after.score == found.before.score


def test_what_counts_before_what() -> None:
    worst_first = [
        Score(1, 0, 0, 0.0, 0),
        Score(0, 1, 0, 0.0, 0),
        Score(0, 0, 1, 0.0, 0),
        Score(0, 0, 0, 9.0, 0),
        Score(0, 0, 0, 0.0, 1),
        Score(0, 0, 0, 0.0, 0),
    ]
    assert sorted(worst_first) == worst_first[::-1]


def test_joints_in_sight_are_the_laps_of_eaves_and_rakes() -> None:
    layout = build(scene_from(PLAIN.format(form="gable", length=330, width=120, pitch=6, stock=126)))
    pieces = [part.run.trim for part in layout.parts]
    assert joints_in_sight(layout) == pieces.count("eave") - 2 + pieces.count("rake") - 4
