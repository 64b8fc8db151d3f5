"""Edges of a roof: found, told apart, named and ordered from its faces alone."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..edge_kinds import EdgeKind, rank
from ..errors import GeometryError
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..message import Listed, message
from ..tolerances import LEVEL, POINT
from .corners import merge, split, straightened
from .faces import faces_of
from .names import ByLook, Names, numbered
from .necks import parted
from .record import Edge, Face, Hand, Roof
from .trued import trued
from .unite import united

UP = np.array([0.0, 0.0, 1.0])

NEARLY_LEVEL = math.radians(10.0)
"""An edge that turns less than this from the level line of its face, in the face's plane, is an eave or a high edge."""


def roof_from_faces(
    outlines: Sequence[Array],
    deck: float,
    walls: tuple[Array, ...] = (),
    tolerance: float = POINT,
    holes: Sequence[tuple[Array, ...]] = (),
    names: Names = ByLook(),  # noqa: B008
) -> Roof:
    """Return the roof that these faces make.

    Args:
        outlines: Each ``(n, 3) float, inches, scene frame``, counter-clockwise seen from above. An edge is
            split where a corner of another face lies on it.
        deck: Thickness of the deck, inches.
        walls: Polygons under the roof, for pictures.
        tolerance: Corners this close are one, and faces may be this far from plane, inches.
        holes: For each face what is left out of it, ``(n, 3) float, inches`` each, clockwise seen from above;
            nothing where none has any.
        names: What faces and edges are called.

    Raises:
        GeometryError: Faces that are not plane, level or plumb, that overlap or lie in one plane, or of which
            three share an edge.
    """
    inner = list(holes) or [()] * len(outlines)
    owner = [*range(len(outlines)), *(face for face, own in enumerate(inner) for _ in own)]
    vertices, rings = merge([*outlines, *(hole for own in inner for hole in own)], tolerance)
    rings, owner = united(vertices, split(vertices, rings, tolerance), owner, max(tolerance, POINT))
    rings = straightened(vertices, rings, tolerance)
    if tolerance > POINT:
        vertices = trued(vertices, rings, owner, tolerance)
    faces = faces_of(vertices, rings, owner, tolerance, names)
    edges = _edges(vertices, rings, owner, faces)
    necks: list[tuple[int, int]] = []
    while (apart := parted(vertices, rings, owner, edges)) is not None:
        vertices, rings, owner, neck = apart
        necks.append(neck)
        names = names.parted([vertices[ring] for ring in rings[: max(owner) + 1]])
        faces = faces_of(vertices, rings, owner, tolerance, names)
        edges = _edges(vertices, rings, owner, faces, necks)
    middle = (vertices[:, :2].min(axis=0) + vertices[:, :2].max(axis=0)) / 2
    edges.sort(key=lambda edge: (rank(edge.kind), _turn(edge, middle)))
    called = numbered([names.edge(edge, faces) for edge in edges])
    return Roof(
        faces=faces,
        edges=tuple(replace(edge, name=name) for edge, name in zip(edges, called, strict=True)),
        vertices=vertices,
        deck=deck,
        walls=walls,
    )


def _edges(
    vertices: Array,
    rings: list[list[int]],
    owner: list[int],
    faces: tuple[Face, ...],
    necks: Sequence[tuple[int, int]] = (),
) -> list[Edge]:
    """Return the edges, not yet named; a neck counts as a hip, though its faces lie in one plane."""
    sides: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
    for face, ring in zip(owner, rings, strict=True):
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sides[min(a, b), max(a, b)].append((face, a, b))
    edges = []
    for users in sides.values():
        if len(users) == 1:
            edges.append(_outer_edge(vertices, faces, *users[0]))
        elif len(users) == 2:
            edges.append(_shared_edge(vertices, faces, users, necks))
        else:
            told = message(
                "{count} faces share one edge ({faces}). An edge has one face or two.",
                count=len(users),
                faces=Listed(tuple(faces[face].name for face, _, _ in users), "comma"),
            )
            raise GeometryError(told)
    return edges


def _outer_edge(vertices: Array, faces: tuple[Face, ...], index: int, a: int, b: int) -> Edge:
    """Return the edge of one face that its ring passes from vertex ``a`` to ``b``."""
    face = faces[index]
    along = unit(vertices[b] - vertices[a])
    outward = cross(along, face.normal)
    hand: Hand | None = None
    level = abs(along[2]) <= math.sin(LEVEL)
    if along[2] < 0 and not level:
        a, b, along = b, a, -along
    if level or abs(along[2]) <= math.sin(NEARLY_LEVEL) * math.sin(face.slope):
        kind: EdgeKind = "eave" if outward[2] < 0 else "high"
    else:
        kind = "rake"
        rightward = cross(UP, outward)
        hand = "left" if along @ rightward > 0 else "right"
    return Edge(
        name="",
        kind=kind,
        faces=(index,),
        start=vertices[a],
        end=vertices[b],
        vertices=(a, b),
        outward=outward,
        hand=hand,
        dihedral=math.pi,
        slope=_rise(vertices[a], vertices[b]),
    )


def _shared_edge(
    vertices: Array,
    faces: tuple[Face, ...],
    users: list[tuple[int, int, int]],
    necks: Sequence[tuple[int, int]],
) -> Edge:
    """Return the edge between two faces."""
    (one, a, b), (two, c, d) = users
    both = Listed((faces[one].name, faces[two].name))
    if (a, b) != (d, c):
        raise GeometryError(
            message(
                "Faces {faces} lie on the same side of an edge they share. Faces may not overlap.",
                faces=both,
            )
        )
    along = unit(vertices[b] - vertices[a])
    level = abs(along[2]) <= math.sin(LEVEL)
    ahead = along[np.argmax(np.abs(along[:2]))] if level else along[2]
    if ahead < 0:
        a, b, along = b, a, -along
        one, two = two, one
    falls = falls_beside(along, faces[one].normal, faces[two].normal)
    if (
        level and falls[1] < 0 < falls[0]
    ):  # of a break the upper face is on the left, as of an eave its only one
        a, b, along = b, a, -along
        one, two = two, one
        falls = (falls[1], falls[0])
    outward = unit(cross(along, UP))
    if (
        falls[1] < 0 < falls[0]
    ):  # a break that slopes keeps its direction, and may have its upper face on the right
        one, two, outward = two, one, -outward
    is_neck = any({a, b} == set(neck) for neck in necks)
    if abs(sum(falls)) <= LEVEL and not is_neck:
        raise GeometryError(message("Faces {faces} lie in one plane. Make one face of them.", faces=both))
    return Edge(
        name="",
        kind="hip" if is_neck else _kind_between(falls, level),
        faces=(one, two),
        start=vertices[a],
        end=vertices[b],
        vertices=(a, b),
        outward=outward,
        hand=None,
        dihedral=math.pi - sum(falls),
        slope=_rise(vertices[a], vertices[b]),
    )


def _kind_between(falls: tuple[float, float], level: bool) -> EdgeKind:
    """Return the kind of an edge between two faces, from how far they fall away from it, radians."""
    if min(falls) > 0:
        return "ridge" if level else "hip"
    return "valley" if max(falls) < 0 else "break"


def falls_beside(along: Array, left: Array, right: Array) -> tuple[float, float]:
    """Return how far two faces fall below level in a section square to the edge between them, radians.

    On a hip this is its backing: the angle planed off the hip rafter on each side so that the deck lies on
    it, and the angle a hip cap bends to each side. On a ridge it is the two slopes.

    Args:
        along: ``(3,)`` unit vector, the edge's direction.
        left: ``(3,)`` unit normal of the face left of the direction.
        right: The same for the face on the right.

    Source:
        *Radford's Cyclopedia of Construction* vol. 3 (backing of hips).
    """
    outward = unit(cross(along, UP))
    rise = cross(outward, along)
    into_left = cross(left, along)
    into_right = cross(along, right)
    return (
        math.atan2(-into_left @ rise, -into_left @ outward),
        math.atan2(-into_right @ rise, into_right @ outward),
    )


def unit(vector: Array) -> Array:
    """Return ``(3,)`` of length 1."""
    return np.asarray(vector / np.linalg.norm(vector))


def _rise(start: Array, end: Array) -> float:
    """Return the angle from level between two points, radians, 0 or more."""
    run = math.hypot(end[0] - start[0], end[1] - start[1])
    return abs(math.atan2(end[2] - start[2], run))


def _turn(edge: Edge, middle: Array) -> float:
    """Return how far round the roof an edge lies, counter-clockwise from the front, radians."""
    x, y, _ = (edge.start + edge.end) / 2
    angle = math.atan2(y - middle[1], x - middle[0]) + math.pi / 2
    return (angle + LEVEL) % math.tau
