"""``trimwright changes``: what becomes of metal that is already cut, once a roof is laid out otherwise."""

from __future__ import annotations

import json as as_json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .arguments import output_option
from .output_place import output_file
from .problems import placed_in, told

if TYPE_CHECKING:
    from trimwright.model.layout import Layout
    from trimwright.model.recut import Recut


def changes(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="The scene as it was.", show_default=False)],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="The scene as it is now.", show_default=False)],
    json: Annotated[bool, typer.Option("--json", help="Print it as JSON, and draw nothing.")] = False,
    output: Annotated[
        Path | None, output_option("Picture to write; out/NEW-changed.png unless given.")
    ] = None,
) -> None:
    """Say what changed from OLD to NEW: which pieces stay good, which are cut again, what to buy besides."""
    with told(new):
        from trimwright.model.recut import recut

        from ..report.recut import recut_told, recut_values
        from ..words.speaker import speaker_of

        before, after = _built(old), _built(new)
        with placed_in(new):
            found = recut(before, after)
        if json:
            typer.echo(as_json.dumps(recut_values(found), indent=1))
            return
        say = speaker_of(after.scene)
        for sentence in recut_told(found):
            typer.echo(say(sentence))
        if found.changed:
            path = output or Path("out", f"{new.stem}-changed.png")
            _draw(after, found, path)
            typer.echo(path)


def _built(path: Path) -> Layout:
    from trimwright.model.pipeline import build

    from .work import scene_at

    scene = scene_at(path)
    with placed_in(path):
        return build(scene)


def _draw(layout: Layout, found: Recut, path: Path) -> None:
    """Draw the roof with the metal marked that is not as it was."""
    from ..display.changed import changed_view
    from ..display.stage import stage_of
    from ..render.picture import drawn
    from ..render.png import write_png

    view = changed_view(layout, found.changed)
    with output_file(path, ".png") as draft:
        write_png(drawn(stage_of(layout), view), draft)
