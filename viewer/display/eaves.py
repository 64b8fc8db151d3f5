"""Eaves and the walls under them: which way an eave looks, and whether a wall stands there or a porch is open."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge

from .openings import WallFrame

FARTHEST = 48.0
"""An eave that hangs farther out than this from the wall behind it, inches, is that of a porch."""

BEYOND = 8.0
"""How far a wall may end short of what stands before it, besides the overhang, inches."""


def level_out(edge: Edge) -> Array:
    """Return the level unit vector square to an edge, away from the roof."""
    flat = edge.outward * [1.0, 1.0, 0.0]
    return np.asarray(flat / np.linalg.norm(flat))


def wall_under(edge: Edge, at: float, frames: Sequence[WallFrame]) -> WallFrame | None:
    """Return the wall under a place of an eave that faces the way it does, the nearest; None where a porch is open.

    Args:
        edge: The eave.
        at: Inches along it.
        frames: The walls of the house.
    """
    out, found = level_out(edge), []
    place = edge.start + at * edge.direction
    for frame in frames:
        behind = float((edge.start - frame.start) @ out)
        along = float((place - frame.start) @ frame.along)
        reach = behind + BEYOND
        if frame.out @ out > 0.99 and -2 < behind < FARTHEST and -reach < along < frame.length + reach:
            found.append((behind, frame))
    return min(found, key=lambda one: one[0])[1] if found else None
