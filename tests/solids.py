"""Solids against manifold3d: which pieces of a layout pass through each other, and how deep."""

import itertools

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
    """Return the pairs whose solids intersect, and how thick the thickest part of that is, inches."""
    boxes = [(part.solid.vertices.min(axis=0), part.solid.vertices.max(axis=0)) for part in layout.parts]
    solids = [manifold(part.solid) for part in layout.parts]
    found = []
    for i, j in itertools.combinations(range(len(solids)), 2):
        if (boxes[i][0] > boxes[j][1]).any() or (boxes[j][0] > boxes[i][1]).any():
            continue
        common = solids[i] ^ solids[j]
        depth = max(
            (2 * part.volume() / part.surface_area() for part in common.decompose() if part.volume() > 1e-9),
            default=0.0,
        )
        found.append((layout.parts[i].mark, layout.parts[j].mark, depth))
    return found


def depths(layout: Layout) -> list[tuple[str, str, float]]:
    """Return the pairs that pass through each other by more than half a sheet."""
    return [pair for pair in collisions(layout) if pair[2] > layout.scene.metal.thickness / 2]
