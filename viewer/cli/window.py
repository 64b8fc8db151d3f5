"""``trimwright window``: the roof in a window of its own."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from .arguments import SceneFile
from .output_place import output_file
from .problems import told

if TYPE_CHECKING:
    from ..display.stage import Stage
    from ..display.view import ViewPoint


def window(scene: SceneFile) -> None:
    """Open SCENE in a window: turn it, read its pieces, set it in order; h lists the keys."""
    with told(scene):
        from ..display.view import file_name
        from ..render.picture import drawn
        from ..render.png import write_png
        from ..window.window import Window, require_screen
        from .work import remedied

        require_screen()

        def save(stage: Stage, view: ViewPoint, ending: str) -> Path:
            path = Path("out", f"{scene.stem}-{file_name(view.name)}")
            path = path.with_stem(path.stem + ending)
            with output_file(path, ".png") as draft:
                write_png(drawn(stage, view), draft)
            return path

        layout, findings = remedied(scene)
        Window(layout, findings, save).show()
