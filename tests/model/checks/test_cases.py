"""Every rule on small scenes: ``pass`` yields none of its findings, ``fail`` exactly the listed ones.

A case is a scene and, where it fails, a list ``expect``: where, and if it matters the pieces, the number
measured, the severity, and words that the message or the remedy says. A finding points at metal that it speaks of,
so that a pin stands where an eye finds the fault.
"""

import tomllib
from functools import cache
from pathlib import Path

import numpy as np
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


FAILING = [path for path in PATHS if path.stem.startswith("fail-")]
LAPS = [path for path in FAILING if path.parent.name.startswith("lap-")]
NEAR = 2.0
"""Inches: no more than a pin's own size on the picture of a house."""


def named(path):
    return f"{path.parent.name}/{path.stem}"


@cache
def looked_at(path):
    """Return a case's layout, what its rule finds in it, and what it expects."""
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    expect = raw.pop("expect", [])
    layout = build(scene_of(raw, path.name))
    return layout, [finding for finding in check(layout) if finding.rule == path.parent.name], expect


def agrees(finding, wanted):
    said = f"{finding.message} {finding.remedy}"
    return (
        finding.where == wanted["where"]
        and list(finding.pieces) == wanted.get("pieces", list(finding.pieces))
        and finding.severity == wanted.get("severity", finding.severity)
        and wanted.get("says", "") in said
        and ("measured" not in wanted or finding.measured == pytest.approx(wanted["measured"], abs=0.02))
    )


@pytest.mark.parametrize("path", PATHS, ids=named)
def test_case(path):
    _, found, expect = looked_at(path)
    assert bool(expect) == path.stem.startswith("fail")
    told = [str(f.message) for f in found]
    assert len(found) == len(expect), told
    for wanted in expect:
        assert any(agrees(finding, wanted) for finding in found), (wanted, told)


def far(finding, layout, mark):
    """Return how far a finding points from the box round a piece, inches."""
    corners = next(part for part in layout.parts if part.mark == mark).solid.vertices
    beyond = np.maximum(corners.min(axis=0) - finding.point, finding.point - corners.max(axis=0))
    return float(np.linalg.norm(np.maximum(beyond, 0.0)))


@pytest.mark.parametrize("path", FAILING, ids=named)
def test_a_finding_points_at_a_piece_that_it_names(path):
    layout, found, _ = looked_at(path)
    for finding in found:
        assert not finding.pieces or min(far(finding, layout, mark) for mark in finding.pieces) <= NEAR


@pytest.mark.parametrize("path", LAPS, ids=named)
def test_a_finding_about_a_lap_points_into_the_lap(path):
    layout, found, _ = looked_at(path)
    for finding in found:
        assert max(far(finding, layout, mark) for mark in finding.pieces) <= NEAR


@pytest.mark.parametrize("path", FAILING, ids=named)
def test_a_finding_points_at_the_edge_that_it_names(path):
    layout, found, _ = looked_at(path)
    edges = {edge.name: edge for edge in layout.roof.edges}
    for finding in found:
        if finding.where in edges:
            edge = edges[finding.where]
            share = (finding.point - edge.start) @ edge.direction
            foot = edge.start + np.clip(share, 0.0, edge.length) * edge.direction
            assert np.linalg.norm(finding.point - foot) <= 12


def test_every_rule_has_a_case_that_passes_and_one_that_fails():
    names = {rule.RULE for rule in RULES}
    stems = {name: [path.stem for path in PATHS if path.parent.name == name] for name in names}
    assert {path.parent.name for path in PATHS} == names
    assert all(any(stem.startswith("pass") for stem in own) for own in stems.values())
    assert {name for name, own in stems.items() if not any(s.startswith("fail") for s in own)} == BY_FAULT
