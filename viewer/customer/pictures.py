"""What the customer's page shows: a picture of each look, the photograph before and after, the shop's logo."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from trimwright.model.errors import Problem, SceneError
from trimwright.model.layout import Layout
from trimwright.model.message import message
from trimwright.model.pipeline import build
from trimwright.model.scene.dressed import dressed
from trimwright.model.scene.look import LookSpec
from trimwright.model.scene.schema import Scene

from ..display.stage import stage_of
from ..photo.drawn import before_and_after
from ..photo.placed import place
from ..render.picture import scenery
from ..words.progress import Progress, nobody
from ..words.speaker import speaker_of
from .colors_to_try import tries_of
from .page import ShownLook, customer_page_of

Bytes = NDArray[np.uint8]

STILL = (1000, 667)
"""Width and height of the picture of a look, pixels."""

QUALITY = 78
"""Of its JPEG."""

PHOTO_WIDE = 1500
"""Width of the photograph on the page at most, pixels."""

PHOTO_MOST = 1_000_000
"""Bytes that all pictures of the photograph may take together, so that the page can be sent."""

LOGO = 400
"""Pixels of the logo's longer side at most."""


def shown_page(scene: Scene, folder: Path, progress: Progress = nobody) -> str:
    """Return the customer's page of a scene.

    Args:
        scene: The scene, with its looks.
        folder: Where the files are that it names.
        progress: Told of each picture.

    Raises:
        TrimwrightError: It cannot be laid out, or a file that it names cannot be used.
    """
    layout = build(scene)
    looks = list(_looks(scene, layout, progress))
    before, afters = _on_photo([look.layout for look in looks], folder, progress)
    if before is not None:
        looks = [replace(look, after=after) for look, after in zip(looks, afters, strict=True)]
    if not scene.look:
        tries = tries_of(scene, speaker_of(scene).alone())
        looks += [ShownLook(one.name, layout_in(one, layout)) for one in tries]
    progress(message("page"), 1, 1)
    return customer_page_of(looks, before, _logo(scene, folder))


def layout_in(look: LookSpec, layout: Layout) -> Layout:
    """Return a roof in one of its looks; only other panels lay it out anew, for a sheet's thickness is not seen."""
    scene = dressed(layout.scene, look)
    return build(scene) if look.panels else replace(layout, scene=scene)


def _looks(scene: Scene, layout: Layout, progress: Progress) -> Iterator[ShownLook]:
    """Yield the scene as it is, and then in each of its looks, with a picture."""
    for number, look in enumerate((None, *scene.look), 1):
        progress(message("pictures"), number, 1 + len(scene.look))
        one = layout if look is None else layout_in(look, layout)
        stage = stage_of(one)
        picture = scenery(stage, stage.viewpoints["street"], STILL)
        yield ShownLook("" if look is None else look.name, one, _jpeg(picture, QUALITY))


def _on_photo(
    layouts: Sequence[Layout], folder: Path, progress: Progress
) -> tuple[bytes | None, list[bytes]]:
    """Return the photograph as it was and with the roof of each layout; none where the scene names none."""
    spec = layouts[0].scene.photo
    if spec is None:
        return None, []
    placed = place(layouts[0], spec, folder)
    pictures: list[Image.Image] = []
    for number, one in enumerate(layouts, 1):
        progress(message("photograph"), number, len(layouts))
        before, after = before_and_after(placed, one, folder)
        pictures += [_smaller(after)] if pictures else [_smaller(before), _smaller(after)]
    for quality in range(84, 20, -8):
        made = [_jpeg(picture, quality) for picture in pictures]
        if sum(map(len, made)) <= PHOTO_MOST:
            break
    return made[0], made[1:]


def _smaller(pixels: Bytes) -> Image.Image:
    picture = Image.fromarray(pixels)
    picture.thumbnail((PHOTO_WIDE, PHOTO_WIDE))
    return picture


def _logo(scene: Scene, folder: Path) -> tuple[str, bytes] | None:
    """Return the shop's logo, small enough for a page; nothing of the file but its pixels goes along.

    Raises:
        SceneError: It cannot be read.
    """
    if scene.shop.logo is None:
        return None
    try:
        with Image.open(folder / scene.shop.logo) as picture:
            picture.thumbnail((LOGO, LOGO))
            file = io.BytesIO()
            picture.convert("RGBA").save(file, "PNG", optimize=True)
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        reason = re.sub(r"\s+", " ", getattr(error, "strerror", None) or str(error))[:120]
        told = message(
            "no picture that can be read: {reason}; give a PNG or JPEG beside the scene", reason=reason
        )
        raise SceneError(Problem(told, ("shop", "logo"))) from None
    return "image/png", file.getvalue()


def _jpeg(picture: Image.Image, quality: int) -> bytes:
    file = io.BytesIO()
    picture.convert("RGB").save(file, "JPEG", quality=quality, optimize=True)
    return file.getvalue()
