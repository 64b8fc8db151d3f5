"""Corners of a roof: those close together made one, and edges split where a corner of another face lies on them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array


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


def split(vertices: Array, rings: Sequence[list[int]], tolerance: float) -> list[list[int]]:
    """Return the rings with every corner of another face that lies within one of their edges.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them.
        tolerance: A corner this close to an edge lies on it, inches.
    """
    return [
        [
            vertex
            for start, end in zip(ring, ring[1:] + ring[:1], strict=True)
            for vertex in (start, *_within(vertices, start, end, tolerance))
        ]
        for ring in rings
    ]


def straightened(vertices: Array, rings: Sequence[list[int]], tolerance: float) -> list[list[int]]:
    """Return the rings without corners at which nothing turns and no edge ends.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them.
        tolerance: A corner this close to the line between its neighbors is none, inches.
    """
    kept = [list(ring) for ring in rings]
    for vertex in dict.fromkeys(vertex for ring in rings for vertex in ring):
        own = [ring for ring in kept if vertex in ring]
        places = [(ring, ring.index(vertex)) for ring in own]
        beside = {ring[(k + step) % len(ring)] for ring, k in places for step in (-1, 1)}
        if len(beside) == 2 and min(map(len, own)) > 3 and _off(vertices, vertex, *beside) <= tolerance:
            for ring, k in places:
                del ring[k]
    return kept


def _off(vertices: Array, vertex: int, before: int, after: int) -> float:
    """Return how far a corner is from the stretch between its neighbors, inches."""
    way = vertices[after] - vertices[before]
    spoke = vertices[vertex] - vertices[before]
    share = min(max(float(spoke @ way / (way @ way)), 0.0), 1.0)
    return float(np.linalg.norm(spoke - share * way))


def _within(vertices: Array, start: int, end: int, tolerance: float) -> list[int]:
    """Return the corners that lie within an edge, from its start on."""
    way = vertices[end] - vertices[start]
    length = float(np.linalg.norm(way))
    if length <= tolerance:
        return []
    spokes = vertices - vertices[start]
    share = spokes @ way / length
    aside = np.linalg.norm(spokes - share[:, None] * way / length, axis=1)
    inside = np.flatnonzero((aside <= tolerance) & (share > tolerance) & (share < length - tolerance))
    return [int(i) for i in inside[np.argsort(share[inside])]]
