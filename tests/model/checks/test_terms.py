"""The terms of a check: nothing that a scene changes of the rules is left out."""

from pathlib import Path

from trimwright.model.checks.run import check
from trimwright.model.checks.terms import terms_of
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

CASES = Path(__file__).parent / "cases"

SHED = """title = "Rope walk"
[roof]
form = "shed"
length = "18'"
width = "9'"
pitch = "6/12"
[run]
"right-end left rake" = false
"left-end right rake" = false
[rules]
set = "high wind"
off = { "lap-faces-wind" = "sheltered" }
accept = [
    { rule = "edge-without-trim", reason = "the wall is built on" },
    { rule = "wrong-hand", where = "E1-1", reason = "long mended" },
]
[rules.limits]
"thin-metal" = 0.015
"""


def test_all_that_the_scene_changes_is_told_with_its_reason():
    layout = build(scene_from(SHED))
    terms = terms_of(layout, check(layout))
    assert terms.rule_set == "high wind"
    assert dict(terms.off) == {"lap-faces-wind": "sheltered"}
    (limit,) = terms.overridden
    assert (limit.rule, limit.value, limit.reason) == ("thin-metal", 0.015, None)
    told = [(one.asked.rule, len(one.findings)) for one in terms.acceptances]
    assert told == [("edge-without-trim", 2), ("wrong-hand", 0)]
    assert set(terms.bare) == {finding.where for finding in terms.acceptances[0].findings}


def test_a_scene_that_changes_nothing_has_nothing_to_tell():
    layout = build(
        scene_from('title = "a"\n[roof]\nform = "hip"\nlength = 400\nwidth = 300\npitch = "6/12"\n')
    )
    terms = terms_of(layout, check(layout))
    assert (terms.rule_set, terms.overridden, dict(terms.off)) == ("common practice", (), {})
    assert (terms.acceptances, terms.bare, terms.sealed) == ((), (), ())


def test_corners_that_only_sealant_closes_are_named_even_where_their_rule_is_off():
    case = CASES / "corner-without-joint" / "fail-slope-ends-at-a-gable.toml"
    text = case.read_text(encoding="utf-8").partition("[[expect]]")[0]
    layout = build(scene_from(text + '[rules.off]\n"corner-without-joint" = "seen to"\n'))
    found = check(layout)
    assert not [finding for finding in found if finding.rule == "corner-without-joint"]
    sealed = terms_of(layout, found).sealed
    assert sealed and all(set(runs) <= {run.name for run in layout.runs} for runs in sealed)
