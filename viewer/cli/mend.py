"""Mending: a better scene written beside the scene, with every remedy made that helps, and what was changed."""

from __future__ import annotations

from pathlib import Path

import typer

from trimwright.model.checks.groups import marks_of
from trimwright.model.mend.mend import Mended, mend
from trimwright.model.mend.trial import with_changes
from trimwright.model.message import Listed, counted, message

from ..app.scene_text import with_changes as with_changes_in
from ..report.changes import changes_told
from ..report.words import SEVERITY
from ..words.speaker import Speaker, speaker_of
from .check_printed import print_checked
from .output_place import better_path, output_file
from .problems import placed_in
from .steps import steps_shown
from .work import draft_at, status


def mended(scene: Path, output: Path | None, json: bool) -> int:
    """Write the better scene, print what was changed and what is left, and return the exit status of the better one.

    Raises:
        TrimwrightError: The scene cannot be read or built, or the better one not be written.
    """
    path = better_path(scene, output)
    with steps_shown(scene) as steps:
        steps.now(message("trying remedies"))
        with placed_in(scene):
            found = mend(draft_at(scene))
        text = scene.read_text(encoding="utf-8-sig")
        with output_file(path, ".toml") as draft:
            for step in found.steps:
                text = with_changes_in(text, step.changes)
            draft.write_text(text, encoding="utf-8")
    after = found.after
    findings = with_changes(after)
    if not json:
        _print(found, bool(findings), speaker_of(after.layout.scene))
    print_checked(after.layout, findings, json)
    if not json:
        typer.echo(path)
    return status(findings)


def _print(found: Mended, left: bool, say: Speaker) -> None:
    """Print each change that was kept, and what it removed; or, without any, whether something is ``left``."""
    for step in found.steps:
        first = step.group[0]
        told = message(
            "{severity} {rule}, {marks}: {changes}",
            severity=SEVERITY[first.severity],
            rule=first.rule,
            marks=Listed(marks_of(step.group), "comma"),
            changes=changes_told(step.changes),
        )
        typer.echo(say(told))
    if found.steps:
        done = counted(
            "{count} change made, each tried by itself; what is left:",
            "{count} changes made, each tried by itself; what is left:",
            count=len(found.steps),
        )
    elif left:
        done = message("No change that was tried helps; what is left:")
    else:
        done = message("Nothing to mend: the scene is written as it is.")
    typer.echo(say(done))
