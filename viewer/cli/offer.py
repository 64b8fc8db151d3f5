"""``trimwright offer``: what a roof comes to for a customer, as pages to sign or as numbers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.message import message

from .arguments import SceneFile, output_option
from .place import output_file
from .problems import placed_in, told

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..offer.choice import Choice
    from ..offer.pages import Sight
    from .steps import Steps

PICTURE = (1200, 760)
"""Width and height of a picture on the offer, pixels."""


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
        from ..offer.price_list import read_price_list
        from .steps import steps_shown
        from .work import scene_at

        path = output or Path("out", f"{scene.stem}-offer.pdf")
        with steps_shown(scene) as steps:
            steps.now(message("reading and laying out"))
            asked = scene_at(scene)
            shop = asked.shop
            listed = prices or (scene.parent / shop.prices if shop.prices else None)
            price_list = read_price_list(listed) if listed else None
            with placed_in(scene):
                choices = tuple(choices_of(asked, price_list))
            if output or not json:
                logo = scene.parent / shop.logo if shop.logo else None
                _write(choices, path, logo, scene, steps)
        if json:
            typer.echo(numbers_of(choices), nl=False)
        else:
            typer.echo(path)


def _write(choices: Sequence[Choice], path: Path, logo: Path | None, scene: Path, steps: Steps) -> None:
    """Write the offer's pages with a picture of each choice."""
    from datetime import date

    from ..drawings.ink.pdf import pdf_of
    from ..offer.pages import offer_pages

    with output_file(path, ".pdf") as draft:
        sights = _sights(choices, draft.parent, steps)
        steps.now(message("writing"))
        day = date.fromtimestamp(scene.stat().st_mtime).isoformat()
        pages = offer_pages(choices, sights, logo, day)
        draft.write_bytes(pdf_of(pages, pages[0].title))


def _sights(choices: Sequence[Choice], folder: Path, steps: Steps) -> list[Sight]:
    """Draw the finished roof in each look."""
    from ..display.stage import stage_of
    from ..offer.pages import Sight
    from ..render.picture import render

    sights = []
    for number, choice in enumerate(choices, 1):
        steps.part(message("pictures"), number, len(choices))
        file = folder / f"look-{number}.png"
        render(stage_of(choice.layout, ()), "finish", file, PICTURE)
        sights.append(Sight(file, choice.name))
    return sights
