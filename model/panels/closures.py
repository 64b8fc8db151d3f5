"""Closures: strips between the seams that carry ridge, hip and high-side trim, and keep weather out under it.

A closure is a Z of sheet metal: its foot on the pan, its web as high as the trim over it, its flange under the row of
screws; or a strip of foam as high. It is cut square to the eave round the seams beside it, its web stepped where the
fold along a seam's top leans over. It reaches into the turned-down end of the trim, and is mitered where two caps meet.
Where its two ends would meet in its foot or its flange, that is made narrower.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..runs import Run
from ..sheet.fold import strip_fold
from ..sheet.sheet import Sheet
from ..sheet.solid import Solid
from ..tolerances import TAPE


@dataclass(frozen=True, slots=True, eq=False)
class Closure:
    """One closure.

    Attributes:
        name: ``ridge, front 3``: the run that it carries, and the panel or the pan that it stands on.
        at: Name of the run.
        panel: Name of the panel that it stands on; at a valley's head, of the one beside it.
        pan: Mark of the valley's pan that it stands on; None on a panel.
        face: Index of the face.
        kind: What it is called.
        foam: It is a strip of foam, which holds no screw.
        open_share: How much of its web lets air through, a share of 1.
        line: ``(2, 3) float, inches, scene frame``: the foot of its web, from left to right.
        sheet: Its flat pattern and bends, back up: the side of the web that is seen is painted; ``u`` runs to
            the right. A strip of foam is one upright leg as thick as the foam, as long as its longer side.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet, or the block of foam, in the scene frame.
    """

    name: str
    at: str
    panel: str
    pan: str | None
    face: int
    kind: str
    foam: bool
    open_share: float
    line: Array
    sheet: Sheet
    placement: Array
    solid: Solid

    @property
    def length(self) -> float:
        """Length of its blank, inches."""
        return self.sheet.length

    @property
    def height(self) -> float:
        """From the underside of its foot to the top of its flange, or of its foam, inches."""
        section = self.sheet.section
        return float(np.ptp(section.points[:, 1])) + (0.0 if self.foam else section.thickness)

    @property
    def free_area(self) -> float:
        """Area of the holes in its web, square inches."""
        if not self.open_share:
            return 0.0
        section = self.sheet.section
        web = section.strip_of("web")
        left, right = self.sheet.extent
        upright = shapely.box(left, section.v[web], right, section.v[web + 1])
        return self.open_share * float(shapely.area(shapely.intersection(self.sheet.pattern, upright)))


def held_along(
    closures: Sequence[Closure], runs: Sequence[Run]
) -> dict[tuple[str, int], tuple[float, float]]:
    """Return from where to where along each run the flanges of closures stand on each face, inches.

    No screw goes through foam on a valley's pan.
    """
    closures = [closure for closure in closures if closure.pan is None or not closure.foam]
    ends: dict[tuple[str, int], tuple[float, float]] = {}
    if not closures:
        return ends
    lines = {run.name: (run.edge.start, run.edge.direction) for run in runs}
    sheets = {id(closure.sheet): closure.sheet for closure in closures}
    flanges = {key: _flange_ends(sheet) for key, sheet in sheets.items()}
    widths: dict[str, float] = {}
    for closure in closures:
        widths[closure.at] = max(widths.get(closure.at, 0.0), _flange_width(closure))
    start, way = np.array([lines[closure.at] for closure in closures]).transpose(1, 0, 2)
    place = np.array([closure.placement for closure in closures])
    corners = np.array([flanges[id(closure.sheet)] for closure in closures])
    u = np.einsum("ni,nij,nekj->nek", way, place[:, :3, :3], corners)
    u += ((place[:, :3, 3] - start) * way).sum(axis=1)[:, None, None]
    backward = u[:, 0].sum(axis=1) > u[:, 1].sum(axis=1)
    u[backward] = u[backward, ::-1]
    first, last = u[:, 0].max(axis=1), u[:, 1].min(axis=1)
    for closure, begin, end in zip(closures, first.tolist(), last.tolist(), strict=True):
        if _flange_width(closure) < widths[closure.at] - TAPE:
            continue  # no row of screws stands on a narrow flange
        low, high = ends.get((closure.at, closure.face), (np.inf, -np.inf))
        ends[closure.at, closure.face] = min(low, begin), max(high, end)
    return ends


def joints_on_pans(closures: Sequence[Closure]) -> dict[int, Array]:
    """Return where the flanges of closures on pans end beside those on panels, by the index of the face.

    Screws keep off there as off a seam: ``(n, 2, 3) float, inches, scene frame``.
    """
    found: dict[int, list[Array]] = {}
    for closure in closures:
        others = [
            one.line for one in closures if (one.at, one.face, one.pan) == (closure.at, closure.face, None)
        ]
        if closure.pan is not None and not closure.foam and others:
            ends = _flange_ends(closure.sheet) @ closure.placement[:3, :3].T + closure.placement[:3, 3]
            away = np.linalg.norm(ends.mean(axis=1) - np.mean(others, axis=(0, 1)), axis=1)
            found.setdefault(closure.face, []).append(ends[int(away.argmin())])
    return {face: np.array(joints) for face, joints in found.items()}


def _flange_width(closure: Closure) -> float:
    """Return how wide the flange of a Z is, inches; 0 where it has none, and of foam."""
    section = closure.sheet.section
    if section.leg("flange") is None:
        return 0.0
    strip = section.strip_of("flange")
    return float(section.v[strip + 1] - section.v[strip])


def _flange_ends(sheet: Sheet) -> Array:
    """Return the corners of what holds a cap's screws, ``(2, 2, 3) float, inches``, in ``(u, out, up)``.

    That is the flange of a Z, and a strip of foam as a whole: its low and its high end.
    """
    section = sheet.section
    strip = section.legs[-1].strip
    fold, _ = strip_fold(section, strip)
    lines = (section.v[strip], section.v[strip + 1])
    cuts = (sheet.low.line, sheet.high.line)
    flat = np.array([[(np.interp(v, cut[:, 1], cut[:, 0]), v, 1.0) for v in lines] for cut in cuts])
    return np.asarray(flat @ fold.T)
