"""``trimwright picture``: one view of a roof as a picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import message

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import told


def picture(
    scene: SceneFile,
    view: Annotated[
        str | None, typer.Option("--view", help="Name of the view; without one, all names are listed.")
    ] = None,
    output: Annotated[
        Path | None, output_option("Picture to write; out/SCENE-VIEW.png unless given.")
    ] = None,
) -> None:
    """Draw one view of SCENE."""
    with told(scene):
        from ..display.stage import stage_of
        from ..display.view import file_name
        from ..words.speaker import speaker_of
        from .steps import steps_shown
        from .work import laid_out

        with steps_shown(scene) as steps:
            steps.now(message("reading and laying out"))
            layout, findings = laid_out(scene)
        stage = stage_of(layout, findings)
        if view is None:
            say = speaker_of(layout.scene)
            for name in stage.album:
                typer.echo(f"{name:<{max(map(len, stage.album)) + 3}}{say(stage.view(name).title)}")
            return
        name = stage.view(view).name
        from ..render.picture import render

        path = output or Path("out", f"{scene.stem}-{file_name(name)}")
        with output_file(path, ".png") as draft, steps_shown(scene) as steps:
            steps.now(message("picture {view}", view=name))
            render(stage, name, draft)
        typer.echo(printable(str(path)))
