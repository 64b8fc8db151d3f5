"""A face mitered along its neighbor's face, with a tab folded round the corner onto it.

Shared by every corner where one piece's face turns onto another's: a rake over an eave trim, and two level
trims at an outside corner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import GeometryError
from ..geometry.arrays import Array
from ..message import Fine, message
from ..sheet.fold import strip_fold
from ..sheet.sheet import Tab
from ..tolerances import CLEARANCE
from .flap import flap
from .stand import Stand, meet


@dataclass(frozen=True, slots=True, eq=False)
class Miter:
    """The miter on one face.

    Attributes:
        strip: Strip of the face.
        u: ``u`` of the miter line at the face's inner and outer bend line, inches.
        notch: ``(2,) float, inches``: the point of the miter line where the neighbor's face ends and its kick
            turns out, in ``(u, v)``.
        tab: The tab; None when none is asked for.
    """

    strip: int
    u: tuple[float, float]
    notch: Array
    tab: Tab | None

    def at(self, v: float, section_v: Array) -> float:
        """Return ``u`` of the miter line at ``v``, inches."""
        first, last = section_v[self.strip], section_v[self.strip + 1]
        return float(self.u[0] + (self.u[1] - self.u[0]) * (v - first) / (last - first))

    def line(self, section_v: Array) -> Array:
        """Return the miter line, ``(2, 2) float, inches``, from the face's inner to its outer bend line."""
        return np.column_stack([self.u, section_v[self.strip : self.strip + 2]])


def miter_onto(over: Stand, under: Stand, width: float) -> Miter:
    """Miter ``over``'s face along ``under``'s face and give it a tab ``width`` inches wide.

    Raises:
        GeometryError: the two faces do not share enough height for a tab.
    """
    strip, other = over.section.strip_of("face"), under.section.strip_of("face")
    gap = (over.thickness + under.thickness) / 2
    point, normal = under.plane(other, gap)
    first, last = over.cut(point, normal)[strip]
    v = over.section.v
    ends = []
    for line in (other, other + 1):
        start = under.point(0.0, line) + normal * gap
        ends.append(over.on_sheet(strip, meet(over, strip, start, under.along)))
    miter = Miter(strip, (float(first), float(last)), ends[1], None)
    if width <= 0:
        return miter
    relief = over.thickness + CLEARANCE
    top = max(ends[0][1], v[strip]) + relief
    bottom = min(ends[1][1], v[strip + 1]) - relief
    if bottom - top < width:
        raise GeometryError(
            message(
                "{run}: the faces of '{over}' and '{under}' share only {shared} of height at the corner, "
                "too little for a tab of {tab}; use profiles of like depth, or `tab = 0`",
                run=over.run.name,
                over=over.run.section.profile,
                under=under.run.section.profile,
                shared=Fine(max(bottom - top, 0)),
                tab=Fine(width),
            )
        )
    hinge = np.array([[miter.at(top, v), top], [miter.at(bottom, v), bottom]])
    fold, _ = strip_fold(over.section, strip)
    down = over.direction(fold[:, :2] @ (hinge[1] - hinge[0])) / np.linalg.norm(hinge[1] - hinge[0])
    climb = float(under.away @ down)
    rises = climb / math.sqrt(max(1.0 - climb**2, 1e-9))
    tab = flap(over, strip, hinge, width, -under.away, (max(-rises, 0.0) + 0.5, max(rises, 0.0) + 1.0))
    return Miter(strip, miter.u, ends[1], tab)
