"""``trimwright preview``: the whole job, into one folder."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .arguments import SceneFile, output_option
from .place import output_folder
from .problems import told

if TYPE_CHECKING:
    from ..outputs.work import Work
    from .steps import Steps


def preview(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("Folder to write to; out/SCENE unless given.")] = None,
) -> None:
    """Write pictures, report, 3D model, page, papers and lists of SCENE."""
    with told(scene):
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
    from ..outputs.table import OUTPUTS, output
    from ..outputs.write import write_outputs
    from ..page.stills import stills_from
    from ..render.able import require_drawing
    from ..render.errors import PictureError

    pictures, wanting = output("pictures/*.png"), None
    try:
        require_drawing()
    except PictureError as error:
        wanting = str(error)
    else:
        write_outputs([pictures], work, draft, steps.part)
        folder = draft / "pictures"
        work = replace(work, cover=folder / "finish.png", stills=stills_from(work.stage, folder))
    others = [each for each in OUTPUTS if each is not pictures and not each.asked]
    write_outputs(others, work, draft, steps.part)
    return wanting
