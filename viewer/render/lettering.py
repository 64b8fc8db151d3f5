"""Lettering: texts, leaders, measures and pins drawn over a picture."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from ..display.color_math import Color

INK: Color = (28, 34, 38)
PAPER: Color = (255, 255, 255)
FAINT: Color = (96, 106, 112)


TILE = 100
"""Side of the parts of a sheet that are left off when nothing is written on them, pixels of the picture."""


@functools.lru_cache(maxsize=32)
def font(size: int, bold: bool = False) -> ImageFont.FreeTypeFont:
    """Return a typeface that has the signs of feet, inches and fractions; it comes with matplotlib."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    package = find_spec("matplotlib")  # found, not imported: that takes longer than drawing half a picture
    assert package is not None and package.origin is not None
    path = Path(package.origin).with_name("mpl-data") / "fonts" / "ttf" / name
    return ImageFont.truetype(str(path), size)


class ClearSheet:
    """A clear sheet over a picture: what is written on it is drawn larger and comes out smooth.

    Args:
        picture: What it lies over.
        scale: How many of the sheet's pixels are one of the picture's.
    """

    def __init__(self, picture: Image.Image, scale: int = 2) -> None:
        """Lay a clear sheet over the picture."""
        self.scale = scale
        self._under = picture.convert("RGB")
        self._sheet = Image.new("RGBA", (picture.width * scale, picture.height * scale), (0, 0, 0, 0))
        self._draw = ImageDraw.Draw(self._sheet)

    def finished(self) -> Image.Image:
        """Return the picture with all that was written on it."""
        picture, step = self._under.copy(), TILE * self.scale
        for top in range(0, self._sheet.height, step):
            for left in range(0, self._sheet.width, step):
                right, bottom = min(left + step, self._sheet.width), min(top + step, self._sheet.height)
                tile = self._sheet.crop((left, top, right, bottom))
                if tile.getbbox():
                    written = tile.reduce(self.scale)
                    picture.paste(written, (left // self.scale, top // self.scale), written)
        return picture

    def measure(self, text: str, size: float, bold: bool = False) -> tuple[float, float]:
        """Return the width and height of a text of one or more lines."""
        box = self._draw.multiline_textbbox(
            (0, 0), text, font=self._font(size, bold), spacing=self._gap(size)
        )
        return box[2] / self.scale, (box[3] + size * self.scale * 0.12) / self.scale

    def text(
        self,
        place: tuple[float, float],
        text: str,
        size: float,
        bold: bool = False,
        color: Color = INK,
        anchor: str = "la",
    ) -> None:
        """Write a text; ``anchor`` says which point of it lies at ``place``: left, middle, right; top, middle."""
        if "\n" in text:
            self._draw.multiline_text(
                self._at(place), text, font=self._font(size, bold), fill=color, spacing=self._gap(size)
            )
        else:
            self._draw.text(self._at(place), text, font=self._font(size, bold), fill=color, anchor=anchor)

    def line(
        self, points: Sequence[tuple[float, float]], width: float, color: Color = INK, alpha: int = 255
    ) -> None:
        """Draw a line through points."""
        self._draw.line(
            [self._at(point) for point in points],
            fill=(*color, alpha),
            width=max(1, round(width * self.scale)),
            joint="curve",
        )

    def dot(self, place: tuple[float, float], radius: float, color: Color, rim: Color | None = None) -> None:
        """Draw a filled disc."""
        x, y = self._at(place)
        r = radius * self.scale
        outline = None if rim is None else (*rim, 255)
        self._draw.ellipse(
            (x - r, y - r, x + r, y + r), fill=(*color, 255), outline=outline, width=round(1.6 * self.scale)
        )

    def ring(self, place: tuple[float, float], radius: float, width: float, color: Color) -> None:
        """Draw a circle."""
        (x, y), r = self._at(place), radius * self.scale
        self._draw.ellipse(
            (x - r, y - r, x + r, y + r), outline=(*color, 255), width=round(width * self.scale)
        )

    def shape(self, points: Sequence[tuple[float, float]], color: Color, rim: Color | None = None) -> None:
        """Draw a filled shape."""
        corners = [self._at(point) for point in points]
        self._draw.polygon(corners, fill=(*color, 255))
        if rim is not None:
            self._draw.line(
                [*corners, corners[0], corners[1]],
                fill=(*rim, 255),
                width=round(1.6 * self.scale),
                joint="curve",
            )

    def box(
        self,
        left: float,
        top: float,
        right: float,
        bottom: float,
        fill: Color = PAPER,
        alpha: int = 236,
        rim: Color | None = None,
        width: float = 1.4,
        radius: float = 6,
    ) -> None:
        """Draw a box with round corners."""
        corners = (*self._at((left, top)), *self._at((right, bottom)))
        self._draw.rounded_rectangle(
            corners,
            radius * self.scale,
            fill=(*fill, alpha),
            outline=None if rim is None else (*rim, 255),
            width=round(width * self.scale),
        )

    def wrapped(self, text: str, size: float, width: float, bold: bool = False) -> str:
        """Return a text broken into lines no wider than ``width``, its first word's indent kept."""
        lines: list[str] = []
        for word in text.split(" "):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.measure(longer, size, bold)[0] <= width:
                lines[-1] = longer
            elif not lines:
                lines.append(word)
            else:
                lines.append(word)
        return "\n".join(lines)

    def _at(self, place: tuple[float, float]) -> tuple[float, float]:
        return place[0] * self.scale, place[1] * self.scale

    def _font(self, size: float, bold: bool) -> ImageFont.FreeTypeFont:
        return font(max(6, round(size * self.scale)), bold)

    def _gap(self, size: float) -> float:
        return size * self.scale * 0.22
