"""Nested sheets: every length of stock as one DXF, with the flat patterns of the pieces that come out of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Listed, Message, Value, message
from trimwright.model.panels.cleats import Cleat
from trimwright.model.takeoff.plan import Bought
from trimwright.model.takeoff.record import Takeoff

from ..words.speaker import speaker_of
from .dxf import blank, text_of
from .dxf_library import Document, Modelspace
from .panel_dxf import cleat_lines
from .pattern_lines import PER_INCH, Unit, mirrors, pattern_lines

STOCK = "stock"
"""The layer of the length itself."""

HEIGHT = 0.2
"""Of the text, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Nested:
    """A length of stock with its pieces.

    Attributes:
        name: Name of its file, without its ending.
        document: The drawing: x from the end where the tape hooks on, y 0 at the inboard edge and negative below
            it, painted side up.
    """

    name: str
    document: Document

    @property
    def text(self) -> str:
        """The text of its DXF file."""
        return text_of(self.document)


def nested(layout: Layout, takeoff: Takeoff, unit: Unit = "in") -> Iterator[Nested]:
    """Yield a nested sheet for every length taken.

    Args:
        layout: The layout.
        takeoff: What to buy for it.
        unit: Of the numbers in the drawings.
    """
    for trim in takeoff.cut:
        for number, bought in enumerate(trim.plan.lengths, 1):
            name = "-".join((*str(trim.label).translate(_PLAIN).split(), str(number)))
            yield Nested(name, _document(bought, trim.width, layout, unit))


_PLAIN = str.maketrans(dict.fromkeys("(),/\\:", " "))


def on_stock(part: Part | Cleat, start: float, points: Array) -> Array:
    """Return ``(n, 2)`` points of a flat pattern where they lie on the stock, painted side up.

    Args:
        part: The piece, or a continuous cleat.
        start: Where it begins on the stock, inches.
        points: ``u`` from its low end, ``v`` from its inboard edge, inches.
    """
    u = part.length - points[:, 0] if mirrors(part.placement) else points[:, 0]
    return np.stack([start + u, -points[:, 1]], axis=1)


def _document(bought: Bought, width: float, layout: Layout, unit: Unit) -> Document:
    say = speaker_of(layout.scene)
    document, scale = blank(unit), PER_INCH[unit]
    document.layers.add(STOCK, color=9, linetype="DASHED")
    space = document.modelspace()

    def line(points: Array, layer: str, closed: bool) -> None:
        corners = [(float(x), float(y)) for x, y in points * scale]
        space.add_lwpolyline(corners, close=closed, dxfattribs={"layer": layer})

    line(np.array([[0.0, 0.0], [bought.length, 0.0], [bought.length, -width], [0.0, -width]]), STOCK, True)
    for cut in bought.cuts:
        one = layout.cleat(cut.mark) or layout.part(cut.mark)
        traces = (
            cleat_lines(one, scale)
            if isinstance(one, Cleat)
            else pattern_lines(one, layout.screws_of(cut.mark), scale)
        )
        for trace in traces:
            line(on_stock(one, cut.start, trace.points), trace.layer, trace.closed)
        _write(space, say(_low_end(one)), cut.start, HEIGHT * 0.6, scale)
    _write(space, say(_says(bought)), 0.0, -width - HEIGHT * 1.6, scale)
    return document


def _write(space: Modelspace, text: str, x: float, y: float, scale: float) -> None:
    written = space.add_text(text, height=HEIGHT * scale, dxfattribs={"layer": "text"})
    written.set_placement((x * scale, y * scale))


def _low_end(part: Part | Cleat) -> Message:
    """Return a piece's mark, and at which side its low end lies."""
    if mirrors(part.placement):
        return message("{mark}, low end right", mark=part.mark)
    return message("{mark}, low end left", mark=part.mark)


def _says(bought: Bought) -> Message:
    """Return what a length is, and what comes out of it."""
    values: dict[str, Value] = {"profile": bought.profile, "pieces": Listed(bought.pieces, "comma")}
    if bought.from_hand:
        return message("{profile}: {pieces}, on hand; painted side up, inboard edge on top", **values)
    return message("{profile}: {pieces}; painted side up, inboard edge on top", **values)
