"""``trimwright check``: what is wrong with a layout, or with many, without drawing anything."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message

from .arguments import output_option
from .problems import speaker_in, told

if TYPE_CHECKING:
    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout

Scenes = Annotated[
    list[Path],
    typer.Argument(metavar="SCENE...", help="Scenes: TOML files.", show_default=False),
]


def check(
    scenes: Scenes,
    json: Annotated[
        bool,
        typer.Option("--json", help="Print the whole report as JSON; of several scenes, a line each."),
    ] = False,
    jobs: Annotated[int, typer.Option("--jobs", min=1, help="How many scenes are checked at once.")] = 1,
    mend: Annotated[
        bool, typer.Option("--mend", help="Write a scene in which every remedy that helps is made.")
    ] = False,
    output: Annotated[
        Path | None, output_option("Scene that --mend writes; out/SCENE-better.toml unless given.")
    ] = None,
) -> None:
    """Say what is wrong with the layout of SCENE; of several scenes, in one table."""
    with told(scenes[0]):
        if mend and len(scenes) > 1:
            raise TrimwrightError(message("--mend: takes one scene; give its file alone"))
        if mend:
            from .mend import mended

            status = mended(scenes[0], output, json)
        else:
            status = _one(scenes[0], json) if len(scenes) == 1 else _many(scenes, json, jobs)
    raise typer.Exit(status)


def _one(scene: Path, json: bool) -> int:
    """Print all that is found in one scene, and return the exit status."""
    from .work import remedied, status

    layout, findings = remedied(scene)
    print_checked(layout, findings, json)
    return status(findings)


def print_checked(layout: Layout, findings: Sequence[Finding], json: bool) -> None:
    """Print all that is found in a layout: a line a group, under the terms of the check, or as JSON."""
    from trimwright.model.checks.groups import groups_of

    from ..report.terms import told_first
    from ..report.words import SEVERITY, UNDER, group_told, totals
    from ..words.speaker import speaker_of

    if json:
        from ..data.report import report_of, written

        typer.echo(written(report_of(layout, findings)), nl=False)
        return
    say = speaker_of(layout.scene)
    for term in told_first(layout, findings, say.tape):
        typer.echo(say(term))
    widest = max(len(say(word)) for word in SEVERITY.values())
    for group in groups_of(findings):
        severity, words = say(SEVERITY[group[0].severity]), say(group_told(group, say.tape))
        under = "" if group[0].cause is None else UNDER
        typer.echo(f"{under}{severity:<{widest}} {group[0].rule}  {words}")
    typer.echo(say(totals(findings)))


def _many(scenes: list[Path], json: bool, jobs: int) -> int:
    """Print a row or a line for each scene, and return the highest exit status."""
    from ..report.tables import console
    from .many import check_all, line_of, table_of

    results = []
    for one in check_all(scenes, jobs, report=json):
        results.append(one)
        if json:
            typer.echo(line_of(one))
        for problem in () if json else one.problems:
            typer.echo(problem, err=True)
    if not json:
        console().print(table_of(results, speaker_in(scenes[0])))
    return max(one.status for one in results)
