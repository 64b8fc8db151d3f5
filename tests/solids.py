"""Solids against manifold3d: which pieces of a layout pass through each other, and how deep."""

import manifold3d
import numpy as np

from trimwright.model.layout import Layout
from trimwright.model.sheet.solid import Solid


def manifold(solid: Solid) -> manifold3d.Manifold:
    """Return a solid as manifold3d takes it."""
    return manifold3d.Manifold(
        manifold3d.Mesh64(np.ascontiguousarray(solid.vertices), solid.faces.astype(np.uint64))
    )


def collisions(layout: Layout) -> list[tuple[str, str, float]]:
    """Return which trim, panels, closures and cleats intersect, and how thick the thickest part of that is, inches."""
    named = [(part.mark, part.solid) for part in layout.parts]
    named += [(panel.name, panel.solid) for panel in layout.panels]
    named += [(closure.name, closure.solid) for closure in layout.closures]
    named += [(cleat.mark, cleat.solid) for cleat in layout.cleats]
    low = np.array([solid.vertices.min(axis=0) for _, solid in named])
    high = np.array([solid.vertices.max(axis=0) for _, solid in named])
    near = ((low[:, None] <= high[None]) & (low[None] <= high[:, None])).all(axis=2)
    solids = [manifold(solid) for _, solid in named]
    found = []
    for i, j in zip(*np.triu(near, 1).nonzero(), strict=True):
        common = solids[i] ^ solids[j]
        depth = max(
            (2 * part.volume() / part.surface_area() for part in common.decompose() if part.volume() > 1e-9),
            default=0.0,
        )
        found.append((named[i][0], named[j][0], depth))
    return found


def depths(layout: Layout) -> list[tuple[str, str, float]]:
    """Return the pairs that pass through each other by more than half a sheet."""
    return [pair for pair in collisions(layout) if pair[2] > layout.scene.metal.thickness / 2]
