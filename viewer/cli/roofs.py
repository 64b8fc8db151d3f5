"""``trimwright roofs``: the buildings of a CityJSON file, and which of them can be laid out."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.units import Tape

from .asked_language import asked_languages
from .problems import told


def roofs(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="A CityJSON file, or a CityJSON text sequence.")
    ],
    metric: Annotated[
        bool,
        typer.Option("--metric", help="Print square meters and degrees, not square feet and rises in 12."),
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Print all that is known of each as JSON.")] = False,
) -> None:
    """List the buildings of FILE, with their faces, kinds of edges and areas, and say which can be laid out."""
    with told():
        from ..report.buildings import buildings_in, buildings_table, written
        from ..report.tables import console
        from ..words.speaker import speaker

        found = buildings_in(file)
        if json:
            typer.echo(written(found), nl=False)
        else:
            tape = Tape("mm") if metric else Tape()
            console().print(buildings_table(found, speaker(asked_languages() or ["en"], tape)))
