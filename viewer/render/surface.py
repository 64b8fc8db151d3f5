"""Surface: all that is drawn as one mesh, with the color of every face and the edges between them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.coats import DULL, Coat

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]
Bytes = NDArray[np.uint8]

GAMMA = 2.2
LINEAR: Floats = ((np.arange(256) / 255) ** GAMMA).astype(np.float32)
"""What a color's 256 steps are in light."""

FEATURE = 22.0
"""Two faces that meet at more than this many degrees have a drawn edge between them."""


@dataclass(frozen=True, slots=True, eq=False)
class ColoredMesh:
    """A mesh with its color: what is drawn.

    Attributes:
        vertices: ``(n, 3) float, inches, scene frame``.
        faces: ``(m, 3) int``.
        colors: ``(m, 3)`` from 0 to 255.
        coat: What it is to light.
        edges: Whether its edges are drawn.
        shades: Whether it throws a shadow.
        holes: Diameter and distance of its holes, inches; 0 for plain sheet.
    """

    vertices: Array
    faces: NDArray[np.int64]
    colors: Bytes
    coat: Coat
    edges: bool = True
    shades: bool = True
    holes: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """The level ground under a house.

    Attributes:
        height: Inches.
        color: ``(3,)`` from 0 to 1.
        middle: ``(2,)`` where the house stands.
        reach: How far out it is seen, inches; it fades away toward there.
    """

    height: float
    color: Floats
    middle: Array
    reach: float


@dataclass(frozen=True, slots=True, eq=False)
class Surface:
    """One mesh.

    Attributes:
        vertices: ``(n, 3) float, inches, scene frame``.
        faces: ``(m, 3) int``: bodies that throw shadows, others, and the ground.
        normals: ``(m, 3)`` unit vectors; nothing for a face without area.
        paint: ``(m, 7)`` linear color, share of bare metal and roughness, from 0 to 1; diameter and distance of its
            holes, inches, 0 for none.
        edges: ``(k, 2) int`` corners that a drawn edge joins.
        shades: How many faces throw shadows.
        bodies: How many faces are of bodies.
        ground: What the others are; None when there are none.
    """

    vertices: Array
    faces: Ints
    normals: Array
    paint: Floats
    edges: Ints
    shades: int
    bodies: int
    ground: Ground | None


def surface_of(pieces: Sequence[ColoredMesh], ground: Ground | None = None) -> Surface:
    """Return pieces, and the ground under them, as one mesh."""
    pieces = sorted(pieces, key=lambda piece: not piece.shades)
    starts = np.cumsum([0, *(len(piece.vertices) for piece in pieces)])
    counts = [len(piece.faces) for piece in pieces]
    vertices = [piece.vertices for piece in pieces]
    faces = [piece.faces + start for piece, start in zip(pieces, starts, strict=False)]
    paint = np.empty((sum(counts), 7), dtype=np.float32)
    paint[:, :3] = LINEAR[np.concatenate([piece.colors for piece in pieces])]
    paint[:, 3:] = np.repeat(
        [(piece.coat.metal, piece.coat.rough, *piece.holes) for piece in pieces], counts, axis=0
    )
    if ground is not None:
        square = ground.middle + ground.reach * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
        vertices.append(np.column_stack([square, np.full(4, ground.height)]))
        faces.append(np.array([[0, 1, 2], [0, 2, 3]]) + starts[-1])
        matt = np.array([*ground.color**GAMMA, DULL.metal, DULL.rough, 0, 0], dtype=np.float32)
        paint = np.concatenate([paint, [matt, matt]])
    points = np.concatenate(vertices)
    corners: Ints = np.concatenate(faces).astype(np.int32)
    first, second, third = (points[corners[:, i]] for i in range(3))
    across = np.cross(second - first, third - first)
    size = np.linalg.norm(across, axis=1, keepdims=True)
    normals = across / np.where(size == 0, 1, size)
    drawn = np.flatnonzero(np.repeat([piece.edges for piece in pieces], counts))
    edges = _edges(corners[drawn], normals[drawn])
    shades = sum(len(piece.faces) for piece in pieces if piece.shades)
    return Surface(points, corners, normals, paint, edges, shades, sum(counts), ground)


def _edges(faces: Ints, normals: Array) -> Ints:
    """Return the edges between faces that turn sharply, and those of open meshes: ``(k, 2)`` corners."""
    sides = np.sort(faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1).astype(np.int64)
    key = sides[:, 0] << 32 | sides[:, 1]
    order = np.argsort(key, kind="stable")
    first = np.flatnonzero(np.diff(key[order], prepend=-1))
    count = np.diff(first, append=len(order))
    one, other = (normals[order[np.minimum(first + k, len(order) - 1)] // 3] for k in (0, 1))
    sharp = np.einsum("ij,ij->i", one, other) < math.cos(math.radians(FEATURE))
    kept = (count == 1) | ((count == 2) & sharp)
    return np.asarray(sides[order[first[kept]]], dtype=np.int32)
