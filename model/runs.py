"""Runs: one trim along one edge, with the cross-section that the roof's own angles give it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from .profiles.section import Section
from .roof.record import Edge
from .scene.schema import TrimSpec

Array = NDArray[np.float64]
Trim = Literal["eave", "rake", "high", "ridge", "hip"]


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """One trim along one edge.

    Attributes:
        name: The edge's name: a run is known by where it is.
        code: Letter and number that its pieces' marks begin with: ``R2``.
        edge: The edge it lies on.
        trim: Kind of trim.
        spec: What the scene asks of it.
        section: Its cross-section, bends and developed width.
        frame: ``(4, 4)`` matrix from ``(u, out, up)`` in inches to the scene frame, before any piece is
            lifted over its neighbour. Columns are the edge's direction, ``out`` and ``up``.
    """

    name: str
    code: str
    edge: Edge
    trim: Trim
    spec: TrimSpec
    section: Section
    frame: Array

    @property
    def length(self) -> float:
        """Length of the edge, inches."""
        return self.edge.length

    @property
    def hand(self) -> str | None:
        """``left`` or ``right`` for a rake, else None."""
        return self.edge.hand
