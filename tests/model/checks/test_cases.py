"""Every rule on small scenes: ``pass`` yields none of its findings, ``fail`` exactly the listed ones.

A case is a scene and, where it fails, a list ``expect``: where, and if it matters the pieces, the number
measured, the severity, and words that the message or the remedy says.
"""

import tomllib
from pathlib import Path

import pytest

from trimwright.model.checks.run import RULES, check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

CASES = Path(__file__).parent / "cases"
PATHS = sorted(CASES.glob("*/*.toml"))
BY_FAULT = {
    "gap-in-run",
    "screw-rows",
    "miter-gap",
    "pieces-collide",
    "lap-gap",
    "panel-unhooked",
    "panels-collide",
    "closure-gap",
}
"""Rules whose findings no scene can ask for; `test_faults` makes them from a built layout."""


def findings(path):
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    expect = raw.pop("expect", [])
    found = [f for f in check(build(scene_of(raw, path.name))) if f.rule == path.parent.name]
    return found, expect


def agrees(finding, wanted):
    said = f"{finding.message} {finding.remedy}"
    return (
        finding.where == wanted["where"]
        and list(finding.pieces) == wanted.get("pieces", list(finding.pieces))
        and finding.severity == wanted.get("severity", finding.severity)
        and wanted.get("says", "") in said
        and ("measured" not in wanted or finding.measured == pytest.approx(wanted["measured"], abs=0.02))
    )


@pytest.mark.parametrize("path", PATHS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_case(path):
    found, expect = findings(path)
    assert bool(expect) == path.stem.startswith("fail")
    told = [str(f.message) for f in found]
    assert len(found) == len(expect), told
    for wanted in expect:
        assert any(agrees(finding, wanted) for finding in found), (wanted, told)


def test_every_rule_has_a_case_that_passes_and_one_that_fails():
    names = {rule.RULE for rule in RULES}
    stems = {name: [path.stem for path in PATHS if path.parent.name == name] for name in names}
    assert {path.parent.name for path in PATHS} == names
    assert all(any(stem.startswith("pass") for stem in own) for own in stems.values())
    assert {name for name, own in stems.items() if not any(s.startswith("fail") for s in own)} == BY_FAULT
