"""``trimwright page``: a roof in one HTML file, to be looked at on any phone or computer, without a network."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import message

from .arguments import SceneFile
from .output_place import output_file
from .problems import told

if TYPE_CHECKING:
    from .steps import Steps


class Reader(StrEnum):
    """Who a page is for."""

    INSTALLER = "installer"
    CUSTOMER = "customer"


def page(
    scene: SceneFile,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", help="Page to write; out/SCENE.html unless given.", show_default=False
        ),
    ] = None,
    reader: Annotated[
        Reader,
        typer.Option("--for", help="Who reads it: all of the work, or the finished roof in its looks."),
    ] = Reader.INSTALLER,
    stills: Annotated[
        bool, typer.Option("--stills/--no-stills", help="Put in pictures for browsers that cannot draw.")
    ] = True,
) -> None:
    """Write SCENE as one HTML file that opens offline."""
    with told(scene):
        from ..whole_file import write_whole
        from .steps import steps_shown
        from .work import remedied, status

        name = scene.stem if reader is Reader.INSTALLER else f"{scene.stem}-for-customer"
        path = output or Path("out", f"{name}.html")
        with steps_shown(scene) as steps, output_file(path, ".html") as draft:
            steps.now(message("reading and laying out"))
            if reader is Reader.CUSTOMER:
                text, exit_status = _for_customer(scene, steps), 0
            else:
                from ..display.stage import stage_of
                from ..page.page import page_of
                from ..page.stills import stills_of

                layout, findings = remedied(scene)
                pictures = stills_of(stage_of(layout, findings), steps.part) if stills else None
                steps.now(message("page"))
                text, exit_status = page_of(layout, findings, pictures), status(findings)
            write_whole(draft, text.encode("utf-8"))
        typer.echo(printable(str(path)))
    raise typer.Exit(exit_status)


def _for_customer(scene: Path, steps: Steps) -> str:
    """Return the customer's page of a scene, with its looks, its photograph and the shop's logo."""
    from trimwright.model.scene.read import read_scene

    from ..customer.pictures import shown_page
    from .problems import placed_in

    asked = read_scene(scene)
    with placed_in(scene):
        return shown_page(asked, scene.parent, steps.part)
