"""From the file of a scene to its layout and findings: what every command begins with."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from .problems import placed_in

if TYPE_CHECKING:
    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout


def laid_out(path: Path) -> tuple[Layout, tuple[Finding, ...]]:
    """Return the layout of the scene at ``path``, and everything that the rules find in it.

    Raises:
        TrimwrightError: The scene cannot be read or built; each problem's line begins with the file's name.
    """
    from trimwright.model.checks.run import check
    from trimwright.model.pipeline import build
    from trimwright.model.scene.read import read_scene

    scene = read_scene(path)
    with placed_in(path):
        layout = build(scene)
        return layout, check(layout)


def status(findings: Sequence[Finding]) -> int:
    """Return the exit status: 1 when a finding is an error that nobody accepted, else 0."""
    return int(any(finding.severity == "error" for finding in findings))
