"""``trimwright tape``: the form that is taken up to be filled in, as a PDF."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import counted

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import placed_in, told
from .sheets import PaperOption


def tape(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("PDF to write; out/SCENE-tape.pdf unless given.")] = None,
    paper: PaperOption = None,
) -> None:
    """Write a form to fill in on the roof of SCENE: what to tape there, in walking order."""
    with told(scene):
        from trimwright.model.roof.build import build_roof

        from ..drawings.paper.page import imprint_of
        from ..drawings.roof.taping_form import taping_form, taping_pdf
        from ..whole_file import write_whole
        from ..words.speaker import speaker_of
        from .work import scene_at

        asked = scene_at(scene)
        path = output or Path("out", f"{scene.stem}-tape.pdf")
        with placed_in(scene):
            roof = build_roof(asked.roof)
        imprint = imprint_of(asked, date.fromtimestamp(scene.stat().st_mtime).isoformat())
        pages = taping_form(roof, asked.accuracy, asked.roof.taped, imprint, paper)
        with output_file(path, ".pdf") as draft:
            write_whole(draft, taping_pdf(pages, imprint))
        written = counted(
            "{file} ({count} page)", "{file} ({count} pages)", count=len(pages), file=printable(str(path))
        )
        typer.echo(speaker_of(asked)(written))
