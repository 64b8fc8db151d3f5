"""How the ends of a closure are cut: round the seam beside it, and where the line of closures ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..profiles.section import Section
from ..sheet.cut import path, plane_cut
from ..tolerances import CLEARANCE, POINT
from .closure_ends import Plane
from .flat import Flat
from .stuff import Stuff


@dataclass(frozen=True, slots=True, eq=False)
class ClosureEnd:
    """What one end of a closure comes up against.

    Attributes:
        side: 0 for the left end, 1 for the right end.
        end: The planes that bound the whole stretch there: the trim's end, or the miter with the next stretch.
        stem: The plane of the upright leg beside it, if there is one.
        fold: Above the foot of a fold that leans over it: the plane at which it ends there.
    """

    side: int
    end: Sequence[Plane]
    stem: Sequence[Plane]
    fold: Plane | None

    @staticmethod
    def at_seam(
        flat: Flat, edge: str, bound: float, side: int, end: Sequence[Plane], stuff: Stuff
    ) -> ClosureEnd:
        """Return what the left (0) or the right (1) end comes up against at the edge of its panel."""
        seam, inward = stuff.seam, 1.0 if side == 0 else -1.0

        def upright(off: float) -> Plane:
            return flat.raised(np.array([[bound + inward * (off + CLEARANCE), 0.0]]), 0.0)[0], flat.axes[0]

        if edge == "over":
            return ClosureEnd(side, end, (upright(seam.beyond),), None)
        if edge == "under":
            stem = upright(seam.insets[0] + stuff.thickness)
            return ClosureEnd(side, end, (stem,), upright(seam.reach))
        return ClosureEnd(side, end, (upright(0.0),), None)

    def x_on(self, flat: Flat, base: Array, along: Array, stuff: Stuff) -> float:
        """Return where the end meets a line on the pans, as ``x``."""
        start = flat.raised(base[None], stuff.pan)[0]
        way = along @ flat.axes[:2]
        planes = (*self.end, *self.stem)
        shares = [float(normal @ (point - start) / (normal @ way)) for point, normal in planes]
        return float(base[0] + along[0] * (max(shares) if self.side == 0 else min(shares)))

    def _inner(self, *cuts: Array) -> Array:
        """Return of some cuts the one that leaves least of the closure, strip by strip."""
        inner = np.max(cuts, axis=0) if self.side == 0 else np.min(cuts, axis=0)
        return np.asarray(np.round(inner, 9), dtype=np.float64)

    def cut(self, section: Section, placement: Array, stuff: Stuff) -> Array:
        """Return the cut of one end, ``(k, 2) float, inches``."""
        bound = self._inner(*(plane_cut(section, placement, *plane) for plane in self.end))
        ends = self._inner(*(plane_cut(section, placement, *plane) for plane in self.stem), bound)
        if self.fold is None:
            return path(section, ends)
        fold = plane_cut(section, placement, *self.fold)
        leaning = self._inner(fold, bound)
        web = section.strip_of("web")
        height = stuff.pan + stuff.seam.fold_foot - CLEARANCE - section.points[web, 1]
        upright = ends[web].copy()
        ends[web, 1] = leaning[web, 1]
        ends[web + 1 :] = leaning[web + 1 :]
        v = round(float(section.v[web] + height), 9)
        if height <= POINT:
            ends[web] = leaning[web]
            return path(section, ends)
        share = (v - section.v[web]) / (section.v[web + 1] - section.v[web])
        beside = self._inner(*(one[web, :1] + share * np.diff(one[web]) for one in (fold, bound)))
        inside = [(round(float(upright[0] + share * (upright[1] - upright[0])), 9), v), (float(beside[0]), v)]
        return path(section, ends, {web: inside})
