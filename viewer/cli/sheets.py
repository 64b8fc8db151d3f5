"""``trimwright sheets``: the packet for the site, as one PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import counted, message

from ..drawings.paper.sizes import Paper
from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import told

PaperOption = Annotated[
    Paper | None,
    typer.Option("--paper", help="Size of the pages; a4 unless given where the scene is in millimeters."),
]


def sheets(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("PDF to write; out/SCENE.pdf unless given.")] = None,
    paper: PaperOption = None,
) -> None:
    """Write crew page, plan, elevations, sheets of the ends, lists and labels of SCENE as one PDF."""
    with told(scene):
        from ..drawings.packet.packet import bind, packet_pdf
        from ..drawings.paper.page import imprint_of
        from ..render.picture import render
        from ..whole_file import write_whole
        from ..words.speaker import speaker_of
        from .steps import steps_shown
        from .work import status, worked_out

        path = output or Path("out", f"{scene.stem}.pdf")
        with steps_shown(scene) as steps:
            steps.now(message("laying out"))
            work = worked_out(scene)
            layout, findings = work.layout, work.findings
            imprint = imprint_of(layout.scene, work.date)
            with output_file(path, ".pdf") as draft:
                steps.now(message("cover picture"))
                picture = draft.parent / "cover.png"
                render(work.stage, "finish", picture)
                packet = bind(layout, findings, work.takeoff, imprint, paper, picture, steps.part)
                steps.now(message("writing"))
                write_whole(draft, packet_pdf(packet, imprint.say))
        pages = counted(
            "{file} ({count} page)",
            "{file} ({count} pages)",
            count=len(packet.pages),
            file=printable(str(path)),
        )
        typer.echo(speaker_of(layout.scene)(pages))
    raise typer.Exit(status(findings))
