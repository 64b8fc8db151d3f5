"""``trimwright buy``: what to buy, and which piece comes out of which length."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable
from trimwright.model.message import message

from .arguments import SceneFile, output_option
from .output_place import output_folder
from .problems import speaker_in, told

if TYPE_CHECKING:
    from rich.console import Console

    from trimwright.model.layout import Layout
    from trimwright.model.takeoff.record import Takeoff


class Least(StrEnum):
    """What to buy least of."""

    metal = "metal"
    lengths = "lengths"
    money = "money"


def buy(
    scene: SceneFile,
    output: Annotated[Path | None, output_option("Folder to write to; out/SCENE-buy unless given.")] = None,
    least: Annotated[
        Least | None, typer.Option("--least", help="What to buy least of; metal unless the scene says.")
    ] = None,
    seconds: Annotated[
        float, typer.Option("--seconds", min=0.0, help="How long the search for cutting plans may take.")
    ] = 20.0,
    nest: Annotated[
        bool, typer.Option("--nest", help="Write a DXF of every length with its pieces, too.")
    ] = False,
) -> None:
    """Say what to buy for SCENE, and write it as CSV, XLSX and a cutting diagram."""
    with told(scene):
        from ..outputs.formats import FOLDER, bought_by
        from ..outputs.write import write_outputs
        from ..report.tables import console
        from .steps import steps_shown
        from .work import worked_out

        folder = output or Path("out", f"{scene.stem}-buy")
        with steps_shown(scene) as steps:
            steps.now(message("reading, laying out, and what to buy"))
            work = worked_out(scene, least.value if least else None, seconds, remedies=False)
            with output_folder(folder) as draft:
                write_outputs(bought_by(nest), work, draft, steps.part, FOLDER)
        _print(console(), work.layout, work.takeoff)
        typer.echo(speaker_in(scene)("written to {folder}", folder=printable(str(folder))))


def _print(to: Console, layout: Layout, takeoff: Takeoff) -> None:
    """Print every list but the longest, and how good the cutting plans are known to be."""
    from rich import box
    from rich.table import Table

    from ..buy.lists import BY_SPREADSHEET, lengths_list, lists_of, noted, proofs, texts
    from ..words.speaker import speaker_of

    say = speaker_of(layout.scene)
    to.print(layout.scene.title, style="bold")
    lists = [each for each in lists_of(layout, takeoff) if each.key not in BY_SPREADSHEET]
    for each in [*lists, lengths_list(layout, takeoff)]:
        table = Table(
            box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, title=say(each.name), title_justify="left"
        )
        for place, field in enumerate(each.fields):
            right = place and field.kind != "text"
            table.add_column(say(field.name), overflow="fold", justify="right" if right else "left")
        for row in texts(each, say):
            table.add_row(*row)
        to.print(table)
        if each.notes:
            to.print(noted(each, say), highlight=False)
        to.print()
    for proof in proofs(takeoff):
        to.print(say(proof))
