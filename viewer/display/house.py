"""The house under the metal: deck, boards along its edges, walls."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge, Roof

from .body import Body, Mesh, slab, triangles_of
from .eaves import BOARD, level_out

BACK = 1 / 16
"""How far the boards stay behind the edge of the deck, inches: metal that lies on both shows in front."""

DOWN = np.array([0.0, 0.0, -1.0])


def house_bodies(roof: Roof) -> Iterator[Body]:
    """Yield the deck of each face, a board under each free edge, and the walls."""
    for face in roof.faces:
        through = DOWN * roof.deck / math.cos(face.slope)
        yield Body("deck", face.name, *slab(face.outline, through))
    free = [edge for edge in roof.edges if len(edge.faces) == 1]
    for edge in free:
        deck = roof.deck / math.cos(roof.faces[edge.faces[0]].slope)
        yield Body("fascia", edge.name, *_board(edge, free, deck))
    for number, wall in enumerate(roof.walls, 1):
        faces = triangles_of(wall)
        yield Body("wall", f"wall {number}", wall, faces, np.ones(len(faces), dtype=np.int8))


def _board(edge: Edge, free: list[Edge], deck: float) -> Mesh:
    """Return the board that hangs plumb under one edge of the deck, mitered with those beside it."""
    height, thickness = BOARD
    corners = []
    for inward in (BACK, BACK + thickness):
        for place, vertex in zip((edge.start, edge.end), edge.vertices, strict=True):
            beside = next((one for one in free if one is not edge and vertex in one.vertices), None)
            corners.append(_set_in(edge, beside, place, inward) + DOWN * deck)
    top = np.array([corners[0], corners[1], corners[3], corners[2]])
    if np.cross(top[1] - top[0], top[2] - top[1])[2] < 0:
        top = top[::-1]
    return slab(top, DOWN * height)


def _set_in(edge: Edge, beside: Edge | None, corner: Array, inward: float) -> Array:
    """Return the point on an edge's plumb plane, moved in from it, where the one beside it is met."""
    own = level_out(edge)
    shift = own if beside is None else (own + level_out(beside)) / (1 + own @ level_out(beside))
    along = edge.direction
    run = along[0] ** 2 + along[1] ** 2
    far = -inward * float(shift @ along) / run
    return np.asarray(corner - inward * shift + [0.0, 0.0, far * along[2]])
