"""``trimwright improve``: the better layout of a roof, found, shown beside the one it has, and written as a scene."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimwright.model.measures import printable

from .arguments import SceneFile, output_option
from .output_place import better_path, output_file
from .problems import placed_in, told

if TYPE_CHECKING:
    from trimwright.model.improve.search import Improved


def improve(
    scene: SceneFile,
    output: Annotated[
        Path | None, output_option("Scene to write; out/SCENE-better.toml unless given.")
    ] = None,
) -> None:
    """Search for a better layout of SCENE, and write it as a scene of its own."""
    with told(scene):
        from trimwright.model.improve.search import improve as searched
        from trimwright.model.message import message

        from ..app.scene_text import with_changes
        from ..report.improved import improved_table, told_changes
        from ..report.tables import console
        from ..words.speaker import speaker_of
        from .steps import steps_shown
        from .work import draft_at

        path = better_path(scene, output)
        with steps_shown(scene) as steps:
            trying = message("trying layouts")
            with placed_in(scene):
                found = searched(
                    draft_at(scene), lambda done, most: steps.part(trying, min(done, most), most)
                )
            text = scene.read_text(encoding="utf-8-sig")
            with output_file(path, ".toml") as draft:
                draft.write_text(with_changes(text, found.changes), encoding="utf-8")
            _draw(found, path.with_suffix(".png"))
        asked = found.before.layout.scene
        say = speaker_of(asked)
        to = console()
        to.print(asked.title, style="bold")
        to.print(improved_table(found, say))
        for line in told_changes(found, say):
            to.print(line, soft_wrap=True)
        typer.echo(printable(str(path)))


def _draw(found: Improved, path: Path) -> None:
    """Draw both layouts beside each other, run by run."""
    from ..render.compare import render_compare
    from ..words.speaker import speaker_of

    say = speaker_of(found.before.layout.scene)
    layouts = {say("before"): found.before.layout, say("after"): found.after.layout}
    with output_file(path, ".png") as draft:
        render_compare(layouts, draft)
