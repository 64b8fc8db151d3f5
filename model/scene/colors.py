"""Colors as people write them: digits, or a name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Literal

from ..measures import shorten
from ..message import Message, message

Coat = Literal["bare", "matt", "satin", "gloss"]
"""What metal is coated with: nothing, or paint of one gloss."""


PAINTS: Mapping[str, str] = {
    "chalk": "#e9e6dc",
    "fog": "#b8bfc1",
    "gull": "#868f93",
    "slate": "#4a555b",
    "tar": "#23282b",
    "oak bark": "#54433a",
    "rope": "#a8906a",
    "brick": "#8c3b2e",
    "rowan": "#a52a2a",
    "moss": "#5b6b45",
    "pine": "#2d4a3b",
    "harbor": "#2f5673",
}
"""Paints to try, by names of our own, which a scene may use like any other."""


def chart_of(shop: object) -> dict[str, str]:
    """Return the colors of a shop's own chart by their plain names, as far as the tables can be read.

    Args:
        shop: The table ``[shop]`` as it stands in a scene, or nothing.
    """
    rows = shop.get("color") if isinstance(shop, Mapping) else None
    found = {}
    for row in rows if isinstance(rows, list) else []:
        if (
            isinstance(row, Mapping)
            and isinstance(row.get("name"), str)
            and isinstance(row.get("color"), str)
        ):
            code = as_hex(row["color"])
            if code is not None:
                found[plain_name(row["name"].lower())] = code
    return found


def as_hex(text: str) -> str | None:
    """Return the color written as ``text``, as ``#rrggbb`` in lower case; None where it is none.

    Six digits or three, with or without ``#``, or a name with or without blanks: ``#3b4a4f``, ``slate gray``; the
    names of our own paints too.

    Source:
        The other names and what they stand for are those of *CSS Color Module Level 4*, 6.1, as Pillow has them.
    """
    plain = text.strip().lower()
    if digits := re.fullmatch(r"#?([0-9a-f]{6}|[0-9a-f]{3})", plain):
        one = digits[1]
        return f"#{one if len(one) == 6 else ''.join(2 * digit for digit in one)}"
    from PIL import ImageColor  # 30 ms, and few scenes name a color

    name = plain_name(plain)
    if name in _OWN:
        return _OWN[name]
    if name not in ImageColor.colormap:
        return None
    red, green, blue = ImageColor.getrgb(name)[:3]
    return f"#{red:02x}{green:02x}{blue:02x}"


def as_color(value: object, charted: Mapping[str, str]) -> str | Message:
    """Return the color that a value of a scene stands for, as ``#rrggbb``, or why it is none.

    Args:
        value: What was written.
        charted: The colors of a shop's own chart by their plain names; they are asked first.
    """
    text = value.strip().lower() if isinstance(value, str) else ""
    color = charted.get(plain_name(text)) or as_hex(text)
    if color is not None:
        return color
    near = _near_name(text, charted)
    if near is not None:
        return message("{came} is not a color; did you mean {near}?", came=shorten(value), near=shorten(near))
    return message(
        '{came} is not a color; give a name such as "slate gray", or # and six digits 0-9 or a-f',
        came=shorten(value),
    )


def _near_name(text: str, charted: Mapping[str, str]) -> str | None:
    """Return the name of a color that ``text`` may be meant for, or None."""
    from PIL import ImageColor

    near = get_close_matches(plain_name(text), [*charted, *_OWN, *ImageColor.colormap], n=1, cutoff=0.75)
    return near[0] if near else None


def plain_name(text: str) -> str:
    """Return a name of a color without blanks and hyphens, at most as long as any has."""
    return re.sub(r"[\s_-]+", "", text[:40])


_OWN = {plain_name(name): code for name, code in PAINTS.items()}
