"""The solid: a folded sheet with its thickness, closed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A closed triangle mesh.

    Attributes:
        vertices: ``(n, 3) float, inches, scene frame``.
        faces: ``(m, 3) int``; counter-clockwise seen from outside.
        side: ``(m,) int8``: 1 on the painted side, -1 on the back, 0 on the cut edges.
    """

    vertices: NDArray[np.float64]
    faces: NDArray[np.int64]
    side: NDArray[np.int8]
