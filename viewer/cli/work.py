"""From the file of a scene to its layout, findings and takeoff: what the commands begin with."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from .asked_language import in_asked_language
from .problems import placed_in

if TYPE_CHECKING:
    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout
    from trimwright.model.scene.draft import Draft
    from trimwright.model.scene.schema import Scene
    from trimwright.model.takeoff.plan import Objective

    from ..outputs.work import Work


def scene_at(path: Path) -> Scene:
    """Return the scene at ``path``, in the language that the command was given, or else its own.

    Raises:
        TrimwrightError: The scene cannot be read; each problem's line begins with the file's name.
    """
    from trimwright.model.scene.read import read_scene

    return in_asked_language(read_scene(path))


def draft_at(path: Path) -> Draft:
    """Return the tables of the scene at ``path``, in the language that the command was given, or else its own.

    Raises:
        TrimwrightError: It cannot be read; each problem's line begins with the file's name.
    """
    from trimwright.model.scene.draft import Change, draft_of

    language = scene_at(path).language
    draft = draft_of(path.read_text(encoding="utf-8-sig"), path.parent)
    own = draft.scene().language
    return draft if language == own else draft.changed([Change(("language",), list(language))])


def laid_out(path: Path) -> tuple[Layout, tuple[Finding, ...]]:
    """Return the layout of the scene at ``path``, and everything that the rules find in it.

    Raises:
        TrimwrightError: The scene cannot be read or built; each problem's line begins with the file's name.
    """
    from trimwright.model.checks.run import check
    from trimwright.model.pipeline import build

    scene = scene_at(path)
    with placed_in(path):
        layout = build(scene)
        return layout, check(layout)


def remedied(path: Path) -> tuple[Layout, tuple[Finding, ...]]:
    """Return the same, each finding with the change of the scene that was tried and removes it, where there is one.

    Raises:
        TrimwrightError: The scene cannot be read or built.
    """
    layout, findings = laid_out(path)
    if not findings:
        return layout, findings
    from trimwright.model.mend.trial import Tried, with_changes

    return layout, with_changes(Tried(draft_at(path), layout, findings))


def worked_out(
    path: Path, least: Objective | None = None, seconds: float | None = None, remedies: bool = True
) -> Work:
    """Return the layout of the scene at ``path`` with its findings and what to buy.

    Args:
        path: The scene.
        least: What to buy least of; what the scene says when left out.
        seconds: How long the search for cutting plans may take.
        remedies: Whether changes that remove findings are tried.

    Raises:
        TrimwrightError: The scene cannot be read or built, or there is too little stock.
    """
    from ..buy.timed_takeoff import PATIENCE, timed_takeoff
    from ..display.stage import stage_of
    from ..outputs.work import Work

    layout, findings = remedied(path) if remedies else laid_out(path)
    with placed_in(path):
        takeoff = timed_takeoff(layout, least, PATIENCE if seconds is None else seconds)
    day = date.fromtimestamp(path.stat().st_mtime).isoformat()
    return Work(layout, findings, takeoff, stage_of(layout, findings), day)


def status(findings: Sequence[Finding]) -> int:
    """Return the exit status: 1 when a finding is an error that nobody accepted, else 0."""
    return int(any(finding.severity == "error" for finding in findings))
