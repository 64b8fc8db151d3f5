"""A few pictures for browsers that cannot draw in three dimensions."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING

from trimwright.model.message import message

from ..display.stage import Stage
from ..display.view import file_name
from ..words.progress import Progress, nobody
from ..words.speaker import speaker_of

if TYPE_CHECKING:
    from PIL.Image import Image

SIZE = (1000, 625)
"""Width and height, pixels."""

QUALITY = 72
"""Of the JPEG."""

NAMES = ("street", "bare", "bare back")
"""Views that a person without the view itself needs most."""


def stills_of(stage: Stage, progress: Progress = nobody) -> dict[str, bytes]:
    """Return JPEG pictures of the roof by their titles.

    Args:
        stage: What is seen.
        progress: Told of each picture.
    """
    from ..render.picture import drawn

    stills, say = {}, speaker_of(stage.scene)
    for number, name in enumerate(NAMES, 1):
        progress(message("picture {view}", view=name), number, len(NAMES))
        view = stage.viewpoints[name]
        stills[say(view.title)] = _jpeg(drawn(stage, view, SIZE))
    return stills


def stills_from(stage: Stage, folder: Path) -> dict[str, bytes]:
    """Return the same from a folder in which the pictures of the stage lie."""
    from PIL.Image import open as opened

    stills, say = {}, speaker_of(stage.scene)
    for name in NAMES:
        with opened(folder / file_name(name)) as picture:
            picture.thumbnail(SIZE)
            stills[say(stage.viewpoints[name].title)] = _jpeg(picture)
    return stills


def _jpeg(picture: Image) -> bytes:
    file = io.BytesIO()
    picture.convert("RGB").save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()
