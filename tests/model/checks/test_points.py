"""Where a finding points: at metal that it speaks of, so that a pin stands where an eye finds the fault."""

import tomllib
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

PATHS = sorted((Path(__file__).parent / "cases").glob("*/fail-*.toml"))
LAPS = [path for path in PATHS if path.parent.name.startswith("lap-")]
NEAR = 2.0
"""Inches: no more than a pin's own size on the picture of a house."""


@cache
def found(path: Path) -> tuple[Layout, tuple[Finding, ...]]:
    """Return a case's layout, and what its rule finds in it."""
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    raw.pop("expect")
    layout = build(scene_of(raw, path.name))
    return layout, tuple(finding for finding in check(layout) if finding.rule == path.parent.name)


def far(finding: Finding, layout: Layout, mark: str) -> float:
    """Return how far a finding points from the box round a piece, inches."""
    corners = next(part for part in layout.parts if part.mark == mark).solid.vertices
    beyond = np.maximum(corners.min(axis=0) - finding.point, finding.point - corners.max(axis=0))
    return float(np.linalg.norm(np.maximum(beyond, 0.0)))


@pytest.mark.parametrize("path", PATHS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_finding_points_at_a_piece_that_it_names(path: Path) -> None:
    layout, findings = found(path)
    for finding in findings:
        assert not finding.pieces or min(far(finding, layout, mark) for mark in finding.pieces) <= NEAR


@pytest.mark.parametrize("path", LAPS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_finding_about_a_lap_points_into_the_lap(path: Path) -> None:
    layout, findings = found(path)
    for finding in findings:
        assert max(far(finding, layout, mark) for mark in finding.pieces) <= NEAR


@pytest.mark.parametrize("path", PATHS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_finding_points_at_the_edge_that_it_names(path: Path) -> None:
    layout, findings = found(path)
    edges = {edge.name: edge for edge in layout.roof.edges}
    for finding in findings:
        if finding.where in edges:
            edge = edges[finding.where]
            share = (finding.point - edge.start) @ edge.direction
            foot = edge.start + np.clip(share, 0.0, edge.length) * edge.direction
            assert np.linalg.norm(finding.point - foot) <= 12
