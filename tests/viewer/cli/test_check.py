"""``check``: what is printed, and with which exit status it ends."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from zoo import NAMES, layout, told

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import read_scene
from trimwright.viewer.data.report import report_of, written
from trimwright.viewer.report.terms import told_first
from trimwright.viewer.report.words import totals

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
    rows = lines[len(terms("slip-shed")) : -1]
    for line, group in zip(rows, groups, strict=True):
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
    assert json.loads(result.stdout) == json.loads(written(report_of(there, told("slip-shed"))))


def test_nothing_is_written(run: Run, scene: SceneOf, here: Path) -> None:
    run("check", scene("slip-shed"))
    assert list(here.iterdir()) == []


def test_mending_writes_a_better_scene_beside_the_scene_and_ends_with_its_status(
    run: Run, scene: SceneOf, here: Path
) -> None:
    before = scene("slip-shed").read_text(encoding="utf-8")
    result = run("check", scene("slip-shed"), "--mend", "-o", here / "better.toml")
    better = (here / "better.toml").read_text(encoding="utf-8")
    assert scene("slip-shed").read_text(encoding="utf-8") == before
    assert "# thin-metal: 0.0159 in" in better and 'thickness = "24 ga"' in better
    assert "error fastener-metal" in result.stdout and 'screws.kind = "aluminum"' in result.stdout
    left = check(build(read_scene(here / "better.toml")))
    assert str(totals(left)) in result.stdout.splitlines()
    assert result.exit_code == int(any(one.severity == "error" for one in left))
    assert result.stdout.splitlines()[-1] == str(here / "better.toml")


def test_mended_as_json_it_is_the_report_of_the_better_scene(run: Run, scene: SceneOf, here: Path) -> None:
    report = json.loads(run("check", scene("net-loft"), "--mend", "--json").stdout)
    assert [one["rule"] for one in report["findings"] if one["severity"] != "note"] == []
    assert [path.name for path in (here / "out").iterdir()] == ["net-loft-better.toml"]


def test_a_scene_that_nothing_is_wrong_with_has_nothing_to_mend(run: Run, scene: SceneOf, here: Path) -> None:
    result = run("check", scene("chandlery"), "--mend", "-o", here / "same.toml")
    assert result.stdout.startswith("Nothing to mend: the scene is written as it is.\n")
    assert (here / "same.toml").read_bytes() == scene("chandlery").read_bytes()


def test_neither_the_scene_itself_is_written_over_nor_several_are_mended(
    run: Run, scene: SceneOf, here: Path
) -> None:
    own = here / "own.toml"
    own.write_text(scene("net-loft").read_text(encoding="utf-8"), encoding="utf-8")
    result = run("check", own, "--mend", "-o", own)
    assert result.exit_code == 2 and "the scene itself" in result.stderr
    assert own.read_text(encoding="utf-8") == scene("net-loft").read_text(encoding="utf-8")
    both = run("check", own, scene("boat-shed"), "--mend")
    assert both.exit_code == 2 and "--mend: takes one scene" in both.stderr


def test_the_change_stands_beside_its_finding(run: Run, scene: SceneOf) -> None:
    result = run("check", scene("slip-shed"))
    assert 'In the scene, tried: screws.kind = "aluminum".' in result.stdout
