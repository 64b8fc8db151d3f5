"""The bodies of a stage as binary glTF: metres, y up, identity in the extras; and the lines along their bends."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import groupby

import numpy as np
import trimesh
from numpy.typing import NDArray

from ..display.body import Body, merged

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

METRES = 0.0254
"""Metres in an inch."""

SHARP = math.radians(12)
"""Where two faces meet at more than this, a line is drawn."""


def to_metres(points: Array) -> Array:
    """Return ``(..., 3)`` points, inches, z up, as metres, y up."""
    return turned(points) * METRES


def turned(directions: Array) -> Array:
    """Return ``(..., 3)`` directions, z up, as directions, y up."""
    return np.stack([directions[..., 0], directions[..., 2], -directions[..., 1]], axis=-1)


def panels_joined(bodies: Iterable[Body]) -> list[Body]:
    """Return the bodies with the pan, seam, turned edges and closures of each panel as one, named as it is."""
    cladding: list[Body] = []
    rest: list[Body] = []
    for body in bodies:
        (cladding if body.kind in ("pan", "seam", "hook", "closure") else rest).append(body)
    for name, group in groupby(sorted(cladding, key=lambda body: body.name), key=lambda body: body.name):
        parts = list(group)
        vertices, faces, side = merged([(part.vertices, part.faces, part.side) for part in parts])
        rest.append(Body("pan", name, vertices, faces, side, parts[0].order))
    return rest


def glb_of(bodies: Sequence[Body]) -> tuple[bytes, list[list[int]]]:
    """Return a GLB of ``bodies``, one node each, and the lines of each one.

    Each vertex carries its side as the attribute ``_SIDE``: 1 painted, -1 back, 0 cut edge. A node's extras hold
    its place in ``bodies``. Lines are pairs of indices into the vertices of their node.
    """
    scene = trimesh.Scene()
    lines = []
    for place, body in enumerate(bodies):
        vertices, faces, side, first = _split_by_side(body)
        mesh = trimesh.Trimesh(to_metres(vertices), faces, process=False, metadata={"body": place})
        mesh.vertex_attributes["side"] = side.astype(np.float32)
        scene.add_geometry(mesh, node_name=f"body {place}", geom_name=f"body {place}")
        lines.append(first[_sharp_edges(body)].ravel().tolist())
    return scene.export(file_type="glb", include_normals=False), lines


def _split_by_side(body: Body) -> tuple[Array, Ints, NDArray[np.int64], Ints]:
    """Return vertices, faces and a side a vertex, none shared by two sides; and the first copy of each vertex."""
    keys = body.faces * 3 + (body.side.astype(np.int64) + 1)[:, None]
    kept, faces = np.unique(keys, return_inverse=True)
    old = kept // 3
    first = np.zeros(len(body.vertices), dtype=np.int64)
    first[old[::-1]] = np.arange(len(kept))[::-1]
    return body.vertices[old], faces.reshape(-1, 3), kept % 3 - 1, first


def _sharp_edges(body: Body) -> Ints:
    """Return ``(k, 2)`` indices of the vertices between which a line is drawn."""
    corners = body.vertices[body.faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    pairs = np.sort(body.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    owner = np.repeat(np.arange(len(body.faces)), 3)
    order = np.lexsort((pairs[:, 1], pairs[:, 0]))
    pairs, owner = pairs[order], owner[order]
    new = np.concatenate([[True], (pairs[1:] != pairs[:-1]).any(axis=1)])
    start = np.flatnonzero(new)
    count = np.diff([*start, len(pairs)])
    second = np.minimum(start + 1, len(pairs) - 1)
    bent = np.einsum("ij,ij->i", normals[owner[start]], normals[owner[second]]) < math.cos(SHARP)
    return np.asarray(pairs[start[(count != 2) | bent]])
