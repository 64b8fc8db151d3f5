"""Eaves and the walls under them: which way an eave looks, whether a wall stands there, what it hides of that."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge, Roof

from .wall_frames import WallFrame

BOARD = (5.5, 0.75)
"""Height and thickness of the boards under the deck's edges, inches: shown so that the trim has what it lies on."""

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


def line_under(frame: WallFrame, roof: Roof) -> float:
    """Return how high of a wall is seen under its level eaves, inches from the ground; infinite without any."""
    lines = [math.inf]
    for edge in roof.edges:
        if len(edge.faces) > 1 or edge.slope > 1e-3 or frame.out @ level_out(edge) < 0.99:
            continue
        before = float((edge.start - frame.start) @ frame.out)
        reach = [float((end - frame.start) @ frame.along) for end in (edge.start, edge.end)]
        if -2 < before < FARTHEST and min(reach) < frame.length and max(reach) > 0:
            deck = roof.deck / math.cos(roof.faces[edge.faces[0]].slope)
            lines.append(float(edge.start[2] - frame.start[2]) - deck - BOARD[0])
    return min(lines)
