"""Screws: where each one goes, as tape marks from its piece's low end and as points on the roof."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, eq=False)
class Screw:
    """One screw.

    Attributes:
        mark: Mark of its piece.
        at: Distance from the piece's low end, inches.
        across: Distance over the developed width from the inboard edge, inches.
        point: ``(3,) float, inches, scene frame``; where its head meets the painted side.
        normal: ``(3,)`` unit vector out of the painted side.
        placed: It was put there by hand in the scene.
    """

    mark: str
    at: float
    across: float
    point: NDArray[np.float64]
    normal: NDArray[np.float64]
    placed: bool
