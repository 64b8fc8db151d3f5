"""Write a drawing as a PNG picture, for those who send it on by phone."""

from __future__ import annotations

import io
import math
from itertools import pairwise

from PIL import Image, ImageDraw, ImageFont

from .drawing import Area, Drawing, Item, Picture, Point, Stroke, Words
from .letters import plain, width_of

FINER = 2
"""Lines are drawn so many times larger and then made smaller, so that they have no stairs."""

LARGEST = 90_000_000
"""Pixels, before they are made smaller: a longer drawing gets fewer dots an inch."""


def png_of(drawing: Drawing, dots: float = 150.0) -> bytes:
    """Return ``drawing`` as a PNG picture.

    Args:
        drawing: The drawing.
        dots: Dots an inch.

    Raises:
        OSError: A picture on it cannot be read.
    """
    scale = min(dots * FINER, (LARGEST / (drawing.size[0] * drawing.size[1])) ** 0.5)
    size = tuple(max(FINER, round(side * scale)) for side in drawing.size)
    image = Image.new("RGB", (size[0], size[1]), "#ffffff")
    pen = ImageDraw.Draw(image)
    for item in drawing.items:
        _draw(image, pen, item, scale, drawing.size[1])
    small = image.resize((size[0] // FINER, size[1] // FINER), Image.Resampling.LANCZOS)
    buffer = io.BytesIO()
    small.save(buffer, "PNG", optimize=True, dpi=(scale / FINER, scale / FINER))
    return buffer.getvalue()


def _draw(image: Image.Image, pen: ImageDraw.ImageDraw, item: Item, scale: float, height: float) -> None:
    def at(point: Point) -> tuple[float, float]:
        return point[0] * scale, (height - point[1]) * scale

    match item:
        case Stroke():
            points = [at(point) for point in item.points]
            points += points[:1] if item.closed else []
            width = max(1, round(item.width * scale))
            for line in _dashed(points, [length * scale for length in item.dash]):
                pen.line(line, item.color, width, "curve")
        case Area():
            for ring, color in zip(item.rings, [item.color] + ["#ffffff"] * len(item.rings), strict=False):
                pen.polygon([at(point) for point in ring], color)
        case Words():
            _write(image, item, scale, at(item.at))
        case Picture():
            with Image.open(item.file) as picture:
                size = (max(1, round(item.size[0] * scale)), max(1, round(item.size[1] * scale)))
                x, y = at((item.at[0], item.at[1] + item.size[1]))
                image.paste(
                    picture.convert("RGB").resize(size, Image.Resampling.LANCZOS), (round(x), round(y))
                )


def _dashed(points: list[tuple[float, float]], dash: list[float]) -> list[list[tuple[float, float]]]:
    """Return the parts of a line that are drawn."""
    if not dash:
        return [points]
    parts: list[list[tuple[float, float]]] = []
    place, left = 0, dash[0]
    for start, end in pairwise(points):
        length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
        done = 0.0
        while done < length - 1e-9:
            step = min(left, length - done)
            if place % 2 == 0:
                a, b = done / length, (done + step) / length
                parts.append(
                    [
                        (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
                        for share in (a, b)
                    ]
                )
            done += step
            left -= step
            if left <= 1e-9:
                place += 1
                left = dash[place % len(dash)]
    return parts


def _write(image: Image.Image, words: Words, scale: float, at: tuple[float, float]) -> None:
    """Write a line of text no wider than the printed one; bold is written twice, a little apart."""
    text = plain(words.text)
    if not text.strip():
        return
    font = ImageFont.load_default(words.size * scale)
    room = width_of(words.text, words.size, words.bold) * scale
    wide = font.getlength(text)
    if wide > room:
        font = ImageFont.load_default(words.size * scale * room / wide)
        wide = font.getlength(text)
    tall = int(words.size * scale * 2)
    tile = Image.new("L", (int(wide) + 4, 2 * tall), 0)
    pen = ImageDraw.Draw(tile)
    for shift in (0.0, words.size * scale * 0.04) if words.bold else (0.0,):
        pen.text((2 + shift, tall), text, 255, font, "ls")
    along = {"start": wide / 2, "middle": 0.0, "end": -wide / 2}[words.anchor]
    turned = tile.rotate(words.angle, Image.Resampling.BICUBIC, expand=True)
    turn = math.radians(words.angle)
    x, y = at[0] + along * math.cos(turn), at[1] - along * math.sin(turn)
    box = (round(x - turned.width / 2), round(y - turned.height / 2))
    image.paste(words.color, box, turned)
