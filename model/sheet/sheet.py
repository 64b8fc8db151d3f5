"""The sheet: one flat piece of metal, its bend lines and its tabs. Everything else about a piece comes from it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from ..errors import GeometryError
from ..geometry.arrays import Array
from ..message import Length, message
from ..profiles.section import Section
from ..tolerances import TAPE


@dataclass(frozen=True, slots=True, eq=False)
class Tab:
    """A flap hinged on a cut line of one strip.

    Attributes:
        strip: Index of the strip that it hangs on.
        hinge: ``(2, 2) float, inches``: its fold line in ``(u, v)``, in the order of the end's cut.
        flap: ``(k, 2) float, inches``: its other corners, going on from the hinge's second point to its first.
        angle: How far it is folded away from the painted side, radians; negative folds toward it.
        on: The tab that it hangs on, when that is not the strip itself: its hinge is that one's free edge.
    """

    strip: int
    hinge: Array
    flap: Array
    angle: float
    on: Tab | None = None

    @property
    def width(self) -> float:
        """How far it reaches from its fold line, inches."""
        along = self.hinge[1] - self.hinge[0]
        beyond = (self.flap - self.hinge[0]) @ [-along[1], along[0]]
        return float(np.abs(beyond).max() / np.linalg.norm(along))


@dataclass(frozen=True, eq=False)
class Cut:
    """One end of a sheet: the line where its strips end, and the flaps that hang on it.

    Attributes:
        line: ``(k, 2) float, inches``: from the inboard edge to the outboard edge; ``v`` never falls, and every
            bend line that it crosses has a point on it.
        tabs: Flaps beyond it; each has both ends of its hinge on the line, one after the other, or on the free edge
            of the tab that it hangs on, which comes before it.
    """

    line: Array
    tabs: tuple[Tab, ...] = ()

    @cached_property
    def edge(self) -> Array:
        """``(n, 2) float, inches``: the free edge of the metal, round the flaps."""
        edge = self.line
        for tab in self.tabs:
            at = int(np.flatnonzero((edge == tab.hinge[0]).all(axis=1))[0])
            edge = np.insert(edge, at + 1, tab.flap[::-1], axis=0)
        return edge

    @cached_property
    def reach(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of its edge, inches."""
        return float(self.edge[:, 0].min()), float(self.edge[:, 0].max())

    def moved(self, by: float) -> Cut:
        """Return it ``by`` inches farther along the piece; a place along it is kept to a billionth of an inch."""
        tabs: dict[int, Tab] = {}
        for tab in self.tabs:
            on = None if tab.on is None else tabs[id(tab.on)]
            tabs[id(tab)] = Tab(tab.strip, _moved(tab.hinge, by), _moved(tab.flap, by), tab.angle, on)
        return Cut(_moved(self.line, by), tuple(tabs.values()))

    @property
    def is_square(self) -> bool:
        """Whether it runs straight across, as closely as a tape shows."""
        return self.reach[1] - self.reach[0] <= TAPE


def _moved(points: Array, by: float) -> Array:
    """Return ``(n, 2)`` points farther along ``u``."""
    moved = points.copy()
    moved[:, 0] = np.round(points[:, 0] + by, 9)
    return moved


@dataclass(frozen=True, eq=False)
class Sheet:
    """A flat sheet that folds along its section's bend lines.

    ``u`` runs along the piece, ``v`` over the developed width from the inboard edge to the outboard edge.
    Level trim and left-hand trim is seen from its painted side when ``u`` points right and ``v`` down;
    right-hand trim is the mirror image.

    Attributes:
        section: Where the bends are and how far they bend.
        low: The low end.
        high: The high end.
        holes: ``(k, 2) float, inches`` each: openings, each within one strip.
    """

    section: Section
    low: Cut
    high: Cut
    holes: tuple[Array, ...] = ()

    @cached_property
    def outline(self) -> Array:
        """``(n, 2) float, inches``: the flat pattern's edge, tabs included; up the low end, down the high end."""
        return np.concatenate([self.low.edge, self.high.edge[::-1]])

    @property
    def tabs(self) -> tuple[Tab, ...]:
        """The flaps of both ends, those of the low end first."""
        return self.low.tabs + self.high.tabs

    @cached_property
    def extent(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of the metal, inches."""
        u = self.outline[:, 0]
        return float(u.min()), float(u.max())

    @property
    def length(self) -> float:
        """From its lowest to its highest ``u``, inches."""
        low, high = self.extent
        return high - low

    @cached_property
    def pattern(self) -> shapely.Polygon:
        """The flat pattern with its holes, inches."""
        return shapely.Polygon(self.outline, list(self.holes))

    @property
    def area(self) -> float:
        """Area of the flat pattern, square inches."""
        return float(self.pattern.area)


def checked(sheet: Sheet, mark: str, run: str) -> Sheet:
    """Return ``sheet``, that of the piece ``mark`` of ``run``, if it can be cut from one flat piece.

    Raises:
        GeometryError: its outline crosses itself: a tab lies on its neighbor's metal, or the two ends meet.
    """
    if shapely.is_valid(sheet.pattern):
        return sheet
    where = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(sheet.pattern))
    if where is None:
        raise GeometryError(
            message(
                "piece {mark} of the {run}: its flat pattern runs into itself; "
                "a longer piece, a smaller tab or lap would do",
                mark=mark,
                run=run,
            )
        )
    raise GeometryError(
        message(
            "piece {mark} of the {run}: its flat pattern runs into itself {along} along and {across} across; "
            "a longer piece, a smaller tab or lap would do",
            mark=mark,
            run=run,
            along=Length(float(where[1])),
            across=Length(float(where[2])),
        )
    )
