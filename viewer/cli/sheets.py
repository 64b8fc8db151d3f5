"""``trimwright sheets``: the packet for the site, as one PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from .arguments import SceneFile, output_option
from .place import output_file
from .problems import told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout


COVER = (1500, 940)
"""Width and height of the cover's picture, pixels."""

PaperOption = Annotated[
    Literal["letter", "a4"] | None,
    typer.Option("--paper", help="Size of the pages; a4 unless given where the scene is in millimetres."),
]


def sheets(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("PDF to write; out/SCENE.pdf unless given.")] = None,
    paper: PaperOption = None,
) -> None:
    """Write plan, elevations, cut sheets, templates and lists of SCENE as one PDF."""
    with told(scene):
        from ..drawings.packet.packet import bind, packet_pdf
        from ..drawings.paper.page import Imprint
        from ..whole_file import write_whole
        from .steps import steps_shown
        from .work import status, worked_out

        path = output or Path("out", f"{scene.stem}.pdf")
        with steps_shown() as steps:
            steps.now("laying out")
            work = worked_out(scene)
            layout, findings = work.layout, work.findings
            imprint = Imprint(layout.scene.title, work.date)
            with output_file(path, ".pdf") as draft:
                steps.now("cover picture")
                picture, wanting = _cover_picture(layout, findings, draft.parent / "cover.png")
                packet = bind(layout, findings, work.takeoff, imprint, paper, picture, steps.part)
                steps.now("writing")
                write_whole(draft, packet_pdf(packet))
        if wanting:
            typer.echo(f"{wanting}. All else is written.", err=True)
        typer.echo(f"{path} ({len(packet.pages)} pages)")
    raise typer.Exit(status(findings))


def _cover_picture(layout: Layout, findings: Sequence[Finding], path: Path) -> tuple[Path | None, str | None]:
    """Draw the finished roof into ``path``; return it, or None and why this machine cannot draw."""
    from ..render.able import require_drawing
    from ..render.errors import PictureError

    try:
        require_drawing()
    except PictureError as error:
        return None, str(error)
    from ..display.stage import stage_of
    from ..render.picture import render

    render(stage_of(layout, findings), "finish", path, COVER)
    return path, None
