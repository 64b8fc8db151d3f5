"""``trimwright page``: a roof in one HTML file, to be looked at on any phone or computer, without a network."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.message import message

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
    stills: Annotated[
        bool, typer.Option("--stills/--no-stills", help="Put in pictures for browsers that cannot draw.")
    ] = True,
) -> None:
    """Write SCENE as one HTML file that opens offline."""
    with told(scene):
        from ..display.stage import stage_of
        from ..page.page import page_of
        from ..page.stills import stills_of
        from ..whole_file import write_whole
        from .steps import steps_shown
        from .work import laid_out, status

        path = output or Path("out", f"{scene.stem}.html")
        with steps_shown(scene) as steps:
            steps.now(message("reading and laying out"))
            layout, findings = laid_out(scene)
            with output_file(path, ".html") as draft:
                pictures = stills_of(stage_of(layout, findings), steps.part) if stills else None
                steps.now(message("page"))
                text = page_of(layout, findings, pictures)
                write_whole(draft, text.encode("utf-8"))
        typer.echo(path)
    raise typer.Exit(status(findings))
