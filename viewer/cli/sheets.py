"""``trimwright sheets``: the packet for the site, as one PDF."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .arguments import SceneFile, output_option
from .place import output_file
from .problems import lines_of, placed_in, told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout


class PaperSize(StrEnum):
    """Sizes of paper."""

    letter = "letter"
    a4 = "a4"


PaperOption = Annotated[PaperSize, typer.Option("--paper", help="Size of the pages.")]


def sheets(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("PDF to write; out/SCENE.pdf unless given.")] = None,
    paper: PaperOption = PaperSize.letter,
) -> None:
    """Write plan, elevations, cut sheets, templates and lists of SCENE as one PDF."""
    with told():
        from ..buy.timed import timed_takeoff
        from ..drawings.leaf import Imprint
        from ..drawings.packet import bind, write_packet
        from .steps import steps_shown
        from .work import laid_out, status

        path = output or Path("out", f"{scene.stem}.pdf")
        with steps_shown() as steps:
            steps.now("reading and laying out")
            layout, findings = laid_out(scene)
            imprint = Imprint(layout.scene.title, date_of(scene))
            with output_file(path, ".pdf") as draft:
                steps.now("cover picture")
                picture, missing = _cover_picture(layout, findings, draft.parent / "cover.png")
                steps.now("what to buy")
                with placed_in(scene):
                    takeoff = timed_takeoff(layout)
                packet = bind(layout, findings, takeoff, imprint, paper.value, picture, steps.part)
                steps.now("writing")
                write_packet(packet, draft)
        if missing:
            typer.echo(f"no picture on the cover: {missing}", err=True)
        typer.echo(f"{path} ({len(packet.pages)} pages)")
    raise typer.Exit(status(findings))


def date_of(scene: Path) -> str:
    """Return the day on which a scene's file was written, as ``2026-05-31``."""
    return date.fromtimestamp(scene.stat().st_mtime).isoformat()


def _cover_picture(layout: Layout, findings: Sequence[Finding], path: Path) -> tuple[Path | None, str | None]:
    """Draw the finished roof to ``path``; return it, or None and why this machine cannot draw."""
    from ..render.errors import PictureError

    try:
        from ..display.stage import stage_of
        from ..render.picture import render

        render(stage_of(layout, findings), "finish", path, (1500, 940))
    except PictureError as error:
        return None, lines_of(error)[0]
    return path, None
