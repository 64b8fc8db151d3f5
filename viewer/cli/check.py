"""``trimwright check``: what is wrong with a layout, or with many, without drawing anything."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .problems import speaker_in, told

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
) -> None:
    """Say what is wrong with the layout of SCENE; of several scenes, in one table."""
    with told(scenes[0]):
        status = _one(scenes[0], json) if len(scenes) == 1 else _many(scenes, json, jobs)
    raise typer.Exit(status)


def _one(scene: Path, json: bool) -> int:
    """Print all that is found in one scene, and return the exit status."""
    from trimwright.model.checks.groups import groups_of

    from ..report.terms import told_first
    from ..report.words import SEVERITY, UNDER, group_told, totals
    from ..words.speaker import speaker_of
    from .work import laid_out, status

    layout, findings = laid_out(scene)
    if json:
        from ..data.report import report_of, written

        typer.echo(written(report_of(layout, findings)), nl=False)
        return status(findings)
    say = speaker_of(layout.scene)
    for term in told_first(layout, findings, say.tape):
        typer.echo(say(term))
    widest = max(len(say(word)) for word in SEVERITY.values())
    for group in groups_of(findings):
        severity, words = say(SEVERITY[group[0].severity]), say(group_told(group, say.tape))
        under = "" if group[0].cause is None else UNDER
        typer.echo(f"{under}{severity:<{widest}} {group[0].rule}  {words}")
    typer.echo(say(totals(findings)))
    return status(findings)


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
