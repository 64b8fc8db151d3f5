"""``trimwright offer``: what a roof comes to for a customer, as pages to sign or as numbers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import message

from .arguments import SceneFile, output_option
from .output_place import output_file
from .problems import placed_in, told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..offer.choice import Choice
    from .steps import Steps


def offer(
    scene: SceneFile,
    prices: Annotated[
        Path | None,
        typer.Option(
            "--prices",
            help="Price list, CSV or XLSX; the shop's of the scene unless given.",
            show_default=False,
        ),
    ] = None,
    json: Annotated[
        bool, typer.Option("--json", help="Print the numbers as JSON; pages are written only with -o.")
    ] = False,
    output: Annotated[Path | None, output_option("PDF to write; out/SCENE-offer.pdf unless given.")] = None,
) -> None:
    """Price SCENE from the shop's own list, and write an offer to sign as PDF."""
    with told(scene):
        from ..offer.as_json import numbers_of
        from ..offer.choice import choices_of
        from ..offer.price_list import list_for
        from .steps import steps_shown
        from .work import scene_at

        path = output or Path("out", f"{scene.stem}-offer.pdf")
        with steps_shown(scene) as steps:
            steps.now(message("reading and laying out"))
            asked = scene_at(scene)
            price_list = list_for(asked, scene.parent, prices)
            with placed_in(scene):
                choices = tuple(choices_of(asked, price_list))
            if output or not json:
                _write(choices, path, scene, steps)
        if json:
            typer.echo(numbers_of(choices), nl=False)
        else:
            typer.echo(printable(str(path)))


def _write(choices: Sequence[Choice], path: Path, scene: Path, steps: Steps) -> None:
    """Write the offer's pages with a picture of each choice."""
    from datetime import date

    from ..offer.writing import offer_pdf

    with output_file(path, ".pdf") as draft:
        day = date.fromtimestamp(scene.stat().st_mtime).isoformat()
        draft.write_bytes(offer_pdf(choices, scene.parent, day, steps.part))
