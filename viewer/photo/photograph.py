"""A photograph: read upright and small enough, without its place data, with what it tells of the lens."""

from __future__ import annotations

import math
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageOps, UnidentifiedImageError
from scipy.ndimage import map_coordinates

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import Message, message

from .camera import Camera

Bytes = NDArray[np.uint8]

LARGEST = 60_000_000
"""Bytes of a file that is opened."""

MOST_PIXELS = 120_000_000
"""Pixels of a picture that is opened: more than any telephone takes."""

LONGEST = 2400
"""Pixels of the longer side that is kept."""

FILM = math.hypot(36.0, 24.0)
"""Diagonal of 35 mm film, millimeters: what a focal length is compared by (CIPA DCG-001, from memory)."""

EXIF, FILM_FOCAL = 0x8769, 0xA405
"""Tags of EXIF: its own table, and the focal length as that of 35 mm film."""


class PhotoError(TrimwrightError):
    """A photograph that cannot be used."""


@dataclass(frozen=True, slots=True, eq=False)
class Photograph:
    """A photograph.

    Attributes:
        pixels: ``(h, w, 3)``, upright.
        scale: Its pixels for each one of the file: 1, or less where it was made smaller.
        film_focal: Focal length as that of 35 mm film, millimeters; None where the file does not say.
    """

    pixels: Bytes
    scale: float
    film_focal: float | None

    @property
    def size(self) -> tuple[int, int]:
        """Width and height, pixels."""
        return (self.pixels.shape[1], self.pixels.shape[0])

    def focal(self, film_focal: float | None) -> float | None:
        """Return the focal length in pixels: of the length given, else of what the file says; None for neither."""
        length = film_focal or self.film_focal
        return None if not length else length / FILM * math.hypot(*self.size)


def read_photograph(path: Path) -> Photograph:
    """Return the photograph in a file.

    Raises:
        PhotoError: It cannot be read, or it is too large.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise _unfit(path, message("the file is larger than 60 MB; save the photograph smaller"))
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(path) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise _unfit(path, message("more than 120 million pixels; save the photograph smaller"))
                film_focal = image.getexif().get_ifd(EXIF).get(FILM_FOCAL)
                upright = ImageOps.exif_transpose(image).convert("RGB")
    except (OSError, UnidentifiedImageError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        reason = getattr(error, "strerror", None)
        told = (
            message("cannot be read: {reason}", reason=reason)
            if reason
            else message("no picture that can be read")
        )
        raise _unfit(path, told) from None
    scale = min(1.0, LONGEST / max(upright.size))
    if scale < 1:
        size = (round(upright.width * scale), round(upright.height * scale))
        upright = upright.resize(size, Image.Resampling.LANCZOS)
    return Photograph(np.asarray(upright), scale, float(film_focal) if film_focal else None)


def straightened(pixels: Bytes, camera: Camera) -> Bytes:
    """Return a photograph as a lens without distortion would have taken it."""
    if abs(camera.bend) < 1e-6:
        return pixels
    height, width = pixels.shape[:2]
    y, x = np.mgrid[0:height, 0:width].astype(float)
    off = np.stack([x - camera.middle[0], y - camera.middle[1]])
    half = np.linalg.norm(camera.middle)
    there = off * (1 + camera.bend * (off**2).sum(axis=0) / half**2)
    spots = [there[1] + camera.middle[1], there[0] + camera.middle[0]]
    bands = np.moveaxis(pixels, -1, 0)
    return np.stack([map_coordinates(band, spots, order=1, mode="nearest") for band in bands], axis=-1)


def _unfit(path: Path, told: Message) -> PhotoError:
    return PhotoError(Problem(told, file=str(path)))


def mask_for(path: Path, size: tuple[int, int]) -> Bytes:
    """Return a painted mask, ``(h, w)`` from 0 to 255, as large as a photograph of ``size``.

    Raises:
        PhotoError: It cannot be read.
    """
    try:
        with Image.open(path) as image:
            if image.width * image.height > MOST_PIXELS:
                raise _unfit(path, message("more than 120 million pixels; paint the mask smaller"))
            return np.asarray(image.convert("L").resize(size))
    except (OSError, UnidentifiedImageError, SyntaxError, ValueError, Image.DecompressionBombError):
        raise _unfit(path, message("no picture that can be read; paint the mask as a PNG")) from None
