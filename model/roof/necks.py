"""Necks: where a slope is all but cut off between the head of two valleys and the ridge or hip above it.

So it is where the ridge of a wing comes up almost as high as the main one. What is left of the slope between them is
too narrow for a panel and lies under the caps. It is parted there, up the slope: then the caps that pass above and the
trim that ends below make up one corner, as where all are of one height.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ..geometry.arrays import Array
from .record import Edge

NARROWEST = 10.0
"""A slope is parted where less of it is left, inches: so much the ends of a hip's cap and of a valley's pan need."""

BESIDE = 6.0
"""A neck this near to the end of the edge above ends there, inches: what is shorter has no trim of its own."""

Rings = list[list[int]]


def parted(
    vertices: Array, rings: Sequence[list[int]], owner: Sequence[int], edges: Sequence[Edge]
) -> tuple[Array, Rings, list[int], tuple[int, int]] | None:
    """Return corners, rings and the face of each ring, with one slope parted at a neck, and the neck; None without one.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them, the face on the left; of every face the outline first.
        owner: Which face each ring belongs to; a new one comes last.
        edges: The edges between the faces, as they are before.
    """
    for place, face in enumerate(owner):
        if list(owner).count(face) > 1:
            continue
        for corner, edge in _necks(vertices, rings[place], face, edges):
            return _parted(vertices, rings, owner, place, corner, edge)
    return None


def _necks(
    vertices: Array, ring: Sequence[int], face: int, edges: Sequence[Edge]
) -> Iterator[tuple[int, Edge]]:
    """Yield the corners at which two valleys end, each with the cap's edge that it is too near to."""
    own = [edge for edge in edges if face in edge.faces]
    for corner in ring:
        beside = [edge for edge in own if corner in edge.vertices]
        if [edge.kind for edge in beside] != ["valley", "valley"] or any(
            edge.vertices[1] != corner for edge in beside
        ):
            continue
        for edge in own:
            if edge.kind in ("ridge", "hip") and np.linalg.norm(_foot(vertices, corner, edge)[0]) < NARROWEST:
                yield corner, edge


def _foot(vertices: Array, corner: int, edge: Edge) -> tuple[Array, int | None]:
    """Return the way from a corner to the nearest place of an edge, and the edge's end if it is that or beside it."""
    spoke = vertices[corner] - edge.start
    along = float(spoke @ edge.direction)
    if along < BESIDE or along > edge.length - BESIDE:
        end = edge.vertices[0 if along < BESIDE else 1]
        return vertices[end] - vertices[corner], end
    return edge.start + along * edge.direction - vertices[corner], None


def _parted(
    vertices: Array, rings: Sequence[list[int]], owner: Sequence[int], place: int, corner: int, edge: Edge
) -> tuple[Array, Rings, list[int], tuple[int, int]]:
    """Return the same with one ring parted between one of its corners and an edge of it."""
    way, foot = _foot(vertices, corner, edge)
    found = [list(ring) for ring in rings]
    if foot is None:
        foot = len(vertices)
        vertices = np.vstack([vertices, vertices[corner] + way])
        for ring in found:
            for k, (a, b) in enumerate(zip(ring, ring[1:] + ring[:1], strict=True)):
                if {a, b} == set(edge.vertices):
                    ring.insert(k + 1, foot)
                    break
    ring = found[place]
    turned = ring[ring.index(corner) :] + ring[: ring.index(corner)]
    cut = turned.index(foot)
    found[place] = turned[: cut + 1]
    outlines = max(owner) + 1
    found.insert(outlines, [*turned[cut:], corner])
    owners = list(owner)
    owners.insert(outlines, outlines)
    return vertices, found, owners, (corner, foot)
