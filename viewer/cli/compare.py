"""``trimwright compare``: the starting rules side by side, in a table and one picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.measures import printable

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import placed_in, told


def compare(
    scene: SceneFile,
    output: Annotated[
        Path | None, output_option("Picture to write; out/SCENE-starts.png unless given.")
    ] = None,
) -> None:
    """Lay the starting rules side by side for SCENE."""
    with told(scene):
        from ..render.compare import render_compare
        from ..report.starts import SET_ASIDE, layouts_by_start, placed_by_hand, starts_table
        from ..report.tables import console
        from ..words.speaker import speaker_of
        from .work import scene_at

        asked = scene_at(scene)
        with placed_in(scene):
            layouts = layouts_by_start(asked)
            table = starts_table(layouts)
        to = console()
        to.print(asked.title, style="bold")
        to.print(table)
        if placed_by_hand(asked):
            to.print(speaker_of(asked)(SET_ASIDE))
        path = output or Path("out", f"{scene.stem}-starts.png")
        with output_file(path, ".png") as draft:
            render_compare(layouts, draft)
        typer.echo(printable(str(path)))
