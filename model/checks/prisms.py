"""Prisms: each facet of the painted side with the one under it on the back; which of them come near each other.

Boxes are compared before anything else. Solids of one shape that differ by a shift only are looked at once for each
shift between them: of a row of alike panels over alike trim there is one pair to look at.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..geometry.arrays import Array
from ..sheet.solid import Solid

Ints = NDArray[np.int64]

DIGITS = 7
"""Decimals of an inch to which solids and shifts between them are alike."""


@dataclass(frozen=True, slots=True, eq=False)
class Prisms:
    """The prisms of some solids.

    Attributes:
        corners: ``(n, 8, 3) float, inches, scene frame``: the painted side's corners first.
        low: ``(n, 3) float, inches, scene frame``: the lowest corner of each prism's box.
        high: The same, the highest.
        begins: ``(s + 1,) int``: those of solid ``k`` are ``begins[k]`` to ``begins[k + 1]``.
        origins: ``(s, 3) float, inches, scene frame``: a point of each solid.
        normals: ``(n, 3)`` unit normals of the painted sides.
        lies: ``(s, 3)`` that of each solid's largest facet: square to how it lies.
        shapes: ``(s,) int``: solids with the same number differ by a shift only.
    """

    corners: Array
    low: Array
    high: Array
    begins: Ints
    origins: Array
    normals: Array
    lies: Array
    shapes: Ints


@dataclass(frozen=True, slots=True, eq=False)
class Near:
    """Solids whose boxes overlap, and which of these pairs differ by a shift only.

    Attributes:
        solids: ``(m, 2) int``: pairs of solids.
        like: ``(m,) int``: the pair in ``first`` that each is like.
        first: ``(k,) int``: the first pair of each kind, an index into ``solids``.
    """

    solids: Ints
    like: Ints
    first: Ints


def prisms_of(solids: Sequence[Solid]) -> Prisms:
    """Return the prisms of all solids."""
    # Solids of one shape share the array of their faces, and so the facets that it makes up.
    forms = {id(solid.faces): solid for solid in solids}
    number = {form: k for k, form in enumerate(forms)}
    form = np.array([number[id(solid.faces)] for solid in solids])
    facets, facets_begin = _facets(list(forms.values()))
    vertices = np.concatenate([solid.vertices for solid in solids])
    sizes = np.array([len(solid.vertices) for solid in solids])
    start = np.cumsum(sizes) - sizes
    counts = np.diff(facets_begin)[form]
    owner = np.repeat(np.arange(len(solids)), counts)
    top = facets[_ranges(facets_begin[form], counts)] + start[owner][:, None]
    corners = vertices[np.concatenate([top, top + (sizes // 2)[owner][:, None]], axis=1)]
    origins = vertices[start]
    placed = np.round(vertices - np.repeat(origins, sizes, axis=0), DIGITS) + 0.0
    known: dict[tuple[int, bytes], int] = {}
    shapes = [
        known.setdefault((one, placed[low : low + size].tobytes()), len(known))
        for one, low, size in zip(form.tolist(), start.tolist(), sizes.tolist(), strict=True)
    ]
    begins = np.concatenate([[0], np.cumsum(counts)])
    low, high = (pick.reduce([corners[:, k] for k in range(8)]) for pick in (np.minimum, np.maximum))
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals = unit(across)
    lies = normals[_largest(np.linalg.norm(across, axis=1), begins)]
    return Prisms(corners, low, high, begins, origins, normals, lies, np.array(shapes))


def near_solids(prisms: Prisms, least: float) -> Near:
    """Return the pairs of solids, the first before the second, whose boxes overlap by ``least`` inches."""
    low, high = _solid_boxes(prisms)
    plan = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    pairs = shapely.STRtree(plan).query(plan).T.astype(np.int64)
    pairs = pairs[pairs[:, 0] < pairs[:, 1]]
    a, b = pairs.T
    pairs = pairs[(np.minimum(high[a], high[b]) - np.maximum(low[a], low[b]) > least).all(axis=1)]
    pairs = pairs[np.lexsort(pairs.T[::-1])]
    a, b = pairs.T
    shift = np.round((prisms.origins[b] - prisms.origins[a]) * 10**DIGITS).astype(np.int64)
    known: dict[tuple[int, ...], int] = {}
    kinds = np.column_stack([prisms.shapes[a], prisms.shapes[b], shift]).tolist()
    like = np.array([known.setdefault(tuple(kind), len(known)) for kind in kinds], dtype=np.int64)
    return Near(pairs, like, np.unique(like, return_index=True)[1])


def near_prisms(prisms: Prisms, pairs: Ints, least: float) -> tuple[Ints, Ints]:
    """Return the pairs of prisms whose boxes overlap by ``least`` inches, of these pairs of solids.

    Returns:
        ``(m, 2) int`` pairs of prisms, and ``(m,) int``, of which pair of solids each is.
    """
    first, second = (_reaching(prisms, pairs, side, least) for side in (0, 1))
    count = np.bincount(second.pair, minlength=len(pairs))
    begin = np.cumsum(count) - count
    times = count[first.pair]
    a, b = np.repeat(np.arange(len(first.pair)), times), _ranges(begin[first.pair], times)
    for low, high, other_low, other_high in zip(first.low, first.high, second.low, second.high, strict=True):
        over = np.minimum(high[a], other_high[b]) - np.maximum(low[a], other_low[b])
        a, b = a[over > least], b[over > least]
    return np.column_stack([first.prism[a], second.prism[b]]), first.pair[a]


@dataclass(frozen=True, slots=True, eq=False)
class _Reaching:
    """The prisms of one solid of each pair that reach into the box of the other.

    Attributes:
        pair: ``(n,) int``: of which pair, in rising order.
        prism: ``(n,) int``.
        low: ``(5, n) float, inches``: where its box begins along the ways in which the two solids lie, and x, y, z.
        high: The same, where it ends.
    """

    pair: Ints
    prism: Ints
    low: Array
    high: Array


def _reaching(prisms: Prisms, pairs: Ints, side: int, least: float) -> _Reaching:
    """Return the prisms of the first (0) or the second (1) of each pair that reach into the other's box."""
    low, high = prisms.low, prisms.high
    lowest, highest = _solid_boxes(prisms)
    solid, counts = pairs[:, side], np.diff(prisms.begins)
    pair = np.repeat(np.arange(len(pairs)), counts[solid])
    prism = _ranges(prisms.begins[solid], counts[solid])
    other = pairs[pair, 1 - side]
    over = np.minimum(high[prism], highest[other]) - np.maximum(low[prism], lowest[other])
    inside = (over > least).all(axis=1)
    pair, prism = pair[inside], prism[inside]
    near, far = extents(prisms.corners[prism], prisms.lies[pairs[pair]])
    return _Reaching(
        pair, prism, np.concatenate([near.T, low[prism].T]), np.concatenate([far.T, high[prism].T])
    )


def _solid_boxes(prisms: Prisms) -> tuple[Array, Array]:
    """Return the lowest and the highest corner of each solid's box, ``(s, 3) float, inches, scene frame``."""
    at = prisms.begins[:-1]
    return np.minimum.reduceat(prisms.low, at), np.maximum.reduceat(prisms.high, at)


def _largest(sizes: Array, begins: Ints) -> Ints:
    """Return ``(s,)`` the first of each solid's facets that is as large as any of them."""
    owner = np.repeat(np.arange(len(begins) - 1), np.diff(begins))
    found = np.flatnonzero(sizes == np.maximum.reduceat(sizes, begins[:-1])[owner])
    return found[np.searchsorted(owner[found], np.arange(len(begins) - 1))]


def _ranges(begins: Ints, counts: Ints) -> Ints:
    """Return the numbers from each of ``begins`` on, as many as ``counts`` says, one lot after the other."""
    before = np.cumsum(counts) - counts
    return np.asarray(np.repeat(begins - before, counts) + np.arange(counts.sum()))


def _facets(solids: Sequence[Solid]) -> tuple[Ints, Ints]:
    """Return ``(n, 4)`` corners of the painted sides' facets, and ``(s + 1,)`` where those of each solid begin.

    A triangle has its last corner twice. Two triangles that follow each other and make up a flat convex
    quadrilateral become one facet.
    """
    tops = [solid.faces[solid.side == 1] for solid in solids]
    sizes = np.array([len(solid.vertices) for solid in solids])
    owner = np.repeat(np.arange(len(solids)), [len(top) for top in tops])
    start = (np.cumsum(sizes) - sizes)[owner][:, None]
    top = np.concatenate(tops) + start
    quads, whole = _quads(np.concatenate([solid.vertices for solid in solids]), top)
    begins = np.flatnonzero(whole & ~np.concatenate([[False], whole[:-1]]))
    place = np.arange(len(whole))
    run = np.searchsorted(begins, place, side="right") - 1
    chosen = whole & ((place - begins[np.maximum(run, 0)]) % 2 == 0) if len(begins) else whole
    single = np.ones(len(top), dtype=bool)
    single[:-1] &= ~chosen
    single[1:] &= ~chosen
    alone = np.concatenate([top, top[:, 2:]], axis=1) - start
    found = np.concatenate([(quads - start[:-1])[chosen], alone[single]])
    owners = np.concatenate([owner[:-1][chosen], owner[single]])
    order = np.argsort(owners, kind="stable")
    counts = np.bincount(owners, minlength=len(solids))
    return found[order], np.concatenate([[0], np.cumsum(counts)])


def _quads(vertices: Array, top: Ints) -> tuple[Ints, NDArray[np.bool_]]:
    """Return ``(n - 1, 4)`` corners of each triangle with the next, and whether they make up a flat convex facet."""
    first, second = top[:-1], top[1:]
    same = first[:, :, None] == second[:, None, :]
    apex = same.any(axis=2).argmin(axis=1)
    far = second[np.arange(len(second)), same.any(axis=1).argmin(axis=1)]
    p, q, r = (np.take_along_axis(first, (apex[:, None] + k) % 3, axis=1)[:, 0] for k in range(3))
    quads = np.stack([p, q, far, r], axis=1)
    corner = vertices[quads]
    turns = np.cross(
        np.roll(corner, -1, axis=1) - corner, np.roll(corner, -2, axis=1) - np.roll(corner, -1, axis=1)
    )
    turns = unit(turns)
    flat = (np.einsum("nij,nj->ni", turns, turns[:, 0]) > 1 - 1e-9).all(axis=1)
    return quads, flat & (same.sum(axis=(1, 2)) == 2)


def extents(corners: Array, axes: Array) -> tuple[Array, Array]:
    """Return from where to where ``(n, 8, 3)`` prisms reach along their ``(n, k, 3)`` axes, ``(n, k)`` inches each."""
    x, y, z = np.moveaxis(axes, 2, 0)
    low = np.full(x.shape, np.inf)
    high = -low
    for corner in np.moveaxis(corners, 1, 0):
        along = corner[:, :1] * x + corner[:, 1:2] * y + corner[:, 2:] * z
        np.minimum(low, along, out=low)
        np.maximum(high, along, out=high)
    return low, high


def unit(vectors: Array) -> Array:
    """Return ``vectors`` with length 1, or 0 where they have next to none."""
    length = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return np.where(length > 1e-9, vectors / np.maximum(length, 1e-9), 0.0)
