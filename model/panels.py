"""Standing-seam panels: how many, how long, and where their seams stand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One panel on one face.

    Attributes:
        name: Face and number, from the left as seen looking up the slope: ``front 3``.
        face: Index of its face.
        outline: ``(n, 3) float, inches, scene frame``; its pan, where it lies, clipped at hips and ridges and
            carried past the noses of eave and rake trim that it hooks round.
        length: Longest length up the slope, inches, hooks included.
        width: Width covered, inches; less than the cover width where a panel is ripped at an edge.
        seams: Upright seams this panel carries, each ``(2, 3) float, inches``: foot line from low to high.
        hooks: Turned edges under the noses, each ``(n, 3) float, inches``: a strip polygon.
        closures: Strips between its seams that carry ridge, hip and high-side caps, each ``(4, 3) float``.
    """

    name: str
    face: int
    outline: Array
    length: float
    width: float
    seams: tuple[Array, ...]
    hooks: tuple[Array, ...]
    closures: tuple[Array, ...]
