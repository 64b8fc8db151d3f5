"""Asking the rules: order, exceptions and their reasons, and what a finding says."""

from pathlib import Path

import numpy as np
import pytest

from trimwright.model.checks import rules
from trimwright.model.checks.run import RULES, check
from trimwright.model.errors import SceneError
from trimwright.model.message import ENGLISH
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.units import Tape

GABLE = """title = "Rope walk"
[roof]
form = "gable"
length = "18'"
width = "17'"
pitch = "6/12"
[metal]
thickness = "26 ga"
[trim.eave]
start = "low"
[trim.rake]
start = "low"
[run."front eave"]
lap = 2
sealed = false
"""
SHORT = {"R1-2", "R2-2", "R3-2", "R4-2"}


def findings(extra="", scene=GABLE):
    return check(build(scene_from(scene + extra)))


def of(rule, found):
    return [finding for finding in found if finding.rule == rule]


def test_every_file_of_a_rule_is_asked_and_named_like_its_rule():
    files = {path.stem for path in Path(rules.__file__).parent.glob("*.py")} - {"__init__"}
    assert files == {rule.RULE.replace("-", "_") for rule in RULES}
    assert [rule.__name__.rsplit(".", 1)[1] for rule in RULES] == [r.RULE.replace("-", "_") for r in RULES]


def test_the_worst_comes_first():
    found = findings()
    order = [("error", "warning", "note").index(one.severity) for one in found if one.cause is None]
    assert order == sorted(order)
    assert set(order) >= {0, 1}


@pytest.mark.parametrize(
    ("where", "marks"),
    [('where = "R1-2", ', {"R1-2"}), ('where = "right-end left rake", ', {"R1-2"}), ("", SHORT)],
    ids=["a piece", "a run", "everywhere"],
)
def test_an_accepted_finding_stays_as_a_note_with_its_reason(where, marks):
    rules = f'[rules]\naccept = [{{ rule = "short-end-piece", {where}reason = "behind the chimney" }}]\n'
    found = of("short-end-piece", findings(rules))
    assert {f.pieces[0] for f in found} == SHORT
    accepted = {f.pieces[0]: f for f in found if f.accepted is not None}
    assert accepted.keys() == marks
    assert {(f.severity, f.accepted) for f in accepted.values()} == {("note", "behind the chimney")}
    assert {f.severity for f in found if f.accepted is None} <= {"warning"}


def test_accepted_findings_come_last():
    accepted = '[{ rule = "thin-metal", where = "all trim", reason = "what is on the truck" }]'
    found = findings(f"[rules]\naccept = {accepted}\n")
    assert found[-1].rule == "thin-metal"
    assert [f.accepted is not None for f in found].index(True) == len(found) - 1


def test_a_rule_that_is_off_is_not_asked():
    found = findings('[rules.off]\n"short-end-piece" = "out of sight"\n')
    assert of("short-end-piece", found) == []
    assert of("thin-metal", found)


def test_rules_that_do_not_exist_are_refused_all_at_once_with_the_nearest():
    text = '[rules]\naccept = [{ rule = "short-piece", reason = "x" }]\n'
    text += 'off = { "thin-mettle" = "y", "qqq" = "z" }\n'
    with pytest.raises(SceneError) as error:
        findings(text)
    first, second, third = map(str, error.value.problems)
    assert first == "rules.off.thin-mettle: 'thin-mettle' is no rule; did you mean thin-metal?"
    assert second.startswith("rules.off.qqq: 'qqq' is no rule; the rules are short-end-piece,")
    assert third.startswith("rules.accept no. 1.rule: 'short-piece' is no rule; did you mean short-")


def test_a_limit_of_the_scenes_own_is_what_the_finding_compares_with():
    found = of("thin-metal", findings('[rules.limits]\n"thin-metal" = { value = 0.02, reason = "hail" }\n'))
    assert (found[0].limit.value, found[0].limit.reason) == (0.02, "hail")
    assert found[0].limit.instead_of is not None
    assert str(found[0].limit.source.title) == "set by the scene"
    assert str(found[0].limit.instead_of.source.title).startswith("IBC 1503.2")


def test_every_finding_says_where_and_what_to_do_in_one_line():
    for finding in findings():
        told, remedy = str(finding.message), str(finding.remedy)
        assert told.startswith(finding.where)
        assert told.endswith(".") and remedy.endswith(".")
        assert "\n" not in told + remedy
        assert finding.limit.rule in {name for rule in RULES for name in rule.LIMITS}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.RULE)
def test_every_rule_says_why_its_findings_matter_in_one_sentence(rule):
    told = str(rule.WHY)
    assert told[0].isupper() and told.endswith(".") and ". " not in told
    assert told.split()[0] not in ("It", "They", "Their", "There's")  # it is read apart from its page


def test_a_finding_points_at_its_pieces():
    layout = build(scene_from(GABLE))
    solids = {part.mark: part.solid.vertices for part in layout.parts}
    for finding in check(layout):
        assert finding.point.shape == (3,)
        if finding.pieces:
            points = np.concatenate([solids[mark] for mark in finding.pieces])
            assert (finding.point > points.min(axis=0) - 6).all()
            assert (finding.point < points.max(axis=0) + 6).all()


def test_lengths_are_written_the_way_the_scene_asks():
    message = of("lap-too-short", findings())[0].message
    assert (
        message.said(ENGLISH, Tape("mm"))
        == "front eave, E1-1 and E1-2, 3175 mm along: the lap is 51 mm, less than 76 mm."
    )


def test_the_same_layout_gives_the_same_findings():
    layout = build(scene_from(GABLE))
    assert [f.message for f in check(layout)] == [f.message for f in check(layout)]


def test_a_remedy_for_screws_near_the_ends_of_a_piece_too_short_for_them_is_a_longer_piece():
    scene = GABLE.replace('length = "18\'"', 'length = "29\' 3\\""')
    layout = build(scene_from(scene))
    lengths = {part.mark: part.length for part in layout.parts}
    found = of("end-screw", check(layout))
    short = [one for one in found if lengths[one.pieces[0]] < 12.0]
    assert short
    for one in found:
        assert ("make it 1' 0\" long or longer" in str(one.remedy)) == (one in short)


def test_an_error_is_accepted_in_one_place_only():
    text = '[[rules.accept]]\nrule = "lap-faces-upslope"\nreason = "dry there"\n'
    with pytest.raises(SceneError) as error:
        findings(text)
    assert [str(problem) for problem in error.value.problems] == [
        "rules.accept no. 1: where is missing: lap-faces-upslope is an error, which is accepted in one place "
        "only; give the mark of a piece, the name of a run, or what the finding begins with"
    ]
    assert findings(text + 'where = "R1-2"\n')
