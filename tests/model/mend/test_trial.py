"""Every change that is printed, made word for word in the scene's file, removes its findings and adds none worse.

What is gone and what is worse is counted here anew, from the findings alone.
"""

from collections import Counter
from pathlib import Path

import pytest
import tomlkit
from faulty_roofs import faulty

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.run import RULES, check
from trimwright.model.errors import TrimwrightError
from trimwright.model.measures import parse_length
from trimwright.model.mend.trial import Tried, checked, with_changes
from trimwright.model.pipeline import build
from trimwright.model.scene.draft import Change, Draft, draft_of
from trimwright.model.scene.read import scene_from
from trimwright.viewer.app.scene_text import with_changes as with_changes_in

CASES = sorted(Path(__file__, "..", "..", "checks", "cases").resolve().glob("*/fail-*.toml"))
ON_THE_ROOF = {
    "corner-without-joint": "a patch is bent over the corner",
    "dead-valley": "carpentry: the deck has to fall to an eave",
    "drains-to-wall": "carpentry: a cricket",
    "edge-without-trim/fail-short-ridge": "no trim can be cut for so short an edge: a patch",
    "flat-valley/fail-6-in-12": "it is laid out as the remedy says; a note for whoever sets it",
    "length-in-doubt": "the tape is what is in doubt",
    "loose-edge": "the row stands an inch inside the edge; the crew sets it nearer",
    "narrow-valley/fail-long-valley": "panels are cut to a line that is snapped on the pan",
    "panel-end-open": "lower seams leave too little room still, and wider caps are the shop's to draw",
    "panel-too-long": "the mill's, or the carpenter's",
    "tape-in-doubt": "the tape is what is in doubt",
    "unlikely-size/fail-outline": "the sizes of an outline are those of its corners",
    "unlikely-size/fail-seldom": "walls of three floors may be what they are",
    "valley-without-drip": "its foot is turned down with the pan in place",
}
"""Rules, or cases of theirs, that no change of the scene cures, and where the remedy is done instead."""

GABLE = """
title = "Bait shed"
[roof]
form = "gable"
length = "18'"
width = "17'"
pitch = "6/12"
"""


def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8").partition("[[expect]]")[0]


def holds(text: str) -> tuple[int, set[str]]:
    """Make every change that is printed for a scene; return how many there are, and the rules that have none."""
    before = with_changes(checked(draft_of(text)))
    tried, without = 0, set()
    for group in groups_of(before):
        change, first = group[0].change, group[0]
        assert all(one.change == change for one in group)
        if change is None:
            without.add(first.rule)
            continue
        tried += 1
        better = with_changes_in(text, change)
        after = check(build(scene_from(better)))
        told = (change, str(first.message))
        assert scene_from(better) == draft_of(text).changed(change).scene(), told
        counts = [
            sum((one.rule, one.severity) == (first.rule, first.severity) for one in some)
            for some in (before, after)
        ]
        assert counts[1] <= counts[0] - len(group), told
        severities = [Counter(one.severity for one in some) for some in (before, after)]
        worse = {"error": ["error"], "warning": ["error", "warning"], "note": ["error", "warning", "note"]}
        assert all(severities[1][kind] <= severities[0][kind] for kind in worse[first.severity]), told
    return tried, without


@pytest.mark.parametrize("path", CASES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_of_every_rule_a_change_helps_or_it_is_known_where_the_remedy_is_done(path: Path) -> None:
    rule = path.parent.name
    _, without = holds(text_of(path))
    assert (rule in without) == bool({rule, f"{rule}/{path.stem}"} & set(ON_THE_ROOF))


def test_every_rule_that_a_scene_can_break_is_tried_here() -> None:
    assert {path.parent.name for path in CASES} <= {rule.RULE for rule in RULES}
    assert {name.partition("/")[0] for name in ON_THE_ROOF} <= {path.parent.name for path in CASES}


def faults(numbers: range) -> None:
    tried = 0
    for number in numbers:
        text = tomlkit.dumps(faulty(number))
        try:
            checked(draft_of(text))
        except TrimwrightError:
            continue  # refused: the scene is told what to do, and there is nothing to find
        tried += holds(text)[0]
    assert tried >= len(numbers) / 2


def test_a_few_roofs_with_mistakes_are_helped_by_what_is_printed() -> None:
    faults(range(4))


@pytest.mark.sweep
def test_three_hundred_roofs_with_mistakes_are_helped_by_what_is_printed() -> None:
    faults(range(100, 400))


def test_what_follows_goes_with_its_cause_and_takes_the_same_change() -> None:
    found = with_changes(checked(draft_of(GABLE + '[trim.rake]\nstart = "low"\n')))
    changes = {one.rule: one.change for one in found if one.severity == "warning"}
    assert set(changes.values()) == {(Change(("trim", "rake", "start"), "shared"),)}
    assert {"short-end-piece", "end-screw"} <= set(changes)


@pytest.mark.parametrize(("tape", "mark"), [("denominator = 2", 1 / 2), ('show = "mm"', 1 / 25.4)])
def test_lengths_are_rounded_to_the_safe_side_on_the_scenes_own_tape(tape: str, mark: float) -> None:
    """A tab has to be 3/8 in wide, a lap 3 in long."""
    found = check(build(scene_from(f"{tape}\n{GABLE}[trim.eave]\nlap = 2\n[trim.rake]\ntab = 0\n")))
    tab, lap = (next(one for one in found if one.rule == rule) for rule in ("tab-too-small", "lap-too-short"))
    for one, least in ((tab, 0.375), (lap, 3.0)):
        ((change,), *_) = one.proposals
        length = parse_length(change.value)
        assert least - 1e-6 <= length < least + mark
        assert length / mark == pytest.approx(round(length / mark))


def test_nothing_is_built_where_nothing_was_found(monkeypatch: pytest.MonkeyPatch) -> None:
    draft = draft_of(GABLE.replace("17'", "14'") + '[rules.off]\ndrips-apart = "as drawn"\n')
    before = checked(draft)
    assert before.findings == ()
    monkeypatch.setattr("trimwright.model.mend.trial.build", None)
    assert with_changes(before) == ()


def test_each_group_costs_one_layout_where_the_first_proposal_helps(monkeypatch: pytest.MonkeyPatch) -> None:
    before = checked(draft_of(GABLE + '[trim.rake]\nstart = "low"\n[trim.eave]\nsealed = false\n'))
    built = []
    monkeypatch.setattr(
        "trimwright.model.mend.trial.build", lambda scene: built.append(scene) or build(scene)
    )
    groups = [group for group in groups_of(with_changes(before)) if group[0].cause is None]
    assert len(built) == len(groups) and all(group[0].change for group in groups)


def test_what_no_change_cures_alone_is_cured_with_that_of_another_finding() -> None:
    """A ridge cap among seams that stand by a sliver has screws over no closure: the seams have to move with it."""
    text = GABLE.replace("18'", "32'") + "[trim]\nridge = false\n[panels]\ncover = 17\noffset = 1.2\n"
    found = {one.rule: one.change for one in with_changes(checked(draft_of(text)))}
    assert found["narrow-panel"] == (Change(("panels", "offset"), None),)
    assert found["edge-without-trim"] is not None
    assert {change.key for change in found["edge-without-trim"]} >= {("trim", "ridge")}


def test_what_is_accepted_is_left_alone() -> None:
    text = (
        GABLE
        + '[trim]\nridge = false\n[[rules.accept]]\nrule = "edge-without-trim"\nreason = "a vent comes"\n'
    )
    found = with_changes(checked(draft_of(text)))
    assert [one.change for one in found if one.accepted] == [None]


@pytest.mark.parametrize(
    ("count", "pieces"), [(1, ["10' 5 1/2 in", "9' 1 1/2 in"]), (2, ["10' 6 1/2 in", "9' 0 1/2 in"])]
)
def test_a_change_for_which_stock_would_not_do_is_none(count: int, pieces: list[str]) -> None:
    """The back eave takes a length of 12 ft: with one alone, a front piece past 10 ft 6 in is cut from nothing."""
    text = (
        GABLE
        + f"""
[rules.off]
piece-longer-than-stock = "lengths of 12 ft are there"
[run."back eave"]
pieces = ["12'", "7' 7 in"]
[run."front eave"]
pieces = ["10' 5 1/2 in", "9' 0 1/2 in"]
[buy]
stock = [{{ length = "12'", profile = "hook eave", count = {count} }}]
"""
    )
    (found,) = (one for one in with_changes(checked(draft_of(text))) if one.rule == "lap-too-short")
    assert found.change == (Change(("run", "front eave", "pieces"), pieces),)


def test_stock_that_serves_nothing_anyway_keeps_no_change_from_being_told() -> None:
    text = GABLE + '[trim.eave]\nlap = 2\n[buy]\nstock = [{ length = "8\'", profile = "hok eave" }]\n'
    layout = build(scene_from(text))
    found = with_changes(Tried(draft_of(text), layout, check(layout)))
    assert {one.change for one in found if one.rule == "lap-too-short"} == {
        (Change(("trim", "eave", "lap"), "3 in"),)
    }


def test_a_change_makes_the_tables_it_needs_and_leaves_the_rest() -> None:
    draft = Draft(
        {"title": "A", "trim": {"eave": {"lap": 2}}, "profile": {"x": {"legs": [{"width": 1}, {}]}}}
    )
    changes = (
        Change(("trim", "eave", "lap"), "3 in"),
        Change(("run", "front eave", "tab"), "3/8 in"),
        Change(("profile", "x", "legs", 1, "width"), "2 in"),
        Change(("screws", "placed", "R1-1"), None),
        Change(("title",), None),
    )
    after = draft.changed(changes)
    assert after.tables == {
        "trim": {"eave": {"lap": "3 in"}},
        "run": {"front eave": {"tab": "3/8 in"}},
        "profile": {"x": {"legs": [{"width": 1}, {"width": "2 in"}]}},
    }
    assert draft.tables["trim"] == {"eave": {"lap": 2}}
