"""How deep folded sheets run into each other: separating axes over all pairs of facets at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..geometry.arrays import Array
from ..sheet.solid import Solid

Ints = NDArray[np.int64]

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
    prisms, owner = _prisms(solids)
    pairs = _near(prisms, owner, most)
    normals = _unit(np.cross(prisms[:, 1] - prisms[:, 0], prisms[:, 2] - prisms[:, 0]))
    for side in (0, 1):
        axes = normals[pairs[:, side]]
        pairs = pairs[_overlap(prisms, pairs, axes[:, None])[:, 0] > most]
    if not len(pairs):
        return []
    depth = _overlap(prisms, pairs, _axes(prisms, pairs)).min(axis=1)
    pairs, depth = pairs[depth > most], depth[depth > most]
    worst: dict[tuple[int, int], int] = {}
    for i in np.argsort(depth).tolist():
        a, b = sorted(owner[pairs[i]].tolist())
        worst[a, b] = i
    return [Clash(a, b, float(depth[i]), _shared_point(prisms, pairs[i])) for (a, b), i in worst.items()]


def _prisms(solids: Sequence[Solid]) -> tuple[Array, Ints]:
    """Return ``(n, 8, 3)`` prisms of all solids, the painted side's corners first, and their owners."""
    prisms, owner = [], []
    known: dict[int, Ints] = {}
    for number, solid in enumerate(solids):
        # Solids of one shape share the array of their faces, and so the facets that it makes up.
        top = known.get(id(solid.faces))
        if top is None:
            top = known[id(solid.faces)] = _facets(solid)
        under = top + len(solid.vertices) // 2
        prisms.append(solid.vertices[np.concatenate([top, under], axis=1)])
        owner.append(np.full(len(top), number, dtype=np.int64))
    return np.concatenate(prisms), np.concatenate(owner)


def _facets(solid: Solid) -> Ints:
    """Return ``(n, 4)`` corners of the painted side's facets; a triangle has its last corner twice.

    Two triangles that follow each other and make up a flat convex quadrilateral become one facet.
    """
    top = solid.faces[solid.side == 1]
    alone = np.concatenate([top, top[:, 2:]], axis=1)
    if len(top) < 2:
        return alone
    first, second = top[:-1], top[1:]
    same = first[:, :, None] == second[:, None, :]
    apex = same.any(axis=2).argmin(axis=1)
    far = second[np.arange(len(second)), same.any(axis=1).argmin(axis=1)]
    p, q, r = (np.take_along_axis(first, (apex[:, None] + k) % 3, axis=1)[:, 0] for k in range(3))
    quads = np.stack([p, q, far, r], axis=1)
    corner = solid.vertices[quads]
    turns = np.cross(
        np.roll(corner, -1, axis=1) - corner, np.roll(corner, -2, axis=1) - np.roll(corner, -1, axis=1)
    )
    turns = _unit(turns)
    flat = (np.einsum("nij,nj->ni", turns, turns[:, 0]) > 1 - 1e-9).all(axis=1)
    whole = flat & (same.sum(axis=(1, 2)) == 2)
    begins = np.flatnonzero(whole & ~np.concatenate([[False], whole[:-1]]))
    place = np.arange(len(whole))
    run = np.searchsorted(begins, place, side="right") - 1
    chosen = whole & ((place - begins[np.maximum(run, 0)]) % 2 == 0) if len(begins) else whole
    single = np.ones(len(top), dtype=bool)
    single[:-1] &= ~chosen
    single[1:] &= ~chosen
    return np.concatenate([quads[chosen], alone[single]])


def _near(prisms: Array, owner: Ints, most: float) -> Ints:
    """Return ``(m, 2)`` pairs of prisms of different solids whose boxes overlap."""
    low, high = prisms.min(axis=1), prisms.max(axis=1)
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    pairs = shapely.STRtree(boxes).query(boxes).T.astype(np.int64)
    pairs = pairs[owner[pairs[:, 0]] < owner[pairs[:, 1]]]
    first, second = pairs.T
    over = np.minimum(high[first], high[second]) - np.maximum(low[first], low[second])
    return np.asarray(pairs[(over > most * 0.5).all(axis=1)])


def _axes(prisms: Array, pairs: Ints) -> Array:
    """Return ``(m, k, 3)`` unit axes that can part each pair: side normals, and products of edges."""
    edges = np.stack([prisms[:, b] - prisms[:, a] for a, b in _SIDES], axis=1)
    rise = prisms[:, 4:].mean(axis=1) - prisms[:, :4].mean(axis=1)
    sides = np.cross(edges, rise[:, None])
    first, second = edges[pairs[:, 0]], edges[pairs[:, 1]]
    products = np.cross(first[:, :, None], second[:, None, :]).reshape(len(pairs), 16, 3)
    return _unit(np.concatenate([sides[pairs[:, 0]], sides[pairs[:, 1]], products], axis=1))


def _overlap(prisms: Array, pairs: Ints, axes: Array) -> Array:
    """Return ``(m, k)`` how far each pair overlaps along its axes, inches; infinite along a null axis."""
    first = np.matmul(axes, prisms[pairs[:, 0]].transpose(0, 2, 1))
    second = np.matmul(axes, prisms[pairs[:, 1]].transpose(0, 2, 1))
    one_way = first.max(axis=2) - second.min(axis=2)
    other_way = second.max(axis=2) - first.min(axis=2)
    return np.where((axes**2).sum(axis=2) > 0.5, np.minimum(one_way, other_way), np.inf)


def _unit(vectors: Array) -> Array:
    """Return ``vectors`` with length 1, or 0 where they have next to none."""
    length = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return np.where(length > 1e-9, vectors / np.maximum(length, 1e-9), 0.0)


def _shared_point(prisms: Array, pair: Ints) -> Array:
    """Return the middle of the box that two prisms share: ``(3,) float, inches``."""
    low, high = prisms[pair].min(axis=1), prisms[pair].max(axis=1)
    return np.asarray((low.max(axis=0) + high.min(axis=0)) / 2)
