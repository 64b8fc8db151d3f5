"""How deep folded sheets run into each other: separating axes over all pairs of facets at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..sheet.solid import Solid
from .prisms import Ints, Prisms, extents, near_prisms, near_solids, prisms_of, unit

_SIDES = ((0, 1), (1, 2), (2, 3), (3, 0))


@dataclass(frozen=True, slots=True, eq=False)
class Clash:
    """Two solids that run into each other.

    Attributes:
        first: Index of the one.
        second: Index of the other.
        depth: How far one must move to be clear of the other at their worst place, inches.
        point: ``(3,) float, inches, scene frame``: that place.
    """

    first: int
    second: int
    depth: float
    point: Array


def clashes(solids: Sequence[Solid], most: float) -> list[Clash]:
    """Return the pairs of solids that run into each other deeper than ``most`` inches.

    Each facet of the painted side and the one under it on the back make a prism. Two prisms are as deep in
    each other as they overlap along the axis that takes the least: their faces' normals, and the products of
    their edges. A facet that is no convex quadrilateral counts triangle by triangle, each as deep as it alone
    is.

    Source:
        The separating axis theorem for convex bodies: Gottschalk, Lin and Manocha, OBB-Tree (1996), sec. 5.
    """
    if not solids:
        return []
    prisms = prisms_of(solids)
    near = near_solids(prisms, most / 2)
    pairs, which = near_prisms(prisms, near.solids[near.first], most / 2)
    deep, depth = _deeper(prisms, pairs, most)
    worst: dict[int, tuple[float, Array]] = {}
    for i in np.argsort(depth, kind="stable").tolist():
        worst[int(which[deep[i]])] = float(depth[i]), _shared_point(prisms.corners, pairs[deep[i]])
    found = []
    for (first, second), like in zip(near.solids.tolist(), near.like.tolist(), strict=True):
        if like in worst:
            deepest, point = worst[like]
            shift = prisms.origins[first] - prisms.origins[near.solids[near.first[like], 0]]
            found.append(Clash(first, second, deepest, point + shift))
    return found


def _deeper(prisms: Prisms, pairs: Ints, most: float) -> tuple[Ints, Array]:
    """Return which of ``(n, 2)`` pairs of prisms are deeper in each other than ``most``, and how deep.

    The axes that part most pairs are tried first, and the others on what is left.

    Returns:
        ``(m,) int``, the places in the row of pairs; ``(m,) float, inches``.
    """
    left = np.arange(len(pairs))
    for side in (0, 1):
        own = pairs[left]
        first, second = prisms.corners[own.T]
        left = left[_overlap(first, second, prisms.normals[own[:, side], None]) > most]
    depth = np.full(len(left), np.inf)
    first, second = prisms.corners[pairs[left].T]
    for side in (0, 1):
        depth = np.minimum(depth, _overlap(first, second, _sides((first, second)[side])))
        deep = depth > most
        left, depth, first, second = left[deep], depth[deep], first[deep], second[deep]
    for edges in (2, 4):  # most facets are parallelograms, whose other two edges say nothing new
        one, other = _edges(first)[:, :edges, None], _edges(second)[:, None, :edges]
        products = np.cross(one, other).reshape(len(left), edges * edges, 3)
        depth = np.minimum(depth, _overlap(first, second, products))
        deep = depth > most
        left, depth, first, second = left[deep], depth[deep], first[deep], second[deep]
    return left, depth


def _edges(prisms: Array) -> Array:
    """Return ``(n, 4, 3)`` edges of the painted sides of prisms."""
    return np.stack([prisms[:, b] - prisms[:, a] for a, b in _SIDES], axis=1)


def _sides(prisms: Array) -> Array:
    """Return ``(n, 4, 3)`` axes square to the cut sides of prisms, which may lean."""
    rise = prisms[:, 4:] - prisms[:, :4]
    return np.cross(_edges(prisms), np.stack([rise[:, a] + rise[:, b] for a, b in _SIDES], axis=1))


def _overlap(first: Array, second: Array, axes: Array) -> Array:
    """Return how far prisms overlap along that of their ``(n, k, 3)`` axes that takes the least, ``(n,)`` inches.

    A null axis parts nothing.
    """
    axes = unit(axes)
    low, high = extents(first, axes)
    other_low, other_high = extents(second, axes)
    overlap = np.minimum(high - other_low, other_high - low)
    overlap[(axes**2).sum(axis=2) < 0.5] = np.inf
    return np.asarray(overlap.min(axis=1))


def _shared_point(corners: Array, pair: Ints) -> Array:
    """Return the middle of the box that two prisms share: ``(3,) float, inches``."""
    low, high = corners[pair].min(axis=1), corners[pair].max(axis=1)
    return np.asarray((low.max(axis=0) + high.min(axis=0)) / 2)
