"""The house under the metal: deck, boards along its edges, walls."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from trimwright.model.roof.record import Edge, Roof

from .body import Body, slab, triangles_of

BOARD = (5.5, 0.75)
"""Height and thickness of the boards under the deck's edges, inches: shown so that the trim has what it lies on."""

BACK = 1 / 16
"""How far the boards stay behind the edge of the deck, inches: metal that lies on both shows in front."""

DOWN = np.array([0.0, 0.0, -1.0])


def house_bodies(roof: Roof) -> Iterator[Body]:
    """Yield the deck of each face, a board under each free edge, and the walls."""
    for face in roof.faces:
        through = DOWN * roof.deck / math.cos(face.slope)
        yield Body("deck", face.name, *slab(face.outline, through))
    for edge in roof.edges:
        if len(edge.faces) == 1:
            yield _board(edge, roof.deck / math.cos(roof.faces[edge.faces[0]].slope))
    for number, wall in enumerate(roof.walls, 1):
        faces = triangles_of(wall)
        yield Body("wall", f"wall {number}", wall, faces, np.ones(len(faces), dtype=np.int8))


def _board(edge: Edge, deck: float) -> Body:
    """Return the board that hangs plumb under one edge of the deck."""
    height, thickness = BOARD
    level = edge.outward * [1.0, 1.0, 0.0]
    out = level / np.linalg.norm(level)
    line = np.array([edge.start, edge.end]) + DOWN * deck - out * BACK
    face = np.concatenate([line + DOWN * height, line[::-1]])
    if np.cross(face[1] - face[0], face[2] - face[1]) @ out < 0:
        face = face[::-1]
    return Body("fascia", edge.name, *slab(face, -out * thickness))
