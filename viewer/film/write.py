"""Writing a film: as a GIF, which opens everywhere, or as an MP4, which is smaller and smoother."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from importlib.util import find_spec
from itertools import chain
from pathlib import Path

import numpy as np
from PIL import Image

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.message import message

from ..display.color_math import mix
from ..display.colors import SHORT
from ..display.trim_looks import LOOKS
from .caption import TRACK
from .frames import RATE, FilmPicture

SUFFIXES = (".mp4", ".gif")

BLACK, WHITE = (0, 0, 0), (255, 255, 255)
SHADES = ((BLACK, 0.65), (BLACK, 0.4), (BLACK, 0.2), (WHITE, 0.0), (WHITE, 0.25), (WHITE, 0.5))
"""How a hue looks in shade and in light: what it is mixed with, and how much."""


class FilmError(TrimwrightError):
    """A film of a kind that cannot be written here."""


def check_kind(path: Path) -> None:
    """Check, before anything is drawn, that a film can be written to ``path``.

    Raises:
        FilmError: its name ends in neither ``.mp4`` nor ``.gif``, or what writes an MP4 is not installed.
    """
    if path.suffix.lower() not in SUFFIXES:
        told = message("a film is an .mp4 or a .gif file; give a name that ends in one of them")
        raise FilmError(Problem(told, file=str(path)))
    if path.suffix.lower() == ".mp4" and not writes_mp4():
        told = message(
            "an MP4 needs imageio-ffmpeg; run pip install 'trimwright[film]', or give a name that ends in .gif"
        )
        raise FilmError(Problem(told, file=str(path)))


def writes_mp4() -> bool:
    """Return whether an MP4 can be written here."""
    return find_spec("imageio_ffmpeg") is not None


def write_film(pictures: Iterable[FilmPicture], path: Path) -> None:
    """Write a film to ``path``, which its caller replaces only when all is written.

    Raises:
        FilmError: see ``check_kind``.
    """
    check_kind(path)
    write = _write_gif if path.suffix.lower() == ".gif" else _write_mp4
    write(iter(pictures), path)


def _write_gif(pictures: Iterator[FilmPicture], path: Path) -> None:
    """Write a GIF that plays over and over; all pictures of one look share their 256 colors, so none flickers."""
    images, times = [], []
    palettes: dict[str, Image.Image] = {}
    for picture in pictures:
        if picture.look not in palettes:
            palettes[picture.look] = _palette(picture.image)
        images.append(picture.image.quantize(palette=palettes[picture.look], dither=Image.Dither.NONE))
        times.append(round(picture.seconds * 1000))
    images[0].save(path, "GIF", save_all=True, append_images=images[1:], duration=times, loop=0)


def _palette(image: Image.Image) -> Image.Image:
    """Return an image with 256 colors: those of ``image``, and those of the pieces that come later."""
    hues = [*(look.hue for look in LOOKS.values()), SHORT, TRACK]
    shades = [mix(hue, end, share) for hue in hues for end, share in SHADES]
    wide, high = image.size
    sample = image.copy()
    swatches = Image.fromarray(np.array([shades], dtype=np.uint8)).resize(
        (wide, high // 5), Image.Resampling.NEAREST
    )
    sample.paste(swatches, (0, high - high // 5))
    return sample.quantize(256)


def _write_mp4(pictures: Iterator[FilmPicture], path: Path) -> None:
    """Write an MP4 in H.264, in colors that every player knows."""
    import imageio_ffmpeg  # type: ignore[import-untyped]

    first = next(pictures)
    size = (first.image.width // 2 * 2, first.image.height // 2 * 2)
    writer = imageio_ffmpeg.write_frames(
        str(path),
        size,
        fps=RATE,
        codec="libx264",
        quality=None,
        macro_block_size=2,
        pix_fmt_out="yuv420p",
        output_params=["-crf", "20", "-preset", "medium", "-movflags", "+faststart"],
    )
    writer.send(None)
    try:
        for picture in chain([first], pictures):
            data = np.ascontiguousarray(np.asarray(picture.image)[: size[1], : size[0]]).tobytes()
            for _ in range(max(1, round(picture.seconds * RATE))):
                writer.send(data)
    finally:
        writer.close()
