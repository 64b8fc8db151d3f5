"""A color as numbers, and colors made of others."""

from __future__ import annotations

Color = tuple[int, int, int]
"""Red, green and blue from 0 to 255."""

WHITE: Color = (255, 255, 255)


def rgb(code: str) -> Color:
    """Return ``#rrggbb`` as numbers."""
    return (int(code[1:3], 16), int(code[3:5], 16), int(code[5:7], 16))


def hexed(color: Color) -> str:
    """Return a color as ``#rrggbb``."""
    return "#{:02x}{:02x}{:02x}".format(*color)


def mix(color: Color, other: Color, share: float) -> Color:
    """Return ``color`` with ``share`` of ``other`` in it."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(color, other, strict=True))
    return (red, green, blue)


def lightness(color: Color) -> float:
    """Return the relative luminance of a color, from 0 to 1.

    Source: WCAG 2.2, definition of relative luminance. From memory.
    """
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4
        for share in (one / 255 for one in color)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
