"""The panels: pans with thickness, seams that stand up from them, turned edges and closures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout

from .body import Body, Kind, Mesh, fan, merged, slab, vector_areas

Array = NDArray[np.float64]

STEM = 0.1
"""Half the thickness of a closed seam, inches: three sheets and the cleat between them. Common practice, no source."""

FOLD = (0.36, 0.55)
"""How far the fold along a seam's top reaches to one side, and how tall it is, inches. Common practice, no source."""

SEAM_CAP = np.array([[0, 1, 2], [0, 2, 5], [2, 4, 5], [2, 3, 4]])
"""Triangles of a seam's end: its foot from left to right, up the stem, round the fold."""

NOTHING = 1e-9
"""A strip of less area than this, square inches, is left off."""


def panel_bodies(layout: Layout, order: Mapping[str, int]) -> Iterator[Body]:
    """Yield the pan, the seam, the turned edges and the closures of every panel, each as one body."""
    thickness, height = layout.scene.metal.thickness, layout.scene.panels.seam
    for index, face in enumerate(layout.roof.faces):
        panels = layout.panels_of(index)
        half = face.normal * thickness / 2
        for panel in panels:
            pan = slab(panel.outline + half, -2 * half, fan(len(panel.outline)))
            yield Body("pan", panel.name, *pan, order[panel.name])
        feet = {panel.name: list(panel.seams) for panel in panels}
        hooks = {panel.name: list(panel.hooks) for panel in panels}
        closures = {panel.name: list(panel.closures) for panel in panels}
        yield from _bodies("seam", feet, _standing(_all(feet), face.normal, height), order)
        folded: tuple[tuple[Kind, dict[str, list[Array]]], ...] = (("hook", hooks), ("closure", closures))
        middle = face.outline.mean(axis=0)
        for kind, strips in folded:
            yield from _bodies(kind, strips, _sheets(_all(strips), middle, face.normal, thickness), order)


def _all(owned: Mapping[str, list[Array]]) -> list[Array]:
    return [one for many in owned.values() for one in many]


def _bodies(
    kind: Kind, owned: Mapping[str, list[Array]], meshes: Iterable[Mesh | None], order: Mapping[str, int]
) -> Iterator[Body]:
    """Yield the meshes of what each panel owns, one after another, as one body a panel."""
    rest = iter(meshes)
    for name, many in owned.items():
        parts = [mesh for mesh in islice(rest, len(many)) if mesh is not None]
        if parts:
            yield Body(kind, name, *(merged(parts) if len(parts) > 1 else parts[0]), order[name])


def _sheets(strips: list[Array], middle: Array, up: Array, thickness: float) -> Iterator[Mesh | None]:
    """Yield convex strips as sheets, painted where they face away from the middle of the face; None for nothing."""
    if not strips:
        return
    areas = vector_areas(strips)
    sizes = np.linalg.norm(areas, axis=1)
    normals = areas / np.maximum(sizes, NOTHING)[:, None]
    along = normals @ up
    away = np.array([strip[0] for strip in strips]) - middle
    ways = np.where(np.abs(along) > 0.5, -along, np.einsum("ij,ij->i", normals, away))
    for strip, normal, size, way in zip(strips, normals, sizes, ways, strict=True):
        if size < NOTHING:
            yield None
        elif way < 0:
            yield slab(strip[::-1] - normal * thickness / 2, normal * thickness, fan(len(strip)))
        else:
            yield slab(strip + normal * thickness / 2, -normal * thickness, fan(len(strip)))


def _standing(feet: list[Array], normal: Array, height: float) -> Iterator[Mesh]:
    """Yield the seams that stand on ``(2, 3)`` foot lines: a stem with its fold laid over to one side."""
    if not feet:
        return
    reach, tall = FOLD
    under = height - min(tall, height * 0.4)
    outline = np.array(
        [[-STEM, 0.0], [STEM, 0.0], [STEM, under], [reach, under], [reach, height], [-STEM, height]]
    )
    ends = np.array(feet)
    along = ends[:, 1] - ends[:, 0]
    across = np.cross(along, normal)
    across /= np.linalg.norm(across, axis=1, keepdims=True)
    faces = ends[:, None, 0] + outline[:, :1] * across[:, None] + outline[:, 1:] * normal
    for face, way in zip(faces, along, strict=True):
        vertices, triangles, side = slab(face, way, SEAM_CAP)
        yield vertices, triangles, np.ones_like(side)
