"""Perforated sheet: the holes that let air through closures, as pictures and pages draw them.

They stand in staggered rows, which are level, and are dark. Where holes are finer than can be told apart, the sheet is
as dark as its share of holes makes it.
"""

from __future__ import annotations

import math

from trimwright.model.layout import Layout
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.panels.closures import Closure

Holes = tuple[float, float]
"""Diameter of the holes and distance of their middles, inches."""

SHOWS = 0.12
"""How much of the light on the sheet comes back out of a hole; judged by eye, no source."""

ROWS = math.sqrt(3) / 2
"""From one row to the next, in distances of holes: they stand at the corners of triangles with equal sides."""

OPEN = math.pi / 4 / ROWS
"""Share of the sheet that is open, in squares of the diameter by the distance."""

FINE = (0.25, 0.75)
"""A pixel this large, in distances of holes, begins to show the mean of holes and sheet, and one that shows no more."""


def holes_of(closure: Closure, layout: Layout) -> Holes | None:
    """Return the holes of a closure; None where it is of plain sheet or foam."""
    spec = {**closure_catalogue(), **layout.scene.closure}[closure.kind]
    return None if spec.hole is None else (spec.hole, spec.apart)
