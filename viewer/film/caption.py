"""The caption under a film: how far the work is, what is set now, and the usual cautions."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image, ImageDraw

from ..display.color_math import Color
from ..render.lettering import FAINT, INK, PAPER, font

STRIP = 0.135
"""Height of the caption, as a share of the picture's."""

BAR: Color = (0, 114, 178)
TRACK: Color = (221, 225, 226)


@dataclass(frozen=True, slots=True)
class FilmCaption:
    """What is written under one picture.

    Attributes:
        scene: Title of the scene.
        count: How far the work is: ``3 of 22``; may be empty.
        title: What is set.
        says: More about it.
        share: How much is set, from 0 to 1.
        caution: The usual cautions.
    """

    scene: str
    count: str
    title: str
    says: str
    share: float
    caution: str


def strip_height(high: int) -> int:
    """Return the height of the caption of a picture ``high`` pixels high."""
    return round(high * STRIP)


def write_caption(picture: Image.Image, caption: FilmCaption) -> None:
    """Write a caption along the foot of a picture."""
    wide, high = picture.size
    strip = strip_height(high)
    top, size = high - strip, strip * 0.255
    pen = ImageDraw.Draw(picture)
    pen.rectangle((0, top, wide, high), fill=PAPER)
    pen.rectangle((0, top, wide, top + strip * 0.05), fill=TRACK)
    pen.rectangle((0, top, wide * caption.share, top + strip * 0.05), fill=BAR)
    middle, edge = top + strip * 0.38, size * 0.9
    left = edge
    for text, bold, color in (
        (caption.count, False, FAINT),
        (caption.title, True, INK),
        (caption.says, False, INK),
    ):
        if text:
            face = font(round(size), bold)
            room = wide - edge - left
            pen.text((left, middle), _fitting(text, pen, face, room), font=face, fill=color, anchor="lm")
            left += pen.textlength(text, font=face) + size * 0.8
    small = font(round(size * 0.72))
    foot = top + strip * 0.76
    pen.text((edge, foot), caption.caution, font=small, fill=FAINT, anchor="lm")
    room = wide - 3 * edge - pen.textlength(caption.caution, font=small)
    name = _fitting(caption.scene, pen, small, room)
    pen.text((wide - edge, foot), name, font=small, fill=FAINT, anchor="rm")


def write_title(picture: Image.Image, place: tuple[float, float], text: str) -> None:
    """Write from where a camera looks, at its upper left corner."""
    size = picture.height * 0.026
    ImageDraw.Draw(picture).text((place[0] + size, place[1] + size), text, font=font(round(size)), fill=INK)


def _fitting(text: str, pen: ImageDraw.ImageDraw, face: object, room: float) -> str:
    """Return as much of a text as there is room for."""
    if pen.textlength(text, font=face) <= room:  # type: ignore[arg-type]
        return text
    while text and pen.textlength(text + "…", font=face) > room:  # type: ignore[arg-type]
        text = text[:-1]
    return text.rstrip() + "…" if text else ""
