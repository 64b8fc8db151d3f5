"""``trimwright photo``: the finished roof on the customer's own photograph."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import told

if TYPE_CHECKING:
    from ..photo.placed import Placed
    from ..words.speaker import Speaker


def photo(
    scene: SceneFile,
    beside: Annotated[
        bool, typer.Option("--beside", help="Put the photograph as it was on the left.")
    ] = False,
    output: Annotated[
        Path | None, output_option("Picture to write; out/SCENE-photo.png unless given.")
    ] = None,
) -> None:
    """Draw the finished roof of SCENE onto the photograph that it names."""
    with told(scene):
        import numpy as np
        from PIL import Image

        from trimwright.model.errors import Problem, SceneError
        from trimwright.model.message import message

        from ..photo.drawn import before_and_after
        from ..photo.placed import place
        from ..render.png import write_png
        from ..words.speaker import speaker_of
        from .steps import steps_shown
        from .work import laid_out

        path = output or Path("out", f"{scene.stem}-photo.png")
        with steps_shown(scene) as steps:
            layout, _ = laid_out(scene)
            spec = layout.scene.photo
            if spec is None:
                words = message("the scene names no photograph; write file and point under it")
                raise SceneError(Problem(words, ("photo",), scene.name))
            steps.now(message("where the camera stood"))
            placed = place(layout, spec, scene.parent)
            steps.now(message("picture"))
            before, after = before_and_after(placed, layout, scene.parent)
            picture = np.concatenate([before, after], axis=1) if beside else after
            with output_file(path, ".png") as draft:
                write_png(Image.fromarray(picture), draft)
        _tell(placed, speaker_of(layout.scene))
        typer.echo(printable(str(path)))


def _tell(placed: Placed, say: Speaker) -> None:
    """Print how well the taps agree, which of them looks wrong, and how many cameras fit."""
    chosen = placed.chosen
    scale = placed.photograph.scale
    typer.echo(say("The taps agree to {misfit} pixels.", misfit=f"{chosen.misfit / scale:.1f}"))
    for number, (point, miss) in enumerate(zip(placed.spec.point, chosen.misses / scale, strict=True)):
        corner = ", ".join(point.corner)
        if number == chosen.wrong:
            words = "{corner}: {miss} pixels off; this tap is left out, for the others agree without it"
            typer.echo(say(words, corner=corner, miss=f"{miss:.0f}"))
        else:
            typer.echo(say("{corner}: {miss} pixels off", corner=corner, miss=f"{miss:.1f}"))
    if len(placed.solved) > 1:
        typer.echo(
            say(
                "{count} cameras fit these taps; this is no. {chosen}. Choose another with photo.choose, or tap more.",
                count=len(placed.solved),
                chosen=placed.spec.choose,
            )
        )
