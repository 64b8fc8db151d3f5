"""A few pictures for browsers that cannot draw in three dimensions."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING

from ..display.stage import Stage

if TYPE_CHECKING:
    from PIL.Image import Image

SIZE = (1000, 625)
"""Width and height, pixels."""

QUALITY = 72
"""Of the JPEG."""

NAMES = ("street", "bare", "bare back")
"""Views that a person without the view itself needs most."""


def stills_of(stage: Stage) -> dict[str, bytes]:
    """Return JPEG pictures of the roof by their titles.

    Raises:
        PictureError: this machine cannot draw.
    """
    from ..render.picture import drawn

    views = [stage.viewpoints[name] for name in NAMES]
    return {view.title: _jpeg(drawn(stage, view, SIZE)) for view in views}


def stills_from(stage: Stage, folder: Path) -> dict[str, bytes]:
    """Return the same from a folder in which the pictures of the stage lie."""
    from PIL.Image import open as opened

    from ..render.picture import file_name

    stills = {}
    for name in NAMES:
        with opened(folder / file_name(name)) as picture:
            picture.thumbnail(SIZE)
            stills[stage.viewpoints[name].title] = _jpeg(picture)
    return stills


def _jpeg(picture: Image) -> bytes:
    file = io.BytesIO()
    picture.convert("RGB").save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()
