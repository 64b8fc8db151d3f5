"""``trimwright preview``: the whole job, into one folder."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import message

from ..whole_file import draft_in
from .arguments import SceneFile, output_option
from .output_place import output_folder
from .problems import ChoiceError, told

if TYPE_CHECKING:
    from ..outputs.work import Work
    from .steps import Steps


class Pictures(StrEnum):
    """Which pictures are drawn."""

    none = "none"
    few = "few"
    all = "all"


def preview(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("Folder to write to; out/SCENE unless given.")] = None,
    only: Annotated[
        str | None,
        typer.Option(
            "--only",
            metavar="PARTS",
            help="Parts to make anew, with commas between, such as page,packet; all others stay as they are.",
        ),
    ] = None,
    pictures: Annotated[
        Pictures, typer.Option("--pictures", help="None, a few of the whole roof, or all.")
    ] = Pictures.all,
) -> None:
    """Write pictures, report, 3D model, page, papers and lists of SCENE."""
    with told(scene):
        from ..report.tables import console, print_summary
        from ..report.words import CAUTIONS
        from ..words.speaker import speaker_of
        from .steps import steps_shown
        from .work import status, worked_out

        parts = _parts(only)
        folder, to = output or Path("out", scene.stem), console()
        with output_folder(folder, whole=only is None) as draft:
            with steps_shown(scene) as steps:
                steps.now(message("laying out"))
                work = worked_out(scene)
            print_summary(to, work.layout, work.findings)
            with steps_shown(scene) as steps:
                _write(replace(work, earlier=folder), parts, pictures, draft, steps)
        say = speaker_of(work.layout.scene)
        to.print(say("written to {folder}", folder=printable(str(folder))), soft_wrap=True)
        to.print(say(CAUTIONS), style="dim")
    raise typer.Exit(status(work.findings))


def _parts(only: str | None) -> Collection[str]:
    """Return the parts that are asked for.

    Raises:
        ChoiceError: there is no such part.
    """
    from ..outputs.formats import PARTS

    if only is None:
        return PARTS
    asked = [name.strip().lower() for name in only.split(",") if name.strip()]
    for name in asked:
        if name not in PARTS:
            raise ChoiceError("--only", name, PARTS)
    return asked


def _write(work: Work, parts: Collection[str], wanted: Pictures, draft: Path, steps: Steps) -> None:
    """Write parts of a scene into an empty folder; the pictures first, as others show some of them."""
    from ..outputs.formats import OUTPUTS, output
    from ..outputs.write import write_outputs

    chosen = [each for each in OUTPUTS if each.part in parts and not each.asked]
    pictures = output("pictures/*.png")
    views = {"none": (), "few": work.stage.few, "all": work.stage.album}[wanted]
    if pictures in chosen:
        chosen.remove(pictures)
        write_outputs([pictures], replace(work, views=views), draft, steps.part)
    with draft_in(draft) as aside:
        if views and "page" in parts:
            work = replace(work, stills=_stills(work, draft / "pictures", steps))
        if views and "packet" in parts:
            work = replace(work, cover=_cover(work, draft / "pictures", aside))
        write_outputs(chosen, work, draft, steps.part)


def _stills(work: Work, pictures: Path, steps: Steps) -> dict[str, bytes]:
    """Return the page's pictures: made smaller if they are drawn already."""
    from ..page.stills import stills_from, stills_of

    return stills_from(work.stage, pictures) if pictures.exists() else stills_of(work.stage, steps.part)


def _cover(work: Work, pictures: Path, aside: Path) -> Path:
    """Return the file of the packet's picture: drawn into a folder aside if it is not drawn already."""
    from ..render.picture import render

    drawn = pictures / "finish.png"
    if not drawn.exists():
        drawn = aside / "finish.png"
        render(work.stage, "finish", drawn)
    return drawn
