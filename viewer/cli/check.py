"""``trimwright check``: what is wrong with a layout, or with many, without drawing anything."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.errors import TrimwrightError
from trimwright.model.message import message

from .arguments import output_option
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
    from .check_printed import print_checked
    from .work import remedied, status

    layout, findings = remedied(scene)
    print_checked(layout, findings, json)
    return status(findings)


def _many(scenes: list[Path], json: bool, jobs: int) -> int:
    """Print a row or a line for each scene, and return the highest exit status."""
    from ..report.tables import console
    from .check_many import check_all, line_of, table_of

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
