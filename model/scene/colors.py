"""Colors as people write them: digits, or a name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Literal

Coat = Literal["bare", "matt", "satin", "gloss"]
"""What metal is coated with: nothing, or paint of one gloss."""


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

    Six digits or three, with or without ``#``, or a name with or without blanks: ``#3b4a4f``, ``slate gray``.

    Source:
        The names and what they stand for are those of *CSS Color Module Level 4*, 6.1, as Pillow has them.
    """
    plain = text.strip().lower()
    if digits := re.fullmatch(r"#?([0-9a-f]{6}|[0-9a-f]{3})", plain):
        one = digits[1]
        return f"#{one if len(one) == 6 else ''.join(2 * digit for digit in one)}"
    from PIL import ImageColor  # 30 ms, and few scenes name a color

    name = plain_name(plain)
    if name not in ImageColor.colormap:
        return None
    red, green, blue = ImageColor.getrgb(name)[:3]
    return f"#{red:02x}{green:02x}{blue:02x}"


def near_name(text: str) -> str | None:
    """Return the name of a color that ``text`` may be meant for, or None."""
    from PIL import ImageColor

    near = get_close_matches(plain_name(text.strip().lower()), ImageColor.colormap, n=1, cutoff=0.75)
    return near[0] if near else None


def plain_name(text: str) -> str:
    """Return a name of a color without blanks and hyphens, at most as long as any has."""
    return re.sub(r"[\s_-]+", "", text[:40])
