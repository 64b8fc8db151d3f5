"""The shapes of bodies as plain numbers: meters, y up; and the lines along their bends."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.body import Body, merged
from ..display.view import PANELS

Ints = NDArray[np.int64]

METERS = 0.0254
"""Meters in an inch."""

FOAM, PERFORATED, MOST = 2, 3, 7
"""What stands for the side of a sheet where there is foam, and from where to where each strip of perforated sheet has a
number of its own, negative on the back: no two share a vertex, as the holes of each go by its own normal."""

SHARP = math.radians(12)
"""Where two faces meet at more than this, a line is drawn."""


def to_meters(points: Array) -> Array:
    """Return ``(..., 3)`` points, inches, z up, as meters, y up."""
    return turned(points) * METERS


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


def claddings_of(
    bodies: Iterable[Body], face_of: Mapping[str, str], beside: Mapping[str, str]
) -> list[Cladding]:
    """Return the panels, closures and cleats of each face as one body.

    Args:
        bodies: What is seen.
        face_of: The face of every panel, both by name; panels come in its order.
        beside: The panel that each of them is, stands on or holds, both by name.
    """
    parts: dict[str, list[Body]] = {name: [] for name in face_of}
    for body in bodies:
        if body.kind in PANELS:
            parts[beside[body.name]].append(body)
    result = []
    for face, panels in groupby(face_of, key=lambda name: face_of[name]):
        names = list(panels)
        own = [body for name in names for body in parts[name]]
        counts = [sum(len(body.faces) for body in parts[name]) for name in names]
        starts = (np.cumsum(counts) - counts).tolist()
        mesh = merged([(body.vertices, body.faces, _told(body)) for body in own])
        result.append(
            Cladding(Body("pan", face, *mesh, own[0].order), tuple(zip(names, starts, strict=True)))
        )
    return result


def _told(body: Body) -> NDArray[np.int8]:
    """Return the sides of a body's faces; foam and perforated sheet are told from what they are one body with."""
    if body.kind == "foam":
        return np.full_like(body.side, FOAM)
    if body.holes is None:
        return body.side
    first, second, third = (body.vertices[body.faces[:, k]] for k in range(3))
    across = np.cross(second - first, third - first) * body.side[:, None]
    across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-12)
    strip = np.unique(across.round(3) + 0.0, axis=0, return_inverse=True)[1].reshape(-1)
    return np.asarray(body.side * np.minimum(PERFORATED + strip, MOST), dtype=np.int8)


@dataclass(frozen=True, slots=True, eq=False)
class Shapes:
    """The meshes of bodies, one after another; a body's indices count from its own first vertex.

    Attributes:
        points: ``(n, 3) float32``, meters, y up; no two sides of a body share a vertex.
        side: ``(n,) int8``: 1 painted, -1 back, 0 cut edge, 2 foam; 3 and more of
            perforated sheet, a number for each strip, and -3 and less of its back.
        faces: ``(m, 3) uint16 or uint32``: vertices; counter-clockwise seen from outside.
        lines: ``(k, 2)`` of the same: vertices between which a line is drawn.
        counts: ``(bodies, 3) int``: how many vertices, faces and lines each body has.
    """

    points: NDArray[np.float32]
    side: NDArray[np.int8]
    faces: NDArray[np.uint16] | NDArray[np.uint32]
    lines: NDArray[np.uint16] | NDArray[np.uint32]
    counts: Ints


def shapes_of(bodies: Sequence[Body]) -> Shapes:
    """Return the shapes of ``bodies``."""
    vertices, faces, side = merged([(body.vertices, body.faces, body.side) for body in bodies])
    facets = np.array([len(body.faces) for body in bodies])
    cladding = np.repeat([body.kind in PANELS for body in bodies], facets)
    old, kept, split = _split_by_side(faces, side)
    first = np.zeros(len(vertices), dtype=np.int64)
    first[old[::-1]] = np.arange(len(old))[::-1]
    drawn = first[_sharp_edges(vertices, faces, (side > 0) | ~cladding)]
    ends = np.searchsorted(old, np.cumsum([len(body.vertices) for body in bodies]))
    starts = np.concatenate([[0], ends[:-1]])
    index = "<u2" if (ends - starts).max() <= np.iinfo(np.uint16).max else "<u4"
    strokes = np.diff(np.searchsorted(drawn[:, 0], ends), prepend=0)
    return Shapes(
        to_meters(vertices[old]).astype("<f4"),
        kept.astype(np.int8),
        (split - np.repeat(starts, facets)[:, None]).astype(index),
        (drawn - np.repeat(starts, strokes)[:, None]).astype(index),
        np.stack([ends - starts, facets, strokes], axis=1),
    )


def _split_by_side(faces: Ints, side: NDArray[np.int8]) -> tuple[Ints, NDArray[np.int64], Ints]:
    """Return for vertices that no two sides share the old vertex and the side of each, and the faces between them."""
    sides = 2 * MOST + 1
    keys = faces * sides + (side.astype(np.int64) + MOST)[:, None]
    kept, split = np.unique(keys, return_inverse=True)
    return kept // sides, kept % sides - MOST, split.reshape(-1, 3)


def _sharp_edges(vertices: Array, faces: Ints, drawn: NDArray[np.bool_]) -> Ints:
    """Return ``(k, 2)`` vertices between which a line is drawn, in order: where one of two ``drawn`` faces turns."""
    corners = vertices[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    after = np.roll(faces, -1, axis=1)
    size = len(vertices)
    keys = (np.minimum(faces, after) * size + np.maximum(faces, after)).ravel()
    order = np.argsort(keys)
    keys, owner = keys[order], order // 3
    start = np.flatnonzero(np.diff(keys, prepend=-1))
    count = np.diff(start, append=len(keys))
    one, other = owner[start], owner[np.minimum(start + 1, len(keys) - 1)]
    sharp = (count != 2) | (np.einsum("ij,ij->i", normals[one], normals[other]) < math.cos(SHARP))
    return np.stack(np.divmod(keys[start[sharp & (drawn[one] | drawn[other])]], size), axis=1)
