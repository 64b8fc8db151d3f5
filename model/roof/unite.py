"""Faces that lie in one plane and share an edge are made one: models split a slope wherever they like."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..geometry.polygon import area_vector
from .skeleton.front import first_clockwise

LEAN = math.radians(1.0)
"""Faces that lean farther from each other are two, radians, however small they are."""


def united(
    vertices: Array, rings: Sequence[list[int]], owner: Sequence[int], tolerance: float
) -> tuple[list[list[int]], list[int]]:
    """Return the rings with neighbors in one plane united, and the face of each, outlines before holes.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them, the face on the left; of every face the outline first.
        owner: Which face each ring belongs to.
        tolerance: Corners this close to a plane lie on it, inches.
    """
    sides = {
        (a, b): face
        for face, ring in zip(owner, rings, strict=True)
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True)
    }
    corners: dict[int, set[int]] = defaultdict(set)
    for face, ring in zip(owner, rings, strict=True):
        corners[face].update(ring)
    planes = {face: _plane(vertices, rings[owner.index(face)]) for face in corners}
    root = {face: face for face in corners}

    def top(face: int) -> int:
        while root[face] != face:
            face = root[face]
        return face

    for (a, b), face in sides.items():
        other = sides.get((b, a))
        if other is None or top(other) == top(face):
            continue
        if all(
            _lies_in(vertices, corners[one], planes[two], tolerance)
            for one, two in ((face, other), (other, face))
        ) and (planes[face][1] @ planes[other][1] > math.cos(LEAN)):
            low, high = sorted((top(face), top(other)))
            root[high] = low
    if all(top(face) == face for face in root):
        return list(rings), list(owner)
    return _joined(vertices, owner, sides, {face: top(face) for face in root})


def _plane(vertices: Array, ring: Sequence[int]) -> tuple[Array, Array]:
    """Return a point and the unit normal of a ring."""
    vector = area_vector(vertices[list(ring)])
    return vertices[list(ring)].mean(axis=0), vector / max(float(np.linalg.norm(vector)), 1e-12)


def _lies_in(vertices: Array, corners: set[int], plane: tuple[Array, Array], tolerance: float) -> bool:
    return float(np.abs((vertices[list(corners)] - plane[0]) @ plane[1]).max()) <= tolerance


def _joined(
    vertices: Array,
    owner: Sequence[int],
    sides: dict[tuple[int, int], int],
    top: dict[int, int],
) -> tuple[list[list[int]], list[int]]:
    """Return the rings of the united faces: what is left of their edges, joined again."""
    outer: list[list[int]] = []
    inner: list[tuple[int, list[int]]] = []
    number = {face: k for k, face in enumerate(dict.fromkeys(top[face] for face in owner))}
    for face in number:
        leaving: dict[int, list[int]] = defaultdict(list)
        for (a, b), one in sides.items():
            if top[one] == face and top.get(sides.get((b, a), -1)) != face:
                leaving[a].append(b)
        found = list(_loops(vertices, leaving))
        areas = [float(area_vector(vertices[ring])[2]) for ring in found]
        first = int(np.argmax(areas))
        outer.append(found[first])
        inner += [(number[face], ring) for k, ring in enumerate(found) if k != first]
    return [*outer, *(ring for _, ring in inner)], [*range(len(outer)), *(face for face, _ in inner)]


def _loops(vertices: Array, leaving: dict[int, list[int]]) -> list[list[int]]:
    """Return the rings that edges make; at a corner that several pass, each takes the first one clockwise."""
    found = []
    for start in list(leaving):
        while leaving[start]:
            ring, here = [start], leaving[start].pop()
            while here != start and leaving[here]:
                ways = vertices[leaving[here]][:, :2] - vertices[here][:2]
                chosen = first_clockwise(vertices[ring[-1]][:2] - vertices[here][:2], leaving[here], ways)
                leaving[here].remove(chosen)
                ring.append(here)
                here = chosen
            found.append(ring)
    return found
