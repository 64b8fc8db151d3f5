"""From the file of a scene to its layout, findings and takeoff: what the commands begin with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from .problems import placed_in

if TYPE_CHECKING:
    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout
    from trimwright.model.takeoff.record import Takeoff


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """A scene, worked out.

    Attributes:
        layout: Its layout.
        findings: What is wrong with it.
        takeoff: What to buy for it.
        date: Day on which its file was written, as ``2026-05-31``.
    """

    layout: Layout
    findings: tuple[Finding, ...]
    takeoff: Takeoff
    date: str


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


def worked_out(path: Path) -> Work:
    """Return the layout of the scene at ``path`` with its findings and what to buy.

    Raises:
        TrimwrightError: The scene cannot be read or built, or there is too little stock.
    """
    from ..buy.timed import timed_takeoff

    layout, findings = laid_out(path)
    with placed_in(path):
        takeoff = timed_takeoff(layout)
    return Work(layout, findings, takeoff, date.fromtimestamp(path.stat().st_mtime).isoformat())


def status(findings: Sequence[Finding]) -> int:
    """Return the exit status: 1 when a finding is an error that nobody accepted, else 0."""
    return int(any(finding.severity == "error" for finding in findings))
