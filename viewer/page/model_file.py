"""The bodies of a stage as binary glTF: metres, y up, identity in the extras; and the lines along their bends."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np
import trimesh
from numpy.typing import NDArray

from ..display.body import Body, merged
from ..display.view import PANELS

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


@dataclass(frozen=True, slots=True, eq=False)
class Cladding:
    """All panels of a face as one body.

    Attributes:
        body: The body; it is named as its face.
        panels: Each panel's name, and the first of its faces in the body.
    """

    body: Body
    panels: tuple[tuple[str, int], ...]


def claddings_of(bodies: Iterable[Body], face_of: Mapping[str, str]) -> list[Cladding]:
    """Return the pans, seams, turned edges and closures of each face as one body.

    Args:
        bodies: What is seen.
        face_of: The face of every panel, both by name; panels come in its order.
    """
    parts: dict[str, list[Body]] = {name: [] for name in face_of}
    for body in bodies:
        if body.kind in PANELS:
            parts[body.name].append(body)
    result = []
    for face, panels in groupby(face_of, key=lambda name: face_of[name]):
        names = list(panels)
        own = [body for name in names for body in parts[name]]
        counts = [sum(len(body.faces) for body in parts[name]) for name in names]
        starts = (np.cumsum(counts) - counts).tolist()
        mesh = merged([(body.vertices, body.faces, body.side) for body in own])
        result.append(
            Cladding(Body("pan", face, *mesh, own[0].order), tuple(zip(names, starts, strict=True)))
        )
    return result


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
    after = np.roll(body.faces, -1, axis=1)
    size = len(body.vertices)
    keys = (np.minimum(body.faces, after) * size + np.maximum(body.faces, after)).ravel()
    order = np.argsort(keys)
    keys, owner = keys[order], order // 3
    start = np.flatnonzero(np.diff(keys, prepend=-1))
    count = np.diff(start, append=len(keys))
    second = np.minimum(start + 1, len(keys) - 1)
    bent = np.einsum("ij,ij->i", normals[owner[start]], normals[owner[second]]) < math.cos(SHARP)
    return np.stack(np.divmod(keys[start[(count != 2) | bent]], size), axis=1)
