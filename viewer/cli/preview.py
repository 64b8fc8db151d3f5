"""``trimwright preview``: the whole job, into one folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .arguments import SceneFile, output_option
from .place import output_folder
from .problems import lines_of, told

if TYPE_CHECKING:
    from ..display.stage import Stage
    from .steps import Steps
    from .work import Work


def preview(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("Folder to write to; out/SCENE unless given.")] = None,
) -> None:
    """Write pictures, report, 3D model, page, papers and lists of SCENE."""
    with told():
        from ..report.tables import console, print_summary
        from ..report.words import CAUTIONS
        from .steps import steps_shown
        from .work import status, worked_out

        folder = output or Path("out", scene.stem)
        with steps_shown() as steps:
            steps.now("laying out")
            work = worked_out(scene)
            with output_folder(folder) as draft:
                wanting = _write(work, draft, steps)
        to = console()
        print_summary(to, work.layout, work.findings)
        to.print(f"written to {folder}", soft_wrap=True)
        to.print(CAUTIONS, style="dim")
        if wanting:
            typer.echo(f"{wanting}. All else is written.", err=True)
    raise typer.Exit(status(work.findings))


def _write(work: Work, draft: Path, steps: Steps) -> str | None:
    """Write everything; return why there are no pictures when this machine cannot draw them."""
    from ..data.glb import write_glb
    from ..data.pieces_csv import piece_list
    from ..data.report import report_of, written
    from ..display.stage import stage_of
    from ..outputs.papers import write_papers
    from ..page.page import write_page
    from ..page.stills import stills_from

    layout, findings, takeoff = work.layout, work.findings, work.takeoff
    steps.now("report")
    (draft / "report.json").write_text(written(report_of(layout, findings, takeoff)), encoding="utf-8")
    (draft / "pieces.csv").write_text(piece_list(layout), encoding="utf-8", newline="")
    steps.now("3D model")
    stage = stage_of(layout, findings)
    write_glb(stage, layout, draft / "roof.glb")
    pictures, wanting = _draw(stage, draft / "pictures", steps)
    steps.now("page")
    write_page(layout, findings, draft / "roof.html", stills_from(stage, pictures) if pictures else None)
    steps.now("papers")
    finished = pictures / "finish.png" if pictures else None
    write_papers(layout, findings, draft, steps.part, takeoff=takeoff, date=work.date, picture=finished)
    return wanting


def _draw(stage: Stage, folder: Path, steps: Steps) -> tuple[Path | None, str | None]:
    """Draw every view; return the folder, or None and why this machine cannot draw."""
    from ..render.able import require_drawing
    from ..render.errors import PictureError

    steps.now("pictures")
    try:
        require_drawing()
    except PictureError as error:
        return None, lines_of(error)[0]
    from ..render.picture import render_all

    folder.mkdir()
    render_all(stage, folder, steps.part)
    return folder, None
