"""A panel: one sheet from the eave to the ridge, cut, folded and set; what others know of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..geometry.arrays import Array
from ..sheet.sheet import Sheet
from ..sheet.solid import Solid
from ..tolerances import TAPE
from .flat import Ending

NEAR_SEAMS = math.radians(80)
"""A side of a face that leans less than 10 degrees from the seams was meant to be along them."""

Edge = Literal["over", "under", "hooked", "turned up", "turned down", "plain", "cut"]
"""How a panel's long edge is made: a seam's edge, folded at a border of the face, or cut to a point."""


@dataclass(frozen=True, slots=True)
class EndCut:
    """One straight cut across a panel's end.

    Attributes:
        at: Which end.
        ending: How it is folded; None where it is left plain.
        bevel: Angle between the cut and a line square to the seams, radians; positive where it rises to the right.
        border: Name of the roof's edge that it follows.
        length: Along the cut, inches.
        turned: How high it is turned up, inches; 0 where it is not.
    """

    at: Literal["low", "high"]
    ending: Ending | None
    bevel: float
    border: str
    length: float
    turned: float


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One panel on one face.

    Attributes:
        name: Face and number, from the left as seen looking up the slope: ``front 3``.
        face: Index of its face.
        column: Which column of the face, from 0 at the left.
        outline: ``(n, 3) float, inches, scene frame``; its pan between seams and folds, where it lies;
            counter-clockwise from above.
        cover: Width that it covers, from seam to seam or to its fold at a border, inches.
        ripped: The same where it is ripped to less than a whole panel; None where it is whole.
        edges: How its left and its right edge are made.
        ends: Its cuts, the low end first, from left to right.
        seams: The seam on its left, ``(2, 3) float, inches``: foot line from low to high; the first panel of a face
            has none.
        borders: Names of the roof's edges at which it ends, its sides' too.
        clips: Distances of the clips that hold its edge that lies under, from the low end of the seam, inches.
        sheet: Its flat pattern and bends; ``u`` runs up the slope from its lowest fold, ``v`` from its left edge.
        placement: ``(4, 4)``: from the folded sheet's ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet in the scene frame.
    """

    name: str
    face: int
    column: int
    outline: Array
    cover: float
    ripped: float | None
    edges: tuple[Edge, Edge]
    ends: tuple[EndCut, ...]
    seams: tuple[Array, ...]
    borders: frozenset[str]
    clips: tuple[float, ...]
    sheet: Sheet
    placement: Array
    solid: Solid

    @property
    def length(self) -> float:
        """Length of its blank, every fold allowed for, inches."""
        return self.sheet.length

    @property
    def taper(self) -> tuple[float, float] | None:
        """How wide it is at its foot and at its top where a crooked side of the face makes these differ, inches."""
        if len(self.outline) != 4 or not any(abs(end.bevel) > NEAR_SEAMS for end in self.ends):
            return None
        low, high = (float(np.linalg.norm(self.outline[a] - self.outline[b])) for a, b in ((0, 1), (3, 2)))
        return (low, high) if abs(low - high) > TAPE else None

    @property
    def width(self) -> float:
        """Width of its blank, every fold allowed for, inches; a hook along a valley may stand out past its edge."""
        v = self.sheet.outline[:, 1]
        return float(max(v.max(), self.sheet.section.width) - min(v.min(), 0.0))
