"""Bodies: the closed meshes that a stage is made of, and the plain shapes they are built from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

Ints = NDArray[np.int64]
Mesh = tuple[Array, Ints, NDArray[np.int8]]
"""Vertices, faces and sides, as a body has them."""

Kind = Literal[
    "trim",
    "pan",
    "closure",
    "foam",
    "cleat",
    "deck",
    "fascia",
    "wall",
    "siding",
    "foundation",
    "casing",
    "door",
    "glass",
    "gutter",
]


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """One thing that is seen.

    Attributes:
        kind: What it is.
        name: Mark of a piece, name of a panel, face or edge.
        vertices: ``(n, 3) float, inches, scene frame``.
        faces: ``(m, 3) int``; counter-clockwise seen from outside.
        side: ``(m,) int8``: 1 on the painted side, -1 on the back, 0 on the cut edges.
        order: Place in the order of install; 0 for what stands before any metal.
        trim: Kind of trim that a piece is; else None.
        run: Name of its run; else None.
        holes: Diameter and distance of the holes of perforated sheet, inches; else None.
    """

    kind: Kind
    name: str
    vertices: Array
    faces: Ints
    side: NDArray[np.int8]
    order: int = 0
    trim: str | None = None
    run: str | None = None
    holes: tuple[float, float] | None = None


def slab(top: Array, through: Array, cap: Ints | None = None) -> Mesh:
    """Return the closed mesh between a plane polygon and its copy: vertices, faces and sides.

    Args:
        top: ``(n, 3) float, inches``; counter-clockwise seen from its painted side.
        through: ``(3,)`` from the top to the copy on its back, inches.
        cap: ``(m, 3)`` triangles of the top, turning the way it turns; found when left out.
    """
    cap = triangles_of(top) if cap is None else cap
    faces, side = _slab_faces(len(top), cap.tobytes())
    return np.concatenate([top, top + through]), faces, side


@lru_cache(256)
def _slab_faces(n: int, cap: bytes) -> tuple[Ints, NDArray[np.int8]]:
    """Return the faces of a slab whose top has ``n`` corners, and the side that each is on."""
    top = np.frombuffer(cap, dtype=np.int64).reshape(-1, 3)
    a, b = np.arange(n), np.roll(np.arange(n), -1)
    rim = np.concatenate([np.stack([b, a, a + n], axis=1), np.stack([b, a + n, b + n], axis=1)])
    faces = np.concatenate([top, top[:, ::-1] + n, rim])
    return faces, np.repeat(np.array([1, -1, 0], dtype=np.int8), [len(top), len(top), len(rim)])


@lru_cache(256)
def fan(n: int) -> Ints:
    """Return ``(n - 2, 3)`` triangles of a convex polygon with ``n`` corners, turning the way it turns."""
    second = np.arange(1, n - 1)
    return np.stack([np.zeros_like(second), second, second + 1], axis=1)


def triangles_of(polygon: Array) -> Ints:
    """Return ``(m, 3)`` triangles of a simple plane polygon ``(n, 3)``, turning the way it turns."""
    if len(polygon) == 3:
        return np.array([[0, 1, 2]])
    normal = np.cross(polygon, np.roll(polygon, -1, axis=0)).sum(axis=0)
    keep = [axis for axis in range(3) if axis != int(np.abs(normal).argmax())]
    flat = polygon[:, keep]
    index = {tuple(corner): i for i, corner in enumerate(flat.tolist())}
    found = shapely.constrained_delaunay_triangles(shapely.Polygon(flat))
    corners = shapely.get_coordinates(found).reshape(-1, 4, 2)[:, :3]
    triangles = np.array([[index[tuple(corner)] for corner in ring] for ring in corners.tolist()])
    first, second, third = (polygon[triangles[:, i]] for i in range(3))
    backward = np.cross(second - first, third - first) @ normal < 0
    triangles[backward] = triangles[backward][:, ::-1]
    return triangles


def merged(parts: list[Mesh]) -> Mesh:
    """Return several meshes as one."""
    starts = np.cumsum([0, *(len(vertices) for vertices, _, _ in parts)])
    return (
        np.concatenate([vertices for vertices, _, _ in parts]),
        np.concatenate([faces + start for (_, faces, _), start in zip(parts, starts, strict=False)]),
        np.concatenate([side for _, _, side in parts]),
    )
