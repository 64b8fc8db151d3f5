"""The sheet: one flat piece of metal, its bend lines and its tabs. Everything else about a piece comes from it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from ..errors import GeometryError
from ..profiles.section import Section

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Tab:
    """A flap hinged on a cut line of one strip.

    Attributes:
        strip: Index of the strip that it hangs on.
        hinge: ``(2, 2) float, inches``: its fold line in ``(u, v)``, in the order of the end's cut.
        flap: ``(k, 2) float, inches``: its other corners, going on from the hinge's second point to its first.
        angle: How far it is folded away from the painted side, radians; negative folds toward it.
    """

    strip: int
    hinge: Array
    flap: Array
    angle: float


@dataclass(frozen=True, eq=False)
class Sheet:
    """A flat sheet that folds along its section's bend lines.

    ``u`` runs along the piece, ``v`` over the developed width from the inboard edge to the outboard edge.
    Level trim and left-hand trim is seen from its painted side when ``u`` points right and ``v`` down;
    right-hand trim is the mirror image.

    Attributes:
        section: Where the bends are and how far they bend.
        low: ``(k, 2) float, inches``: the low end's cut, from the inboard edge to the outboard edge;
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

    @cached_property
    def outline(self) -> Array:
        """``(n, 2) float, inches``: the flat pattern's edge, tabs included; up the low end, down the high end."""
        return np.concatenate([_with_tabs(self.low, self.tabs), _with_tabs(self.high, self.tabs)[::-1]])

    @cached_property
    def extent(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of the metal, inches."""
        u = self.outline[:, 0]
        return float(u.min()), float(u.max())

    @cached_property
    def pattern(self) -> shapely.Polygon:
        """The flat pattern with its holes, inches."""
        return shapely.Polygon(self.outline, list(self.holes))

    @property
    def area(self) -> float:
        """Area of the flat pattern, square inches."""
        return float(self.pattern.area)


def checked(sheet: Sheet, place: str) -> Sheet:
    """Return ``sheet`` if it can be cut from one flat piece.

    Raises:
        GeometryError: its outline crosses itself: a tab lies on its neighbour's metal, or the two ends meet.
    """
    if not shapely.is_valid(sheet.pattern):
        where = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(sheet.pattern))
        at = f" {float(where[1]):.2f} in along and {float(where[2]):.2f} in across" if where else ""
        raise GeometryError(
            f"{place}: its flat pattern runs into itself{at}; a longer piece, a smaller tab or lap would do"
        )
    return sheet


def _with_tabs(cut: Array, tabs: tuple[Tab, ...]) -> Array:
    """Return an end's cut with the flaps that hang on it."""
    for tab in tabs:
        at = np.flatnonzero((cut == tab.hinge[0]).all(axis=1))
        if len(at):
            cut = np.insert(cut, at[0] + 1, tab.flap[::-1], axis=0)
    return cut
