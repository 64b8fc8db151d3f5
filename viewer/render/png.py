"""PNG: a finished picture as a file."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from trimwright.model.errors import Problem
from trimwright.model.message import message

from ..whole_file import write_whole
from .errors import PictureError

PACKED = 3
"""How hard it is packed, up to 9: more takes several times as long and saves next to nothing."""


def png_of(picture: Image.Image) -> bytes:
    """Return a picture as a PNG file."""
    file = io.BytesIO()
    picture.save(file, "PNG", compress_level=PACKED)
    return file.getvalue()


def write_png(picture: Image.Image, path: Path) -> None:
    """Write a picture to ``path``.

    Raises:
        PictureError: the file cannot be written.
    """
    try:
        write_whole(path, png_of(picture))
    except OSError as error:
        told = message("cannot be written: {reason}; give another place", reason=error.strerror or str(error))
        raise PictureError(Problem(told, file=str(path))) from None
