"""A section: a profile bent to one edge's angles, with its bend lines on the flat sheet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Leg:
    """A straight part of a section.

    Attributes:
        name: ``top``, ``return``, ``face``, ``kick``, ``hem``, ``left wing`` ...
        strip: Index of its strip.
        relieved: It is cut away where the piece lies under another one at a lap.
        fastened: Screws go through it.
    """

    name: str
    strip: int
    relieved: bool
    fastened: bool


@dataclass(frozen=True, slots=True, eq=False)
class Section:
    """A cross-section as a chain of flat strips; a bend is one strip for each 90 degrees of it.

    Attributes:
        profile: Name of the profile.
        thickness: Of the metal, inches.
        v: ``(n + 1,) float, inches``: the lines between strips on the flat sheet, 0 at the inboard edge.
        points: ``(n + 1, 2) float, inches``: the same lines in ``(out, up)`` of the run, at mid thickness.
        legs: The straight strips, in order.
        bends: Names of the bends would be superfluous: ``(k, 3) float``: first line, last line, angle in radians,
            positive away from the painted side.
    """

    profile: str
    thickness: float
    v: Array
    points: Array
    legs: tuple[Leg, ...]
    bends: tuple[tuple[int, int, float], ...]

    @property
    def width(self) -> float:
        """Developed width, inches."""
        return float(self.v[-1])
