"""Colors as people write them: digits, or a name."""

from __future__ import annotations

import re
from difflib import get_close_matches


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

    name = _plain_name(plain)
    if name not in ImageColor.colormap:
        return None
    red, green, blue = ImageColor.getrgb(name)[:3]
    return f"#{red:02x}{green:02x}{blue:02x}"


def near_name(text: str) -> str | None:
    """Return the name of a color that ``text`` may be meant for, or None."""
    from PIL import ImageColor

    near = get_close_matches(_plain_name(text.strip().lower()), ImageColor.colormap, n=1, cutoff=0.75)
    return near[0] if near else None


def _plain_name(text: str) -> str:
    """Return a name of a color without blanks and hyphens, at most as long as any has."""
    return re.sub(r"[\s_-]+", "", text[:40])
