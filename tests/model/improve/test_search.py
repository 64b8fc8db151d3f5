"""The search for a better layout: never worse, as good as trying everything where that can be done, and repeatable."""

from itertools import product

import numpy as np
import pytest
from zoo import SCENES

from trimwright.model.errors import TrimwrightError
from trimwright.model.improve.choices import SEAMS, STARTS, choices_of
from trimwright.model.improve.score import Score, judged
from trimwright.model.improve.search import ALL, MOST, Search, improve
from trimwright.model.pipeline import build
from trimwright.model.scene.draft import Change, Changes, Draft, draft_of
from trimwright.model.scene.read import scene_from
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


def any_scene(draw: np.random.Generator) -> Draft:
    """Return an ordinary roof that nobody chose."""
    return draft_of(
        PLAIN.format(
            form=draw.choice(["gable", "hip", "shed"]),
            length=int(draw.integers(160, 600)) + 200,
            width=int(draw.integers(120, 330)),
            pitch=int(draw.integers(3, 13)),
            stock=int(draw.choice([120, 126, 144])),
        )
    )


def ranked(draft: Draft, changes: Changes) -> tuple[float, ...]:
    """Return what a changed scene is ranked by; last of all where it cannot be laid out."""
    try:
        return judged(build(draft.changed(changes).scene())).score.ranked
    except TrimwrightError:
        return (float("inf"),)


def test_a_search_begins_with_the_scene_as_it_is_and_does_not_try_it_again() -> None:
    draft = draft_of(PLAIN.format(form="gable", length=240, width=200, pitch=6, stock=126))
    search = Search(draft)
    found, chosen = search.best
    assert found is search.before and search.changes(chosen) == ()
    assert not search.offer(chosen) and search.tried == 1


def never_worse(count: int, seed: int) -> None:
    draw = np.random.default_rng(seed)
    for _ in range(count):
        draft = any_scene(draw)
        found = improve(draft)
        names = [run.name for run in found.before.layout.runs]
        alike = [
            ranked(draft, tuple(Change(("run", name, "start"), start) for name in names)) for start in STARTS
        ]
        assert found.after.score.ranked <= min(alike), draft.tables
        assert found.after.score.ranked <= found.before.score.ranked
        assert ranked(draft, found.changes) == found.after.score.ranked
        assert found.tried <= MOST + len(names) + 1


def test_a_few_roofs_are_never_laid_out_worse_than_by_one_rule_for_all() -> None:
    never_worse(1, seed=1)


@pytest.mark.sweep
def test_two_hundred_roofs_are_never_laid_out_worse_than_by_one_rule_for_all() -> None:
    never_worse(200, seed=2)


def test_on_a_small_roof_it_is_the_best_of_all_ways() -> None:
    """Its eave may be divided in eight ways and its panels begun in five; its high edge is pinned."""
    text = PLAIN.format(form="shed", length=200, width=84, pitch=4, stock=126)
    text += '[run."back high edge"]\nstart = "low"\n'
    draft = draft_of(text)
    found = improve(draft)
    choices = choices_of(found.before.layout)
    every = list(product(*choices))
    assert 5 < len(every) <= ALL
    scores = [ranked(draft, tuple(change for way in ways for change in way)) for ways in every]
    assert found.after.score.ranked == min(scores)
    assert set(found.best) == {"errors", "warnings", "joints", "metal", "screws"}


def test_joints_seams_and_stock_are_among_the_choices_and_what_is_pinned_is_not() -> None:
    text = PLAIN.format(form="gable", length=330, width=204, pitch=6, stock="126, 144")
    choices = choices_of(build(scene_from(text)))
    keys = {change.key for choice in choices for way in choice for change in way}
    assert {key[-1] for key in keys if key[0] == "run"} == {"start", "pieces"}
    assert {("panels", "start"), ("metal", "stock")} <= keys
    assert all(choice[0] == () for choice in choices)
    seams = next(choice for choice in choices if choice[-1][0].key == ("panels", "start"))
    assert [way[0].value for way in seams[1:]] == [start for start in SEAMS if start != "clear"]
    pinned = choices_of(build(scene_from(text + "[panels]\noffset = 8\n")))
    assert not any(change.key[0] == "panels" for choice in pinned for way in choice for change in way)


def test_a_joint_in_another_place_saves_metal_that_no_start_saves() -> None:
    """The net loft's rakes are a little longer than one length: cut where two of them come out of two lengths."""
    text = next(path for path in SCENES if path.stem == "net-loft").read_text(encoding="utf-8")
    found = improve(draft_of(text))
    names = [run.name for run in found.before.layout.runs]
    starts = [
        ranked(draft_of(text), tuple(Change(("run", name, "start"), start) for name in names))
        for start in STARTS
    ]
    assert found.after.score.ranked < min(starts)
    assert {change.key[-1] for change in found.changes} == {"pieces"}


def test_what_stops_the_search_ends_it() -> None:
    def stop(done: int, most: int) -> None:
        if done > 4:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        improve(draft_of(PLAIN.format(form="gable", length=330, width=204, pitch=6, stock=126)), stop)


def test_what_is_pinned_by_hand_stays() -> None:
    text = PLAIN.format(form="gable", length=330, width=204, pitch=6, stock=126)
    text += '[run."front eave"]\nstart = "high"\n[run."back eave"]\npieces = [120, 126, 126]\n'
    text += "[screws.placed]\nR1-1 = [6, 20, 40, 60, 80, 100, 118]\n"
    found = improve(draft_of(text))
    changed = {change.key[1] for change in found.changes}
    assert not changed & {"front eave", "back eave", "right-end left rake"}
    before, after = ({part.mark: part for part in one.layout.parts} for one in (found.before, found.after))
    for mark in ("E1-1", "E2-1", "E2-3", "R1-1", "R1-2"):
        assert after[mark].length == pytest.approx(before[mark].length, abs=2 * TAPE)


def test_the_same_scene_gives_the_same_changes_and_its_twins_stay_twins() -> None:
    text = PLAIN.format(form="gable", length=330, width=204, pitch=6, stock=126)
    one, other = improve(draft_of(text)), improve(draft_of(text))
    assert one.changes == other.changes
    assert one.after.score.warnings == 0 < one.before.score.warnings
    rakes = {str(change.value) for change in one.changes if str(change.key[1]).endswith("rake")}
    assert len(rakes) == 1 and sum(str(change.key[1]).endswith("rake") for change in one.changes) == 4


def test_nothing_is_changed_that_makes_nothing_better() -> None:
    text = PLAIN.format(form="gable", length=120, width=120, pitch=6, stock=252)
    found = improve(draft_of(text + '[panels]\nstart = "clear"\n'))
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


def test_joints_in_sight_are_those_of_the_street_where_one_is_named() -> None:
    text = PLAIN.format(form="gable", length=330, width=120, pitch=6, stock=126)
    everywhere = judged(build(scene_from(text))).score.joints
    assert judged(build(scene_from('street = "front"\n' + text))).score.joints == 2 < everywhere
