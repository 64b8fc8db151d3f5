"""A roof of measured faces: its edges told from them alone, those under a higher roof as steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely

from ..errors import GeometryError, Problem
from ..geometry.arrays import Array
from ..message import message
from ..scene.faces import FacesSpec
from .edges import roof_from_faces
from .names import numbered, side_name
from .record import Edge, Face, Roof

BESIDE = 1.0
"""How far outside an edge it is looked for what stands there, inches."""


def measured_roof(spec: FacesSpec) -> Roof:
    """Return the roof of measured faces.

    Raises:
        GeometryError: Faces that make no roof: level, not plane, or overlapping; a hole of a face that is not there.
    """
    lost = [number for number in spec.holes if not 1 <= number <= len(spec.faces)]
    if lost:
        told = message(
            "there is no face {number}; they are numbered from 1 to {count}",
            number=lost[0],
            count=len(spec.faces),
        )
        raise GeometryError(Problem(told, ("roof", "holes")))
    faces = [np.array(face) for face in spec.faces]
    holes = [tuple(np.array(ring) for ring in spec.holes.get(k, ())) for k in range(1, len(faces) + 1)]
    walls = tuple(np.array(wall) for wall in spec.walls)
    return _with_steps(roof_from_faces(faces, spec.deck, walls, spec.tolerance, holes))


def _with_steps(roof: Roof) -> Roof:
    """Return the roof with each edge that lies against something higher told as a step."""
    plans = [
        shapely.Polygon(face.outline[:, :2], [hole[:, :2] for hole in face.holes]) for face in roof.faces
    ]
    edges = [_as_step(edge) if _is_step(edge, roof.faces, plans) else edge for edge in roof.edges]
    names = numbered([edge.name for edge in edges])
    return replace(
        roof, edges=tuple(replace(edge, name=name) for edge, name in zip(edges, names, strict=True))
    )


def _as_step(edge: Edge) -> Edge:
    return replace(edge, kind="step", hand=None, name=f"{side_name(edge.outward)} step")


def _is_step(edge: Edge, faces: Sequence[Face], plans: Sequence[shapely.Polygon]) -> bool:
    """Return whether another face is higher than an edge just outside of it."""
    if len(edge.faces) != 1:
        return False
    level = edge.outward[:2] / np.linalg.norm(edge.outward[:2])
    middle = (edge.start + edge.end) / 2
    spot: Array = middle[:2] + BESIDE * level
    for number, (face, plan) in enumerate(zip(faces, plans, strict=True)):
        if number not in edge.faces and plan.contains(shapely.Point(spot)):
            corner = face.outline[0]
            height = corner[2] - face.normal[:2] @ (spot - corner[:2]) / face.normal[2]
            if height > middle[2] + BESIDE:
                return True
    return False
