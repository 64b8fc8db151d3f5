"""Sizes of text and shades of ink that all pages share."""

SMALL = 8 / 72
BODY = 9.5 / 72
LARGE = 12 / 72
TITLE = 20 / 72
"""Sizes of text, inches: 8, 9.5, 12 and 20 points."""

LINE = 1.3
"""Distance from line to line, as a share of the text's size."""

INK = "#111111"
SOFT = "#5a5a5a"
FAINT = "#b4b4b4"
WASH = "#ececec"
"""Shades that stay apart in black and white."""
