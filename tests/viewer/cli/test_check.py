"""``check``: what is printed, and with which exit status it ends."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from zoo import NAMES, layout

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.run import check
from trimwright.viewer.data.report import report_of, written
from trimwright.viewer.report.terms import told_first

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]


def terms(name: str) -> list[str]:
    there = layout(name)
    return [str(term) for term in told_first(there, check(there), there.scene.tape)]


@pytest.mark.parametrize("name", NAMES)
def test_the_status_says_whether_there_are_errors(run: Run, scene: SceneOf, name: str) -> None:
    result = run("check", scene(name))
    findings = check(layout(name))
    assert result.exit_code == int(any(finding.severity == "error" for finding in findings))
    assert len(result.stdout.splitlines()) == len(terms(name)) + len(list(groups_of(findings))) + 1
    assert result.stderr == ""


def test_each_group_of_findings_is_a_line_that_begins_with_its_severity_and_rule(
    run: Run, scene: SceneOf
) -> None:
    lines = run("check", scene("slip-shed")).stdout.splitlines()
    groups = list(groups_of(check(layout("slip-shed"))))
    told = lines[len(terms("slip-shed")) : -1]
    for line, group in zip(told, groups, strict=True):
        assert line.split()[:2] == [group[0].severity, group[0].rule]
        assert line.startswith("  ") == (group[0].cause is not None)


def test_the_terms_stand_over_the_findings(run: Run, scene: SceneOf) -> None:
    lines = run("check", scene("slip-shed")).stdout.splitlines()
    assert lines[: len(terms("slip-shed"))] == terms("slip-shed")
    assert lines[:3] == [
        "Rules: common practice.",
        "Limit short-end-piece: set by the scene: 1' 6\" (common practice, no source: 2' 0\"), "
        "reason: the owner does not mind.",
        "Accepted: edge-without-trim, ridge (1 finding), reason: a ridge vent comes later.",
    ]


def test_as_json_it_is_the_report_alone(run: Run, scene: SceneOf) -> None:
    result = run("check", scene("slip-shed"), "--json")
    there = layout("slip-shed")
    assert result.exit_code == 1
    assert json.loads(result.stdout) == json.loads(written(report_of(there, check(there))))


def test_nothing_is_written(run: Run, scene: SceneOf, here: Path) -> None:
    run("check", scene("slip-shed"))
    assert list(here.iterdir()) == []
