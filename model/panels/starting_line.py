"""Starting lines: where the first seam of a face is struck, square to its eave by the sides 3, 4 and 5.

Source: 3, 4 and 5 make a right angle: Euclid, *Elements*, book I, proposition 48; from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..roof.record import Roof
from ..tolerances import POINT
from .record import Panel

FEET = (12.0,)
METERS = (500 / 25.4, 100 / 25.4)
"""What the three sides are so many times 3, 4 and 5 of, inches: the first that finds room, read on either tape."""


@dataclass(frozen=True, slots=True)
class StartingLine:
    """The line that the first seam of a face stands on.

    Attributes:
        face: Name of the face.
        eave: Name of the eave that it is square to.
        offset: From the left end of the eave to the line, inches, as seen looking up the slope.
        way: Whether the triangle lies to the right or to the left of it.
        along: From there on along the eave, inches.
        up: From there up the line, inches.
        across: Between the two marks, if the line is square to the eave, inches.
    """

    face: str
    eave: str
    offset: float
    way: Literal["left", "right"]
    along: float
    up: float
    across: float


def starting_lines(
    roof: Roof, panels: Sequence[Panel], steps: Sequence[float] = FEET
) -> Iterator[StartingLine]:
    """Yield the starting line of each face that has a seam at an eave, the largest triangle that finds room there.

    Args:
        roof: The roof.
        panels: Its panels.
        steps: What the sides are whole multiples of, the one that is tried first before the others, inches.
    """
    for index, face in enumerate(roof.faces):
        seams = (seam for panel in panels if panel.face == index for seam in panel.seams)
        eaves = [edge for edge in roof.edges if edge.kind == "eave" and edge.faces == (index,)]
        for seam in seams:
            foot, top = (np.asarray(point) for point in seam)
            eave = next((one for one in eaves if 0 < (foot - one.start) @ one.direction < one.length), None)
            if eave is None:
                continue
            offset = float((foot - eave.start) @ eave.direction)
            room = max(offset, eave.length - offset)
            most = min(room / 3, math.dist(foot, top) / 4)
            step = next((step for step in steps if most / step + POINT >= 1), None)
            if step is not None:
                side = math.floor(most / step + POINT) * step
                way: Literal["left", "right"] = "right" if eave.length - offset >= offset else "left"
                along, up, across = (count * side for count in (3, 4, 5))
                yield StartingLine(face.name, eave.name, offset, way, along, up, across)
                break
