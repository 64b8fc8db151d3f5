"""``trimwright roofs``: the buildings of a CityJSON file, and which of them can be laid out."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .problems import told


def roofs(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="A CityJSON file, or a CityJSON text sequence.")
    ],
    json: Annotated[bool, typer.Option("--json", help="Print all that is known of each as JSON.")] = False,
) -> None:
    """List the buildings of FILE, with their faces, kinds of edges and areas, and say which can be laid out."""
    with told():
        from ..report.buildings import buildings_in, buildings_table, written
        from ..report.tables import console

        found = buildings_in(file)
        if json:
            typer.echo(written(found), nl=False)
        else:
            console().print(buildings_table(found))
