"""Posts and the beam on them under the eave of a porch. For pictures; no trim depends on them, and no load is reckoned.

Sizes and distances are common practice, no source; what a porch stands on is for the local code and who frames it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge, Roof

from .body import Mesh, slab
from .eaves import level_out, wall_under
from .wall_frames import WallFrame

POST, BEAM = 5.5, 7.25
"""Width of a post and of the beam, and the beam's height, inches."""

INSIDE, FROM_END = 8.0, 10.0
"""How far the middle of the beam stays behind the deck's edge, and a post's from the end of the eave, inches."""

APART = 144.0
"""The farthest that two posts stand apart, inches."""

LOWEST = 24.0
"""Under a beam lower than this, inches, there are neither posts nor beam."""


def porch_posts(roof: Roof, frames: Sequence[WallFrame]) -> Iterator[Mesh]:
    """Yield the beam and the posts of each level eave that no wall stands under."""
    ground = min((float(wall[:, 2].min()) for wall in roof.walls), default=0.0)
    for edge in roof.edges:
        level = edge.kind == "eave" and edge.slope < 1e-3
        if level and edge.length > 3 * FROM_END and wall_under(edge, edge.length / 2, frames) is None:
            yield from _under(edge, roof, ground)


def _under(edge: Edge, roof: Roof, ground: float) -> Iterator[Mesh]:
    """Yield the beam and the posts of one eave."""
    slope = roof.faces[edge.faces[0]].slope
    underside = (INSIDE - POST / 2) * math.tan(slope) - roof.deck / math.cos(slope)
    top = float(edge.start[2]) + underside
    if top - BEAM - ground < LOWEST:
        return
    yield _upright(edge, FROM_END - POST / 2, edge.length - FROM_END + POST / 2, top, top - BEAM)
    count = math.ceil((edge.length - 2 * FROM_END) / APART) + 1
    for at in np.linspace(FROM_END, edge.length - FROM_END, count).tolist():
        yield _upright(edge, at - POST / 2, at + POST / 2, top - BEAM, ground)


def _upright(edge: Edge, first: float, last: float, top: float, foot: float) -> Mesh:
    """Return a block under an eave, from one place along it to another, between two heights."""
    out, along = level_out(edge), edge.direction
    corners: list[Array] = [
        edge.start + far * along - (INSIDE + side * POST / 2) * out
        for far, side in ((first, 1), (first, -1), (last, -1), (last, 1))
    ]
    ring = np.array(corners)
    ring[:, 2] = top
    if np.cross(ring[1] - ring[0], ring[2] - ring[1])[2] < 0:
        ring = ring[::-1]
    return slab(ring, np.array([0.0, 0.0, foot - top]))
