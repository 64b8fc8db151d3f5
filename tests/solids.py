"""Whether parts pass through each other, worked out by manifold3d."""

import itertools

import manifold3d
import numpy as np

from trimwright.model.layout import Layout


def depths(layout: Layout) -> list[tuple[str, str, float]]:
    """Return which parts pass through each other by more than half a sheet, and how deep, inches."""
    boxes = [(part.solid.vertices.min(axis=0), part.solid.vertices.max(axis=0)) for part in layout.parts]
    solids = [
        manifold3d.Manifold(
            manifold3d.Mesh64(np.ascontiguousarray(part.solid.vertices), part.solid.faces.astype(np.uint64))
        )
        for part in layout.parts
    ]
    bad = []
    for i, j in itertools.combinations(range(len(solids)), 2):
        if (boxes[i][0] > boxes[j][1]).any() or (boxes[j][0] > boxes[i][1]).any():
            continue
        for lump in (solids[i] ^ solids[j]).decompose():
            depth = 2 * lump.volume() / lump.surface_area() if lump.volume() > 1e-9 else 0.0
            if depth > layout.scene.metal.thickness / 2:
                bad.append((layout.parts[i].mark, layout.parts[j].mark, depth))
    return bad
