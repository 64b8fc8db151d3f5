"""Short edges: hips, ridges and valleys too short for trim of their own, and how the trim at both ends of one is cut.

What ends at either end of a short edge makes up one corner. Two caps that meet on a slope there are mitered on the line
that halves the angle between them, as where they meet in a point; and where the short edge cuts the slope off before
they do, their wings are cut along it.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from ..geometry.arrays import Array
from ..geometry.vectors import cross, level_square
from ..roof.build import is_bridged
from ..roof.record import Edge, Roof
from ..runs import Run
from ..tolerances import CLEARANCE, POINT, TAPE
from .cap import Wing, wings
from .meeting import Met
from .stand import Stand

ALONG = 0.05
"""Sine of the angle up to which an edge runs along a valley: the pan's wing beside it does not reach it."""

IN_LINE = math.sin(math.radians(12))
"""Two edges that turn less than this from each other's line do not cross anywhere near the short edge between them."""

STRAIGHT_ON = math.sin(math.radians(3))
"""An edge that turns less than this from a valley's line goes on with it: no cut along the one crosses the other."""

Plane = tuple[Array, Array]
"""A point and the normal of a plane, scene frame."""


def crossing_above(cap: Stand, other: Edge, wing: Wing, roof: Roof) -> Array:
    """Return where the middle bend of a cap, gone on, crosses the line of another edge of a wing's face.

    Both lie as high above the deck as the cap does. Where the two are nearly in line it is the middle between them.

    Args:
        cap: The cap.
        other: The edge, at whose end the cap's corner lies, or at whose end a short edge from there does.
        wing: The wing of the cap on the face that the two share.
        roof: The roof.
    """
    height = height_of(cap)
    near = end_near(other, cap.corner)
    shared = roof.faces[wing.face].normal
    if float(np.linalg.norm(cross(cap.run.edge.direction, other.direction))) < IN_LINE:
        return np.asarray((cap.corner + near) / 2 + shared * height)
    far = [roof.faces[next(i for i in edge.faces if i != wing.face)].normal for edge in (cap.run.edge, other)]
    normals = np.array([shared, *far])
    at = np.array([cap.corner, cap.corner, near])
    return np.asarray(np.linalg.solve(normals, (normals * at).sum(axis=1) + height))


def height_of(cap: Stand) -> float:
    """Return how far the middle of a cap's metal stands above the deck at its wings, square to it, inches."""
    strip = wings(cap)[0].strip
    return float(cap.section.points[strip] @ cap.section.normals[strip])


def end_near(edge: Edge, point: Array) -> Array:
    """Return the end of an edge that lies nearer to a point."""
    return min((edge.start, edge.end), key=lambda end: float(np.linalg.norm(end - point)))


def bounds(cap: Stand, wing: Wing, met: Met) -> list[Plane]:
    """Return the plumb planes through the short edges that cut a wing's face off before the cap's end, facing out.

    What is shorter than a tape shows cuts nothing off.
    """
    height = height_of(cap)
    found = []
    for edge in met.bridged:
        outward = out_of(edge, wing.face) if wing.face in edge.faces else -cap.away
        if outward @ cap.away > 0 and edge.length > TAPE:
            normals = np.array([met.roof.faces[face].normal for face in edge.faces])
            lifted = edge.start + np.linalg.lstsq(normals, np.full(2, height), rcond=None)[0]
            found.append((lifted, outward))
    return found


def beside_head(valley: Run, face: int, roof: Roof) -> tuple[Edge, Array]:
    """Return the edge by which a face goes on from the head of a valley, and the unit vector along it from there."""
    vertex = valley.edge.vertices[1]
    edge = next(
        one for one in roof.edges if one is not valley.edge and vertex in one.vertices and face in one.faces
    )
    return edge, edge.direction if edge.vertices[0] == vertex else -edge.direction


def _top_way(valley: Run, face: int, roof: Roof) -> Array:
    """Return the way in which a face ends beside the head of a valley.

    That is along the edge beside it; past a short one that is a valley, or from which the face widens, straight on to
    where the wing of the valley's pan reaches the next.
    """
    vertex, edge = valley.edge.vertices[1], valley.edge
    along: list[tuple[Edge, Array]] = []
    while edge is valley.edge or is_bridged(edge):
        edge = next(
            one for one in roof.edges if one is not edge and vertex in one.vertices and face in one.faces
        )
        at_start = edge.vertices[0] == vertex
        near = edge.start if at_start else edge.end
        vertex = edge.vertices[1 if at_start else 0]
        along.append((edge, edge.direction if at_start else -edge.direction))
    (first, way), (_, away) = along[0], along[-1]
    into, turn = cross(valley.edge.direction, way), cross(way, away)
    if len(along) == 1 or (first.kind != "valley" and into @ turn > 0):
        return way
    corner = valley.edge.end
    section = valley.section
    width = float(section.width / 2 - section.v[section.strip_of("left wing")])
    aside, gain = (float(np.linalg.norm(cross(way, valley.edge.direction))) for way in (near - corner, away))
    return np.asarray(near + away * max(width - aside, 0.0) / max(gain, POINT) - corner)


def head_normal(valley: Run, face: int, roof: Roof) -> Array:
    """Return the unit vector square to which a wing of a valley's pan ends at its head, out past it.

    That is level, and square to the way in which the face ends there; where that goes on in line with the valley the
    wing ends square across.
    """
    out = valley.edge.direction
    normal = level_square(_top_way(valley, face, roof), out)
    return normal if normal @ out > STRAIGHT_ON else out


def out_of(edge: Edge, face: int) -> Array:
    """Return the level unit vector square to an edge of a face, out of the face."""
    outward = edge.outward * [1.0, 1.0, 0.0]
    return np.asarray((1.0 if edge.faces[0] == face else -1.0) * outward / np.linalg.norm(outward))


def held_inside(
    cap: Stand, wing: Wing, line: Sequence[tuple[float, float]], planes: Sequence[Plane]
) -> list[tuple[float, float]]:
    """Return the cut of a wing held inside planes, from its outer line to its inner one.

    Metal is cut square to itself: where a wing leans over a plane, its painted side reaches past the cut.

    Args:
        cap: The cap.
        wing: The wing.
        line: Its cut without them, ``(u, v)`` from its outer line to its inner one.
        planes: Each a point and its normal, outward.
    """
    v = cap.section.v
    held = [(u * cap.sign, at) for u, at in line]
    for point, normal in planes:
        past = cap.thickness / 2 * abs(float(cap.plane(wing.strip)[1] @ normal))
        first, last = cap.cut(point - normal * (CLEARANCE + past), normal)[wing.strip] * cap.sign
        outer, inner = (first, last) if wing.left else (last, first)
        held = _least(held, [(float(outer), float(v[wing.outer])), (float(inner), float(v[wing.inner]))])
    return [(u * cap.sign, at) for u, at in held]


def _least(one: list[tuple[float, float]], other: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return of two lines from one ``v`` to another, each ``(u, v)``, the one with less ``u``, place by place."""
    way = 1.0 if one[-1][1] > one[0][1] else -1.0
    lines = [np.array([(at * way, u) for u, at in line]) for line in (one, other)]
    places = sorted({float(at) for line in lines for at in line[:, 0]})
    gaps = [float(np.interp(at, *lines[0].T) - np.interp(at, *lines[1].T)) for at in places]
    for (a, first), (b, last) in pairwise(list(zip(places, gaps, strict=True))):
        if first * last < 0:
            places.append(a + (b - a) * first / (first - last))
    return [(float(min(np.interp(at, *line.T) for line in lines)), float(at * way)) for at in sorted(places)]
