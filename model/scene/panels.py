"""What a scene says about panels of its own: how their edges lock into each other, and closures between them."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from pydantic import model_validator

from ..message import message
from .fields import BoundedLength, Spec, refusal

Fold = Annotated[float, BoundedLength(1 / 8, 2, "1/4 in")]
Flange = Annotated[float, BoundedLength(1 / 2, 3, "1 1/4 in")]
Perforation = Annotated[float, BoundedLength(1 / 32, 1 / 4, "1/8 in")]
Apart = Annotated[float, BoundedLength(1 / 32, 2, "3/16 in")]
Depth = Annotated[float, BoundedLength(1 / 2, 3, "1 in")]


class PanelProfileSpec(Spec):
    """A panel profile: how the edges of two panels are locked into each other.

    Attributes:
        lock: ``double lock`` and ``single lock`` are folded on the roof, ``snap lock`` is pressed together, and the
            cover of a ``rib`` is pressed over a rib whose flange is screwed to the deck.
        fold: How far the edge that lies under is folded over, inches.
        flange: Width of the flange of a ``rib``, inches; the others are held by clips.
    """

    lock: Literal["single lock", "double lock", "snap lock", "rib"]
    fold: Fold = 0.25
    flange: Flange = 1.25


class ClosureSpec(Spec):
    """A kind of closure: what fills the space between the seams under a cap.

    Attributes:
        form: A ``Z`` is folded of the roof's own metal, its flange holds the cap's screws; a ``strip`` of foam is
            set upright, and the screws go through it into the deck.
        hole: Diameter of the holes that the sheet of a ``Z`` is perforated with, inches; None for plain sheet.
        apart: From the middle of one hole to the next, rows staggered, inches.
        depth: Of a ``strip``, up the slope, inches.
    """

    form: Literal["Z", "strip"] = "Z"
    hole: Perforation | None = None
    apart: Apart = 3 / 16
    depth: Depth = 1.0

    @model_validator(mode="after")
    def _holds_together(self) -> ClosureSpec:
        if self.hole is not None and self.form == "strip":
            raise refusal(message("a strip of foam has no holes; leave the key hole out, or give form = 'Z'"))
        if self.hole is not None and self.apart <= self.hole:
            raise refusal(
                message("holes so wide run into each other; give the key apart more than the key hole")
            )
        return self

    @property
    def open_share(self) -> float:
        """How much of its sheet is holes, a share of 1.

        Holes stand at the corners of triangles with equal sides, half a hole for each triangle:
        (pi d^2 / 8) / (sqrt(3) c^2 / 4). Source: the geometry alone.
        """
        if self.hole is None:
            return 0.0
        return math.pi * self.hole**2 / (2 * math.sqrt(3) * self.apart**2)
