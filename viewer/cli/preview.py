"""``trimwright preview``: the whole job, into one folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .arguments import SceneFile, output_option
from .place import output_folder
from .problems import lines_of, told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimwright.model.checks.record import Finding
    from trimwright.model.layout import Layout

    from ..display.stage import Stage
    from .steps import Steps


def preview(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("Folder to write to; out/SCENE unless given.")] = None,
) -> None:
    """Write pictures, report, 3D model and piece list of SCENE, and print what matters."""
    with told():
        from ..report.tables import console, print_summary
        from ..report.words import CAUTIONS
        from .steps import steps_shown
        from .work import laid_out, status

        folder = output or Path("out", scene.stem)
        with steps_shown() as steps:
            steps.now("reading and laying out")
            layout, findings = laid_out(scene)
            with output_folder(folder) as draft:
                stage = _write_lists(layout, findings, draft, steps)
                missing = _write_pictures(stage, draft / "pictures", steps)
        to = console()
        print_summary(to, layout, findings)
        to.print(f"written to {folder}", soft_wrap=True)
        to.print(CAUTIONS, style="dim")
        if missing:
            typer.echo(f"no pictures: {missing} All else is written.", err=True)
    raise typer.Exit(status(findings))


def _write_lists(layout: Layout, findings: Sequence[Finding], draft: Path, steps: Steps) -> Stage:
    """Write everything that needs no picture, and return what the pictures show."""
    from ..display.stage import stage_of
    from ..report.glb import write_glb
    from ..report.piece_list import piece_list
    from ..report.report import report_of, written

    steps.now("report")
    (draft / "report.json").write_text(written(report_of(layout, findings)), encoding="utf-8")
    (draft / "pieces.csv").write_text(piece_list(layout), encoding="utf-8", newline="")
    steps.now("3D model")
    stage = stage_of(layout, findings)
    write_glb(stage, layout, draft / "roof.glb")
    return stage


def _write_pictures(stage: Stage, draft: Path, steps: Steps) -> str | None:
    """Write a picture of every view; return why there are none when this machine cannot draw."""
    from ..render.errors import PictureError

    steps.now("pictures")
    draft.mkdir()
    try:
        from ..render.picture import render_all

        render_all(stage, draft, steps.part)
    except PictureError as error:
        for half in draft.iterdir():
            half.unlink()
        return lines_of(error)[0]
    return None
