"""``trimwright page``: a roof in one HTML file, to be looked at on any phone or computer, without a network."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .arguments import SceneFile
from .place import output_file
from .problems import told


def page(
    scene: SceneFile,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", help="Page to write; out/SCENE.html unless given.", show_default=False
        ),
    ] = None,
) -> None:
    """Write SCENE as one HTML file that opens offline."""
    with told():
        from ..page.page import write_page
        from .work import laid_out, status

        layout, findings = laid_out(scene)
        path = output or Path("out", f"{scene.stem}.html")
        with output_file(path, ".html") as draft:
            write_page(layout, findings, draft)
        typer.echo(path)
    raise typer.Exit(status(findings))
