"""Write a piece's flat pattern as SVG, one inch of metal for one inch, painted side up; its layers are groups."""

from __future__ import annotations

from html import escape

import numpy as np

from trimwright.model.layout import Part
from trimwright.model.message import message
from trimwright.model.screws import Screw

from ..words.speaker import ENGLISH_IN_FEET, Speaker
from .dxf import LAYERS
from .pattern_lines import Layer, PatternLine, is_mirrored, pattern_lines, title_of

MARGIN = 0.5
"""White round the pattern, inches."""

TEXT = 0.2
"""Size of the text, inches."""

STYLES: dict[Layer, str] = {
    "outline": 'stroke="#111111" stroke-width="0.02"',
    "bend up": 'stroke="#1f4fa3" stroke-width="0.015" stroke-dasharray="0.2 0.08"',
    "bend down": 'stroke="#c8102e" stroke-width="0.015" stroke-dasharray="0.3 0.06 0.06 0.06"',
    "mark": 'stroke="#0a6b2d" stroke-width="0.012" stroke-dasharray="0.06 0.06"',
    "text": 'fill="#111111"',
}


def pattern_svg(part: Part, screws: tuple[Screw, ...] = (), say: Speaker = ENGLISH_IN_FEET) -> str:
    """Return the text of an SVG document of a piece's flat pattern.

    Coordinates are the report's, in inches: ``u`` from the low end, ``v`` from the inboard edge, which is on top.
    A right-hand piece is mirrored as a whole, so that its painted side is up, too.
    """
    lines = list(pattern_lines(part, screws))
    (left, top), (right, bottom) = lines[0].points.min(axis=0), lines[0].points.max(axis=0)
    foot = bottom + MARGIN + 4 * TEXT
    mirrored = is_mirrored(part)
    x = -right - MARGIN if mirrored else left - MARGIN
    width, height = right - left + 2 * MARGIN, foot - top + MARGIN
    groups = []
    for layer in LAYERS:
        shapes = [_path(line, say) for line in lines if line.layer == layer]
        if shapes:
            groups += [f'<g id="{layer.replace(" ", "-")}" fill="none" {STYLES[layer]}>', *shapes, "</g>"]
    if mirrored:
        side = message("painted side up; low end at the right; in inches")
    else:
        side = message("painted side up; low end at the left; in inches")
    words = [say(line) for line in (*title_of(part), side)]
    turn = ' transform="scale(-1 1)"' if mirrored else ""
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" lang="{say.language.code}" '
            f'width="{_n(width)}in" height="{_n(height)}in" '
            f'viewBox="{_n(x)} {_n(top - MARGIN)} {_n(width)} {_n(height)}">',
            f"<title>{escape(words[0])}</title>",
            f"<g{turn}>",
            *groups,
            "</g>",
            f'<g id="text" font-family="Helvetica, Arial, sans-serif" font-size="{TEXT}" {STYLES["text"]}>',
            *(
                _words(text, x + MARGIN, bottom + MARGIN + TEXT * (1 + 1.3 * k))
                for k, text in enumerate(words)
            ),
            "</g>",
            "</svg>",
            "",
        ]
    )


def _path(trace: PatternLine, say: Speaker) -> str:
    points = " ".join(f"{_n(u)} {_n(v)}" for u, v in np.asarray(trace.points))
    says = f"<title>{escape(say(trace.says))}</title>" if trace.says is not None else ""
    return f'<path d="M{points}{"Z" if trace.closed else ""}">{says}</path>'


def _words(text: str, x: float, y: float) -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}">{escape(text)}</text>'


def _n(number: float) -> str:
    """Return a number of inches in at most four decimals."""
    text = f"{number:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
