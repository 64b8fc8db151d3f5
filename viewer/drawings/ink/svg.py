"""Write a drawing as SVG: one point of the page is one unit, so that it prints at its true size."""

from __future__ import annotations

import base64
from html import escape
from pathlib import Path

from .drawing import Area, Drawing, Item, Picture, Point, Stroke, Words
from .letters import plain, width_of

POINTS = 72.0
"""Points in an inch."""


def svg_of(drawing: Drawing) -> str:
    """Return the text of an SVG document that shows ``drawing``.

    Raises:
        OSError: A picture on it cannot be read.
    """
    width, height = drawing.size
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" lang="en" width="{_n(width)}in" height="{_n(height)}in" '
        f'viewBox="0 0 {_n(width * POINTS)} {_n(height * POINTS)}">',
        f"<title>{escape(drawing.title)}</title>",
        '<rect width="100%" height="100%" fill="#ffffff"/>',
        '<g stroke-linecap="round" stroke-linejoin="round" font-family="Helvetica, Arial, sans-serif">',
        *(_item(item, height) for item in drawing.items),
        "</g>",
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _item(item: Item, height: float) -> str:
    match item:
        case Stroke():
            return _stroke(item, height)
        case Area():
            rings = " ".join(f"M{_points(ring, height)}Z" for ring in item.rings)
            return f'<path d="{rings}" fill="{item.color}" fill-rule="evenodd"{_name(item.name)}/>'
        case Words():
            return _words(item, height)
        case Picture():
            return _picture(item, height)


def _stroke(stroke: Stroke, height: float) -> str:
    dash = f' stroke-dasharray="{" ".join(_n(d * POINTS) for d in stroke.dash)}"' if stroke.dash else ""
    shape = f"M{_points(stroke.points, height)}{'Z' if stroke.closed else ''}"
    return (
        f'<path d="{shape}" fill="none" stroke="{stroke.color}" stroke-width="{_n(stroke.width * POINTS)}"'
        f"{dash}{_name(stroke.name)}/>"
    )


def _words(words: Words, height: float) -> str:
    x, y = words.at[0] * POINTS, (height - words.at[1]) * POINTS
    turn = f' transform="rotate({_n(-words.angle)} {_n(x)} {_n(y)})"' if words.angle else ""
    weight = ' font-weight="bold"' if words.bold else ""
    anchor = f' text-anchor="{words.anchor}"' if words.anchor != "start" else ""
    fill = f' fill="{words.color}"' if words.color != "#000000" else ""
    length = width_of(words.text, words.size, words.bold) * POINTS
    text = escape(plain(words.text), quote=False)
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(words.size * POINTS)}" textLength="{_n(length)}" '
        f'lengthAdjust="spacingAndGlyphs"{anchor}{weight}{fill}{turn}{_name(words.name)}>{text}</text>'
    )


def _picture(picture: Picture, height: float) -> str:
    data = base64.b64encode(Path(picture.file).read_bytes()).decode("ascii")
    x, y = picture.at[0] * POINTS, (height - picture.at[1] - picture.size[1]) * POINTS
    return (
        f'<image x="{_n(x)}" y="{_n(y)}" width="{_n(picture.size[0] * POINTS)}" '
        f'height="{_n(picture.size[1] * POINTS)}" href="data:image/png;base64,{data}">'
        f"<title>{escape(picture.says)}</title></image>"
    )


def _points(points: tuple[Point, ...], height: float) -> str:
    return " ".join(f"{_n(x * POINTS)} {_n((height - y) * POINTS)}" for x, y in points)


def _name(name: str) -> str:
    return f' class="{escape(name.replace(" ", "-"))}"' if name else ""


def _n(number: float) -> str:
    """Return a number in at most three decimals."""
    text = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
