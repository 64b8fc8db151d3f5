"""The sheet: one flat piece of metal, its bend lines and its tabs. Everything else about a piece comes from it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..profiles.section import Section

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Tab:
    """A flap hinged on a cut line of one strip.

    Attributes:
        strip: Index of the strip between two bend lines that it hangs on.
        hinge: ``(2, 2) float, inches``: its fold line in ``(u, v)``.
        flap: ``(k, 2) float, inches``: its other corners, going on from the hinge's second point to its first.
        angle: How far it is folded away from the painted side, radians; negative folds toward it.
    """

    strip: int
    hinge: Array
    flap: Array
    angle: float


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A flat sheet that folds along its section's bend lines.

    ``u`` runs along the piece, ``v`` over the developed width from the inboard edge. The painted side faces the
    viewer when ``u`` points right and ``v`` down on a piece of the left hand; a right-hand piece is its mirror image.

    Attributes:
        section: Where the bends are and how far they bend.
        low: ``(k, 2) float, inches``: the low end's cut, from the inboard edge (``v`` = 0) to the outboard edge;
            ``v`` never falls, and every bend line that the cut crosses has a point on it.
        high: The same for the high end.
        tabs: Flaps beyond the cuts.
        holes: ``(k, 2) float, inches`` each: openings, each within one strip.
    """

    section: Section
    low: Array
    high: Array
    tabs: tuple[Tab, ...] = ()
    holes: tuple[Array, ...] = ()

    @property
    def extent(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of the metal, inches."""
        raise NotImplementedError
