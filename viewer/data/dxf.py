"""Write a piece's flat pattern as DXF: outline, bends, marks and text on layers of their own.

Points are the report's: ``u`` from the piece's low end, ``v`` from its inboard edge, x and y of the file. The text
in the file says which side of the metal that shows. Up and down are as seen with the painted side up.
"""

from __future__ import annotations

import io
from collections.abc import Iterable

from trimwright.model.layout import Part
from trimwright.model.message import Message, message
from trimwright.model.screws import Screw

from ..words.speaker import ENGLISH_IN_FEET, Speaker
from .dxf_library import Document, TextEntityAlignment, new, units
from .pattern_lines import PER_INCH, Layer, PatternLine, Unit, is_mirrored, pattern_lines, title_of

LAYERS: dict[Layer, tuple[int, str]] = {
    "outline": (7, "CONTINUOUS"),
    "bend up": (5, "DASHED"),
    "bend down": (1, "DASHDOT"),
    "mark": (3, "CONTINUOUS"),
    "text": (8, "CONTINUOUS"),
}
"""Color index and line type of every layer."""


def blank(unit: Unit) -> Document:
    """Return a document with the layers of a flat pattern, its numbers in ``unit``."""
    document = new("R2010", setup=["linetypes"])
    document.units = units.IN if unit == "in" else units.MM
    document.header["$MEASUREMENT"] = 0 if unit == "in" else 1
    for name, (color, linetype) in LAYERS.items():
        document.layers.add(name, color=color, linetype=linetype)
    return document


def document_of(
    part: Part, unit: Unit = "in", screws: tuple[Screw, ...] = (), say: Speaker = ENGLISH_IN_FEET
) -> Document:
    """Return the DXF document of a piece's flat pattern.

    Args:
        part: The piece.
        unit: Of the file's numbers.
        screws: Its own screws.
        say: Says what is written beside the lines.
    """
    scale = PER_INCH[unit]
    return drawn(pattern_lines(part, screws, scale), title_of(part), is_mirrored(part), unit, say)


def drawn(
    lines: Iterable[PatternLine], title: Iterable[Message], painted_up: bool, unit: Unit, say: Speaker
) -> Document:
    """Return the DXF document of a flat pattern.

    Args:
        lines: What is drawn.
        title: Lines of text below it.
        painted_up: It shows the painted side.
        unit: Of the file's numbers.
        say: Says what is written.
    """
    document, scale = blank(unit), PER_INCH[unit]
    space = document.modelspace()
    height = 0.2 * scale
    for trace in lines:
        points = [(float(u), float(v)) for u, v in trace.points * scale]
        space.add_lwpolyline(points, close=trace.closed, dxfattribs={"layer": trace.layer})
        if trace.says is not None:
            (x0, y0), (x1, y1) = points[0], points[-1]
            text = space.add_text(say(trace.says), height=height / 2, dxfattribs={"layer": "text"})
            text.set_placement(
                ((x0 + x1) / 2, (y0 + y1) / 2 + height / 8), align=TextEntityAlignment.BOTTOM_CENTER
            )
    sides = message("drawn painted side down (seen from the back)"), message("drawn painted side up")
    side = sides[painted_up]
    for k, line in enumerate((*title, side)):
        text = space.add_text(say(line), height=height, dxfattribs={"layer": "text"})
        text.set_placement((0.0, -height * (1.8 * k + 2.0)), align=TextEntityAlignment.TOP_LEFT)
    return document


def dxf_of(
    part: Part, unit: Unit = "in", screws: tuple[Screw, ...] = (), say: Speaker = ENGLISH_IN_FEET
) -> str:
    """Return the text of the DXF file of a piece's flat pattern; see ``document_of``."""
    return text_of(document_of(part, unit, screws, say))


def text_of(document: Document) -> str:
    """Return a document as the text of its file."""
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()
