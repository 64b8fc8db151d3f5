"""Edges of a roof: found, told apart, named and ordered from its faces alone."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ..errors import GeometryError
from ..geometry.polygon import area_vector
from ..message import Angle, Fine, Listed, message
from ..tolerances import LEVEL, POINT
from ..trim_kinds import EdgeKind, rank
from .record import Edge, Face, Hand, Roof

Array = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])
SIDES = ("back", "right", "front", "left")
"""Names by azimuth, a quarter turn each, clockwise from +y."""


def roof_from_faces(
    outlines: Sequence[Array], deck: float, walls: tuple[Array, ...] = (), tolerance: float = POINT
) -> Roof:
    """Return the roof that these faces make.

    Args:
        outlines: Each ``(n, 3) float, inches, scene frame``, counter-clockwise seen from above. Faces meet
            along whole edges: no corner of one lies within an edge of another.
        deck: Thickness of the deck, inches.
        walls: Polygons under the roof, for pictures.
        tolerance: Corners this close are one, and faces may be this far from plane, inches.

    Raises:
        GeometryError: Faces that are not plane, level or plumb, that meet in part of an edge or in a valley,
            or of which three share an edge.
    """
    vertices, rings = merge(outlines, tolerance)
    faces = _faces(vertices, rings, tolerance)
    edges = _edges(vertices, rings, faces)
    _refuse_partial(vertices, edges, tolerance)
    middle = (vertices[:, :2].min(axis=0) + vertices[:, :2].max(axis=0)) / 2
    edges.sort(key=lambda edge: (rank(edge.kind), _turn(edge, middle)))
    names = _numbered([edge.name for edge in edges])
    return Roof(
        faces=faces,
        edges=tuple(replace(edge, name=name) for edge, name in zip(edges, names, strict=True)),
        vertices=vertices,
        deck=deck,
        walls=walls,
    )


def merge(outlines: Sequence[Array], tolerance: float) -> tuple[Array, list[list[int]]]:
    """Return corners without doubles, ``(n, 3)``, and each outline as indices of them.

    Args:
        outlines: Each ``(n, 3) float, inches``.
        tolerance: Corners this close are one, inches; the first one met stands for all.
    """
    points = np.concatenate(list(outlines))
    near = np.linalg.norm(points[:, None] - points[None], axis=2) <= tolerance
    first = near.argmax(axis=1)
    kept, index = np.unique(first, return_inverse=True)
    rings = []
    start = 0
    for outline in outlines:
        ring = [int(i) for i in index[start : start + len(outline)]]
        rings.append([vertex for k, vertex in enumerate(ring) if vertex != ring[k - 1]])
        start += len(outline)
    return points[kept], rings


def _faces(vertices: Array, rings: list[list[int]], tolerance: float) -> tuple[Face, ...]:
    """Return the faces, named by the way they fall."""
    areas = [area_vector(vertices[ring]) if len(ring) > 2 else np.zeros(3) for ring in rings]
    found = []
    for ring, vector in zip(rings, areas, strict=True):
        outline = vertices[ring]
        area = float(np.linalg.norm(vector))
        if area <= tolerance**2:
            raise GeometryError(
                message("A roof face has no area. Give every face at least three corners in a triangle.")
            )
        normal = vector / area
        slope = math.atan2(math.hypot(normal[0], normal[1]), normal[2])
        if slope >= math.pi / 2:
            raise GeometryError(
                message(
                    "A roof face stands plumb or is listed clockwise (slope {slope} deg). "
                    "List its corners counter-clockwise seen from above.",
                    slope=Angle(slope, 1),
                )
            )
        if slope <= LEVEL:
            raise GeometryError(
                message(
                    "A roof face falls only {slope} deg, less than can be told from level. "
                    "Give it more than {least} deg.",
                    slope=Angle(slope, 3),
                    least=Angle(LEVEL, 2),
                )
            )
        off = float(np.abs((outline - outline[0]) @ normal).max())
        if off > max(tolerance, POINT):
            raise GeometryError(
                message(
                    "A roof face is {off} out of plane, and {allowed} is allowed. "
                    "Split it into triangles or correct its corners.",
                    off=Fine(off),
                    allowed=Fine(tolerance),
                )
            )
        found.append(Face(_side(normal), outline, normal, area, slope, _azimuth(normal)))
    names = _numbered([face.name for face in found])
    return tuple(replace(face, name=name) for face, name in zip(found, names, strict=True))


def _edges(vertices: Array, rings: list[list[int]], faces: tuple[Face, ...]) -> list[Edge]:
    """Return the edges, named but not yet numbered or ordered."""
    sides: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
    for face, ring in enumerate(rings):
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sides[min(a, b), max(a, b)].append((face, a, b))
    edges = []
    for users in sides.values():
        if len(users) == 1:
            edges.append(_outer_edge(vertices, faces, *users[0]))
        elif len(users) == 2:
            edges.append(_shared_edge(vertices, faces, users))
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
    outward = np.cross(along, face.normal)
    hand: Hand | None = None
    if abs(along[2]) <= math.sin(LEVEL):
        kind: EdgeKind = "eave" if outward[2] < 0 else "high"
        name = f"{face.name} eave" if kind == "eave" else f"{_side(outward)} high edge"
    else:
        kind = "rake"
        if along[2] < 0:
            a, b, along = b, a, -along
        rightward = np.cross(UP, outward)
        hand = "left" if along @ rightward > 0 else "right"
        name = f"{_side(outward)}-end {hand} rake"
    return Edge(
        name=name,
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


def _shared_edge(vertices: Array, faces: tuple[Face, ...], users: list[tuple[int, int, int]]) -> Edge:
    """Return the edge between two faces."""
    (one, a, b), (two, c, d) = users
    names = Listed((faces[one].name, faces[two].name))
    if (a, b) != (d, c):
        raise GeometryError(
            message(
                "Faces {faces} lie on the same side of an edge they share. Faces may not overlap.",
                faces=names,
            )
        )
    along = unit(vertices[b] - vertices[a])
    level = abs(along[2]) <= math.sin(LEVEL)
    ahead = along[np.argmax(np.abs(along[:2]))] if level else along[2]
    if ahead < 0:
        a, b, along = b, a, -along
        one, two = two, one
    falls = falls_beside(along, faces[one].normal, faces[two].normal)
    if abs(sum(falls)) <= LEVEL:
        raise GeometryError(message("Faces {faces} lie in one plane. Make one face of them.", faces=names))
    if sum(falls) < 0:
        raise GeometryError(
            message(
                "Faces {faces} meet in a valley, which cannot be trimmed. Give a roof without valleys.",
                faces=names,
            )
        )
    if min(falls) <= 0:
        raise GeometryError(
            message(
                "Faces {faces} meet where the pitch changes. Give slopes that both fall away.", faces=names
            )
        )
    sides = sorted(
        (_side(faces[face].normal) for face in (one, two)), key=("front", "back", "left", "right").index
    )
    return Edge(
        name="ridge" if level else f"{sides[0]}-{sides[1]} hip",
        kind="ridge" if level else "hip",
        faces=(one, two),
        start=vertices[a],
        end=vertices[b],
        vertices=(a, b),
        outward=unit(np.cross(along, UP)),
        hand=None,
        dihedral=math.pi - sum(falls),
        slope=_rise(vertices[a], vertices[b]),
    )


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
    outward = unit(np.cross(along, UP))
    rise = np.cross(outward, along)
    into_left = np.cross(left, along)
    into_right = np.cross(along, right)
    return (
        math.atan2(-into_left @ rise, -into_left @ outward),
        math.atan2(-into_right @ rise, into_right @ outward),
    )


def _refuse_partial(vertices: Array, edges: list[Edge], tolerance: float) -> None:
    """Refuse faces that meet along part of an edge: a corner of one within an edge of another."""
    for edge in edges:
        share = (vertices - edge.start) @ edge.direction
        aside = np.linalg.norm(vertices - edge.start - share[:, None] * edge.direction, axis=1)
        inside = (aside <= tolerance) & (share > tolerance) & (share < edge.length - tolerance)
        if inside.any():
            x, y, z = vertices[inside.argmax()]
            raise GeometryError(
                message(
                    "A corner at ({x}, {y}, {z}) stands within the {edge}. Give that edge a corner there too.",
                    x=Fine(float(x)),
                    y=Fine(float(y)),
                    z=Fine(float(z)),
                    edge=edge.name,
                )
            )


def unit(vector: Array) -> Array:
    """Return ``(3,)`` of length 1."""
    return np.asarray(vector / np.linalg.norm(vector))


def _rise(start: Array, end: Array) -> float:
    """Return the angle from level between two points, radians, 0 or more."""
    run = math.hypot(end[0] - start[0], end[1] - start[1])
    return abs(math.atan2(end[2] - start[2], run))


def _azimuth(toward: Array) -> float:
    """Return a direction in plan, radians clockwise from +y, in ``[0, 2 pi)``; a hair short of +y is +y."""
    azimuth = math.atan2(toward[0], toward[1]) % math.tau
    return 0.0 if math.tau - azimuth < POINT else azimuth


def _side(toward: Array) -> str:
    """Return ``front``, ``back``, ``left`` or ``right`` for a direction in plan."""
    quarter = math.atan2(toward[0], toward[1]) / (math.pi / 2)
    return SIDES[round(quarter) % 4]


def _turn(edge: Edge, middle: Array) -> float:
    """Return how far round the roof an edge lies, counter-clockwise from the front, radians."""
    x, y, _ = (edge.start + edge.end) / 2
    angle = math.atan2(y - middle[1], x - middle[0]) + math.pi / 2
    return (angle + LEVEL) % math.tau


def _numbered(names: list[str]) -> list[str]:
    """Return the names, those that several share numbered in order."""
    times = Counter(names)
    seen: Counter[str] = Counter()
    unique = []
    for name in names:
        seen[name] += 1
        unique.append(f"{name} {seen[name]}" if times[name] > 1 else name)
    return unique
