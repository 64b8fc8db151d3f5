"""A roof with its corners moved: faces and edges keep their kinds and names, and get their true sizes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..tolerances import LEVEL, POINT
from .edges import UP, falls_beside, unit
from .faces import face_over
from .record import Edge, Face, Roof


def moved(roof: Roof, vertices: Array) -> Roof:
    """Return a roof of other sizes.

    Args:
        roof: The roof; its kinds of edges stay, though a ridge may come to slope.
        vertices: ``(n, 3) float, inches``; its corners in their order; faces stay plane.

    Raises:
        GeometryError: A face comes out level, plumb or without area.
    """
    faces = tuple(_face(face, roof.vertices, vertices) for face in roof.faces)
    edges = tuple(_edge(edge, faces, vertices) for edge in roof.edges)
    walls = tuple(_wall(wall, roof, faces, vertices) for wall in roof.walls)
    return replace(roof, faces=faces, edges=edges, vertices=vertices, walls=walls)


def _face(face: Face, before: Array, after: Array) -> Face:
    outline, *holes = (
        after[[int(np.abs(before - corner).sum(axis=1).argmin()) for corner in ring]]
        for ring in (face.outline, *face.holes)
    )
    return replace(face_over(outline, holes, POINT), name=face.name)


def _edge(edge: Edge, faces: Sequence[Face], vertices: Array) -> Edge:
    """Return an edge where its ends are now, directed upward if it slopes."""
    a, b = edge.vertices
    own = edge.faces
    rise = vertices[b][2] - vertices[a][2]
    slope = math.atan2(abs(rise), math.hypot(*(vertices[b] - vertices[a])[:2]))
    if rise < 0 and slope > LEVEL:
        a, b, own = b, a, own if edge.kind == "break" else own[::-1]
    along = unit(vertices[b] - vertices[a])
    turned = replace(edge, vertices=(a, b), faces=own, start=vertices[a], end=vertices[b], slope=slope)
    if len(own) == 1:
        outward = cross(along, faces[own[0]].normal)
        return replace(turned, outward=outward if outward @ edge.outward > 0 else -outward)
    outward = unit(cross(along, UP))
    left, right = own
    if edge.kind == "break" and outward @ edge.outward < 0:
        left, right, outward = right, left, -outward
    falls = falls_beside(along, faces[left].normal, faces[right].normal)
    return replace(turned, outward=outward, dihedral=math.pi - sum(falls))


def _wall(wall: Array, roof: Roof, faces: Sequence[Face], vertices: Array) -> Array:
    """Return a wall with its ends moved as the deck over them has moved, and its top under the faces."""
    far = np.linalg.norm(wall[:, None, :2] - wall[None, :, :2], axis=2)
    ends = wall[list(np.unravel_index(far.argmax(), far.shape)), :2]
    way = ends[1] - ends[0]
    if way @ way < POINT:
        return wall
    now = ends + np.array([_shift(point, roof.vertices, vertices) for point in ends])
    shares = (wall[:, :2] - ends[0]) @ way / (way @ way)
    plan = now[0] + shares[:, None] * (now[1] - now[0])
    lift = [
        _over(new, faces) - _over(old, roof.faces) if height > wall[:, 2].min() + POINT else 0.0
        for old, new, height in zip(wall[:, :2], plan, wall[:, 2], strict=True)
    ]
    return np.column_stack([plan, wall[:, 2] + lift])


def _shift(point: Array, before: Array, after: Array) -> Array:
    """Return how far the deck has moved in plan at a point: as its corners have, the near ones most."""
    weights = 1 / np.maximum(np.linalg.norm(before[:, :2] - point, axis=1), 1.0) ** 2
    return np.asarray(weights @ (after - before)[:, :2] / weights.sum())


def _over(point: Array, faces: Sequence[Face]) -> float:
    """Return how high the deck is over a point in plan, inches."""
    spot = shapely.Point(point)
    face = min(faces, key=lambda one: shapely.Polygon(one.outline[:, :2]).distance(spot))
    return float(face.outline[0, 2] - face.normal[:2] @ (point - face.outline[0, :2]) / face.normal[2])
