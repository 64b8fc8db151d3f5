"""The solid: a folded sheet with its thickness, closed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from ..geometry.arrays import Array
from .fold import facets
from .sheet import Cut, Sheet

Ints = NDArray[np.int64]

FORMED = 1000
"""Sheets of which the form is kept: few change when a scene does."""

TURNED = 1e-3
"""Twice the area of a triangle that counts as turned over, square inches: smaller ones are not seen."""


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A closed triangle mesh.

    Attributes:
        vertices: ``(n, 3) float, inches, scene frame``; the corners of the painted side, then those of the back in
            the same order. Solids of one shape and length share the other two arrays.
        faces: ``(m, 3) int``; counter-clockwise seen from outside.
        side: ``(m,) int8``: 1 on the painted side, -1 on the back, 0 on the cut edges.
    """

    vertices: Array
    faces: Ints
    side: NDArray[np.int8]

    @property
    def volume(self) -> float:
        """Cubic inches."""
        a, b, c = (self.vertices[self.faces[:, i]] for i in range(3))
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)


def thicken(sheet: Sheet, placement: Array) -> Solid:
    """Fold ``sheet``, give it its thickness and set it in place.

    Args:
        sheet: What to fold.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame; may mirror.
    """
    return thicken_alike(sheet, placement[None])[0]


def thicken_alike(sheet: Sheet, placements: Array) -> list[Solid]:
    """Return the solid of ``sheet`` in each of several ``(n, 4, 4)`` places, all of them mirrored or none."""
    shape = _Shape(sheet)
    one = formed(shape)
    local = one.vertices.copy()
    local[:, 0] += np.where(one.far, shape.high - shape.span, shape.low)
    turns = placements[:, :3, :3].transpose(0, 2, 1)
    vertices = local @ turns + placements[:, None, :3, 3]
    faces = _faces(shape, round(shape.high - shape.low, 9), _mirrors(placements[0]))
    return [Solid(placed, faces, one.side) for placed in vertices]


def _mirrors(placement: Array) -> bool:
    """Return whether a placement mirrors: the product of its three axes is negative."""
    (a, b, c), (d, e, f), (g, h, i) = placement[:3, :3].tolist()
    return bool(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) < 0)


class _Shape:
    """What the form of a sheet depends on: it equals that of any other sheet with the same ends, however far apart.

    Attributes:
        low: Where its low end begins, ``u``.
        high: Where its high end begins.
        span: How far apart the two are in the form that all of its shape are stretched from, inches.
        middle: Nearer than this along ``u`` it is the low end there, farther on the high end; where the two
            reach into each other they are always as far apart as in the sheet.
    """

    def __init__(self, sheet: Sheet) -> None:
        section = sheet.section
        self._sheet = sheet
        self.low, self.high = float(sheet.low.line[0, 0]), float(sheet.high.line[0, 0])
        low, high = (_shifted(cut, at) for cut, at in ((sheet.low, self.low), (sheet.high, self.high)))
        past, before = float(low[:, 0].max()), float(high[:, 0].min())
        self.span = round(self.high - self.low, 9)
        if not sheet.holes and before + self.span > past:
            self.span = past - before + 1.0
        self.middle = past + 0.5
        self._content = (
            section.thickness,
            section.points.tobytes(),
            section.v.tobytes(),
            self.span,
            len(sheet.low.line),
            len(low),
            tuple((tab.strip, tab.angle, tab.on is None, len(tab.flap)) for tab in sheet.tabs),
            low.tobytes(),
            high.tobytes(),
            *((hole - [self.low, 0.0]).tobytes() for hole in sheet.holes),
        )

    @property
    def sheet(self) -> Sheet:
        """The sheet with its low end at 0 and its high end at ``span``."""
        one, low = self._sheet, self.low
        holes = tuple(hole - [low, 0.0] for hole in one.holes)
        return Sheet(one.section, one.low.moved(-low), one.high.moved(-self.high).moved(self.span), holes)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Shape) and self._content == other._content

    def __hash__(self) -> int:
        return hash(self._content)


def _shifted(cut: Cut, at: float) -> Array:
    """Return all points of an end, ``(n, 2) float, inches``, its cut beginning at ``u`` = 0."""
    points = np.concatenate([cut.line, *(line for tab in cut.tabs for line in (tab.hinge, tab.flap))])
    points[:, 0] = np.round(points[:, 0] - at, 9)
    return points


@dataclass(frozen=True, slots=True, eq=False)
class _Form:
    """A folded, thickened sheet in its own frame ``(u, out, up)``.

    Attributes:
        vertices: ``(n, 3) float, inches``, as of a `Solid`.
        far: ``(n,) bool``: which of them belong to the high end.
        side: As of a `Solid`.
        rim: ``(r, 3) int``: the faces of the cut edges.
        top: ``(t, 3) int``: triangles of the facets, turning as seen from the painted side.
        facet: ``(t,) int``: which facet each of them is of.
        rings: The corners round each facet.
        inner: Those round its holes.
        planes: ``(facets, 3, 2)``: from ``(u, out, up)`` to ``(u, v)`` in the plane of each facet.
    """

    vertices: Array
    far: NDArray[np.bool_]
    side: NDArray[np.int8]
    rim: Ints
    top: Ints
    facet: Ints
    rings: list[list[int]]
    inner: list[list[list[int]]]
    planes: Array


@lru_cache(FORMED)
def _faces(shape: _Shape, length: float, mirrored: bool) -> Ints:
    """Return the faces of a shape stretched to a length: solids that differ by a shift only have the same array."""
    form = formed(shape)
    places, n = form.vertices.copy(), len(form.vertices) // 2
    places[form.far, 0] += length - shape.span
    painted, back = (_unturned(form, one) for one in (places[:n], places[n:]))
    faces = np.concatenate([painted, back[:, ::-1] + n, form.rim])
    return np.ascontiguousarray(faces[:, ::-1] if mirrored else faces)


@lru_cache(FORMED)
def formed(shape: _Shape) -> _Form:
    """Return a sheet folded, with its thickness, in its own frame ``(u, out, up)``.

    A corner shared by facets is offset so that it lies half a thickness off each of them.
    """
    sheet = shape.sheet
    parts = facets(sheet)
    index: dict[tuple[float, float], int] = {}
    owners: list[list[int]] = []
    space: list[Array] = []
    rings: list[list[int]] = []
    inner: list[list[list[int]]] = []
    for number, part in enumerate(parts):
        loops = []
        for ring in (part.ring, *part.holes):
            places = part.to_space(ring)
            loop: list[int] = []
            for corner, place in zip(map(tuple, ring.tolist()), places, strict=True):
                at = index.setdefault(corner, len(space))
                if at == len(space):
                    space.append(place)
                    owners.append([number])
                elif owners[at][-1] != number:
                    owners[at].append(number)
                if not loop or loop[-1] != at:
                    loop.append(at)
            loops.append(loop[:-1] if loop[0] == loop[-1] else loop)
        rings.append(loops[0])
        inner.append(loops[1:])
    middle = np.array(space)
    offset = _offsets(owners, np.array([part.normal for part in parts])) * (sheet.section.thickness / 2)
    flat = np.array(list(index))
    top, facet = _triangles(rings, inner, flat)
    edges = {(a, b) for ring in rings for a, b in _edges(ring)}
    edges |= {edge for loops in inner for loop in loops for edge in _edges(_clockwise(loop, flat))}
    border = np.array([edge for edge in edges if (edge[1], edge[0]) not in edges], dtype=np.int64)
    n = len(middle)
    a, b = border[:, 0], border[:, 1]
    rim = np.concatenate([np.stack([b, a, a + n], axis=1), np.stack([b, a + n, b + n], axis=1)])
    side = np.repeat(np.array([1, -1, 0], dtype=np.int8), [len(top), len(top), len(rim)])
    far = np.tile(flat[:, 0] > shape.middle, 2)
    vertices = np.concatenate([middle + offset, middle - offset])
    planes = np.array([part.fold[:, :2] for part in parts])
    return _Form(vertices, far, side, rim, top, facet, rings, inner, planes)


def _unturned(form: _Form, places: Array) -> Ints:
    """Return the triangles of a form's facets for the places, ``(n, 3)``, that its corners have on one side.

    Half a thickness shifts the corners of a facet in its own plane where it is bent, and a long sheet is a short one
    drawn out: by either, a triangle may turn over. Its facet is then cut into triangles as it lies.
    """
    flat = np.einsum("tkx,txy->tky", places[form.top], form.planes[form.facet])
    first, second = flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]
    turned = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0] < -TURNED
    result = form.top.copy()
    for number in sorted(set(form.facet[turned].tolist())):
        corners = places @ form.planes[number]
        ring, inner = form.rings[number], form.inner[number]
        own = form.facet == number
        if shapely.Polygon(corners[ring], [corners[hole] for hole in inner]).is_valid:
            anew, _ = _triangles([ring], [inner], corners, plain=False)
            result[own] = anew if len(anew) == own.sum() else result[own]
    return result


def _edges(loop: list[int]) -> list[tuple[int, int]]:
    return list(zip(loop, loop[1:] + loop[:1], strict=True))


def _offsets(owners: list[list[int]], normals: Array) -> Array:
    """Return for each corner the shortest vector whose component along each owner's normal is 1."""
    first = normals[[own[0] for own in owners]]
    second = normals[[own[-1] for own in owners]]
    dot = np.einsum("ij,ij->i", first, second)
    result = (first + second) / (1 + dot)[:, None]
    for i, own in enumerate(owners):
        if len(own) > 2:
            result[i] = np.linalg.pinv(normals[own], rcond=1e-6) @ np.ones(len(own))
    return np.asarray(result)


def _clockwise(loop: list[int], flat: Array) -> list[int]:
    """Return a hole's loop clockwise in ``(u, v)``, so that its border faces the opening."""
    u, v = flat[loop].T
    return loop[::-1] if (u * np.roll(v, -1) - v * np.roll(u, -1)).sum() > 0 else loop


def _triangles(
    rings: list[list[int]], inner: list[list[list[int]]], flat: Array, plain: bool = True
) -> tuple[Ints, Ints]:
    """Return ``(m, 3)`` triangles of the painted side, counter-clockwise seen from it, and the ring that each is in.

    ``plain``: a ring of four corners is convex.
    """
    result: list[tuple[int, ...]] = []
    owner: list[int] = []
    rest: list[int] = []
    for number, ring in enumerate(rings):
        if len(ring) < 3:
            continue
        if len(ring) <= 4 and not inner[number] and plain:
            result.append((ring[0], ring[1], ring[2]))
            if len(ring) == 4:
                result.append((ring[0], ring[2], ring[3]))
            owner += [number] * (len(ring) - 2)
        else:
            rest.append(number)
    if rest:
        polygons = np.array([shapely.Polygon(flat[rings[i]], [flat[h] for h in inner[i]]) for i in rest])
        for number, group in zip(rest, shapely.constrained_delaunay_triangles(polygons), strict=True):
            where = {tuple(flat[i].tolist()): i for loop in (rings[number], *inner[number]) for i in loop}
            corners = shapely.get_coordinates(shapely.get_parts(group)).reshape(-1, 4, 2)[:, :3]
            for triangle in corners.tolist():
                a, b, c = (where[tuple(corner)] for corner in triangle)
                pa, pb, pc = flat[a], flat[b], flat[c]
                turn = (pb[0] - pa[0]) * (pc[1] - pa[1]) - (pb[1] - pa[1]) * (pc[0] - pa[0])
                result.append((a, b, c) if turn > 0 else (a, c, b))
            owner += [number] * (len(corners))
    return np.array(result, dtype=np.int64), np.array(owner, dtype=np.int64)
