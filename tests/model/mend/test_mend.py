"""Mending: one remedy after the other, the worst finding first, and never worse than before."""

from faulty_roofs import faulty
from zoo import SCENES

from trimwright.model.checks.groups import ORDER
from trimwright.model.checks.run import RULES
from trimwright.model.mend.mend import GUESSES, Mended, mend
from trimwright.model.scene.draft import Draft, draft_of


def severities(found: Mended) -> list[tuple[int, ...]]:
    return [
        tuple(sum(one.severity == kind for one in some.findings) for kind in ORDER)
        for some in (found.before, found.after)
    ]


def test_the_roof_of_mistakes_loses_all_but_what_is_accepted() -> None:
    text = next(path for path in SCENES if path.stem == "slip-shed").read_text(encoding="utf-8")
    found = mend(draft_of(text))
    before, after = severities(found)
    assert before[0] >= 10 and before[1] >= 10
    assert after[:2] == (0, 0)
    assert len(found.steps) >= 12


def test_each_step_leaves_fewer_of_its_severity_and_none_that_are_worse() -> None:
    found = mend(Draft(faulty(3)))
    before, after = severities(found)
    assert found.steps and after < before
    assert found.after.draft.tables != found.before.draft.tables
    worst = [ORDER[step.group[0].severity] for step in found.steps]
    assert worst[0] == min(worst)


def test_a_scene_without_findings_stays_as_it_is() -> None:
    text = next(path for path in SCENES if path.stem == "harbor-office").read_text(encoding="utf-8")
    found = mend(draft_of(text))
    assert found.steps == () and found.after is found.before


def test_what_was_meant_is_guessed_but_not_made() -> None:
    text = 'title = "A"\n[roof]\nform = "gable"\nlength = "216\'"\nwidth = "14\'"\npitch = "6/12"\n'
    found = mend(draft_of(text))
    assert GUESSES & {one.rule for one in found.after.findings}
    assert not any(change.key[0] == "roof" for step in found.steps for change in step.changes)


def test_every_rule_that_guesses_is_a_rule() -> None:
    assert {rule.RULE for rule in RULES} >= GUESSES
