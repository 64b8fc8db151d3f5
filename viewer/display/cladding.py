"""The panels: pans with thickness, seams that stand up from them, turned edges and closures."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout
from trimwright.model.panels import Panel

from .body import Body, Kind, Mesh, merged, slab

Array = NDArray[np.float64]

STEM = 0.1
"""Half the thickness of a closed seam, inches: three sheets and the cleat between them. Common practice, no source."""

FOLD = (0.36, 0.55)
"""How far the fold along a seam's top reaches to one side, and how tall it is, inches. Common practice, no source."""


NOTHING = 1e-9
"""A strip of less area than this, square inches, is left off."""


def panel_bodies(layout: Layout, order: int) -> Iterator[Body]:
    """Yield the pan, the seam, the turned edges and the closures of every panel, each as one body."""
    thickness, height = layout.scene.metal.thickness, layout.scene.panels.seam
    for panel in layout.panels:
        normal = layout.roof.faces[panel.face].normal
        half = normal * thickness / 2
        yield Body("pan", panel.name, *slab(panel.outline + half, -2 * half), order)
        if panel.seams:
            seams = [_standing(seam, normal, height) for seam in panel.seams]
            yield Body("seam", panel.name, *merged(seams), order)
        yield from _strips("hook", panel, panel.hooks, normal, thickness, order)
        yield from _strips("closure", panel, panel.closures, normal, thickness, order)


def _strips(
    kind: Kind, panel: Panel, strips: tuple[Array, ...], up: Array, thickness: float, order: int
) -> Iterator[Body]:
    """Yield the sheets of a panel that are not its pan as one body, painted where they face away from it."""
    slabs = []
    middle = panel.outline.mean(axis=0)
    for strip in strips:
        normal = np.cross(strip, np.roll(strip, -1, axis=0)).sum(axis=0)
        size = np.linalg.norm(normal)
        if size < NOTHING:
            continue
        normal /= size
        outward = -up if abs(normal @ up) > 0.5 else strip.mean(axis=0) - middle
        if normal @ outward < 0:
            strip, normal = strip[::-1], -normal
        slabs.append(slab(strip + normal * thickness / 2, -normal * thickness))
    if slabs:
        yield Body(kind, panel.name, *merged(slabs), order)


def _standing(foot: Array, normal: Array, height: float) -> Mesh:
    """Return the seam that stands on a ``(2, 3)`` foot line: a stem with its fold laid over to one side."""
    along = foot[1] - foot[0]
    across = np.cross(along, normal)
    across /= np.linalg.norm(across)
    reach, tall = FOLD
    under = height - min(tall, height * 0.4)
    outline = np.array(
        [[-STEM, 0.0], [STEM, 0.0], [STEM, under], [reach, under], [reach, height], [-STEM, height]]
    )
    face = foot[0] + outline[:, :1] * across + outline[:, 1:] * normal
    vertices, faces, side = slab(face, along)
    return vertices, faces, np.ones_like(side)
