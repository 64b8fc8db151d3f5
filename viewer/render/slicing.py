"""Cutting a mesh through: what lies past a plane is taken away, and the cut is closed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array

from .surface import ColoredMesh

CUT_METAL = (196, 60, 44)
"""Color of cut metal: it stands out from both sides of any sheet."""

CUT_WOOD = (222, 196, 150)


def sliced(
    piece: ColoredMesh, point: Array, normal: Array, color: tuple[int, int, int]
) -> ColoredMesh | None:
    """Return what is left of a closed mesh on the side of a plane that its normal points away from; None for nothing.

    Args:
        piece: The mesh.
        point: ``(3,) float, inches``: on the plane.
        normal: ``(3,)`` unit vector.
        color: Of the cut.
    """
    beyond = (piece.vertices - point) @ normal
    above = beyond[piece.faces] > 0
    if not above.any():
        return piece
    if above.all():
        return None
    whole = ~above.any(axis=1)
    crossed = above.any(axis=1) & ~above.all(axis=1)
    corners: list[Array] = []
    colors: list[Array] = []
    segments: list[Array] = []
    for face, tint in zip(piece.faces[crossed], piece.colors[crossed], strict=True):
        polygon, segment = _clipped(piece.vertices[face], beyond[face])
        for k in range(1, len(polygon) - 1):
            corners.append(np.array([polygon[0], polygon[k], polygon[k + 1]]))
            colors.append(tint)
        segments.append(segment)
    cap = _cap(np.array(segments), point, normal)
    extra = np.concatenate([np.array(corners).reshape(-1, 3), cap.reshape(-1, 3)])
    first = len(piece.vertices)
    faces = np.concatenate([piece.faces[whole], first + np.arange(len(extra)).reshape(-1, 3)])
    cut = np.tile(np.array(color, dtype=np.uint8), (len(cap), 1))
    tints = np.concatenate([piece.colors[whole], np.array(colors, dtype=np.uint8).reshape(-1, 3), cut])
    vertices, index = np.unique(
        np.round(np.concatenate([piece.vertices, extra]), 6), axis=0, return_inverse=True
    )
    return replace(piece, vertices=vertices, faces=index.reshape(-1)[faces], colors=tints)


def _clipped(triangle: Array, beyond: Array) -> tuple[list[Array], Array]:
    """Return the part of a triangle that is not beyond the plane, and the segment at which it is cut."""
    kept: list[Array] = []
    on: list[Array] = []
    for i in range(3):
        here, there = beyond[i], beyond[(i + 1) % 3]
        if here <= 0:
            kept.append(triangle[i])
        if (here <= 0) != (there <= 0):
            share = here / (here - there)
            crossing = triangle[i] + share * (triangle[(i + 1) % 3] - triangle[i])
            kept.append(crossing)
            on.append(crossing)
    return kept, np.array(on)


def _cap(segments: Array, point: Array, normal: Array) -> Array:
    """Return ``(n, 3, 3)`` triangles that close a cut, given the segments round it."""
    helper = np.array([0.0, 0.0, 1.0]) if abs(normal[2]) < 0.9 else np.array([1.0, 0.0, 0.0])
    right = np.cross(helper, normal)
    right /= np.linalg.norm(right)
    up = np.cross(normal, right)
    flat = np.round((segments - point) @ np.column_stack([right, up]), 6)
    flat = flat[np.abs(flat[:, 0] - flat[:, 1]).max(axis=1) > 0]
    if not len(flat):
        return np.empty((0, 3, 3))
    areas = shapely.polygonize(shapely.linestrings(flat))
    solid = [area for area in shapely.get_parts(areas) if area.area > 1e-9]
    rings = [
        shapely.get_coordinates(triangle)[:3]
        for area in solid
        for triangle in shapely.get_parts(shapely.constrained_delaunay_triangles(area))
    ]
    triangles = np.array(rings).reshape(-1, 3, 2)
    a, b, c = (triangles[:, i] for i in range(3))
    backward = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) < (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    triangles[backward] = triangles[backward][:, ::-1]
    return np.asarray(point + triangles[..., :1] * right + triangles[..., 1:] * up)
