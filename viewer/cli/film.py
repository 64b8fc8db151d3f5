"""``trimwright film``: a roof set piece by piece, as a moving picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.measures import printable

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import told


def film(
    scene: SceneFile,
    output: Annotated[
        Path | None, output_option("Film to write, .mp4 or .gif; out/SCENE.gif unless given.")
    ] = None,
    view: Annotated[
        str | None,
        typer.Option("--view", help="View to film from; from the front and from behind unless given."),
    ] = None,
    width: Annotated[
        int, typer.Option("--width", min=320, max=1920, help="Width of the picture, pixels.")
    ] = 1280,
) -> None:
    """Show how SCENE is set, piece by piece, in a film."""
    with told(scene):
        path = output or Path("out", f"{scene.stem}.gif")
        from ..film.write import check_kind

        check_kind(path)
        from ..display.stage import stage_of
        from ..film.frames import pictures_of
        from ..film.write import write_film
        from .steps import steps_shown
        from .work import laid_out

        layout, findings = laid_out(scene)
        stage = stage_of(layout, findings)
        size = (width // 4 * 4, round(width * 0.52 / 2) * 2)
        point = None if view is None else stage.view(view)
        with output_file(path, path.suffix.lower()) as draft, steps_shown(scene) as steps:
            write_film(pictures_of(layout, stage, size, point, steps.part), draft)
        typer.echo(printable(str(path)))
