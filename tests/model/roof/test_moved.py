"""A roof whose corners are moved: its edges are what they would be found to be there."""

import math

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline
from zoo import layout

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.moved import moved
from trimwright.model.roof.record import Edge, Face
from trimwright.model.scene.read import scene_of

ROOFS = {
    **{name: layout(name).roof for name in ("two-pitches", "uneven-hip", "boat-shed", "rope-store")},
    "outline": build_roof(scene_of(ordinary_outline(0)).roof),
}


@pytest.mark.parametrize("name", ROOFS)
@pytest.mark.parametrize("lean", [(0.03, 0.0), (-0.03, 0.0), (0.0, 0.03), (0.0, -0.03), (0.02, -0.02)])
def test_edges_of_a_house_that_has_sunk_run_upward_and_have_their_faces_beside_them(
    name: str, lean: tuple[float, float]
) -> None:
    """Every corner is lifted by so much an inch to the right and back: planes stay planes, level edges rise."""
    before = ROOFS[name]
    corners = before.vertices.copy()
    corners[:, 2] += corners[:, :2] @ lean
    roof = moved(before, corners)
    for edge in (edge for edge in roof.edges if len(edge.faces) == 2):
        first, second = (roof.faces[face] for face in edge.faces)
        assert edge.end[2] >= edge.start[2]
        assert is_left_of(edge, first) != is_left_of(edge, second)
        if edge.kind == "break":
            assert first.outline[:, 2].mean() > second.outline[:, 2].mean()
        else:
            assert is_left_of(edge, first)
        right = np.cross(edge.direction, [0.0, 0.0, 1.0]) * (1 if is_left_of(edge, first) else -1)
        assert edge.outward == pytest.approx(right / np.linalg.norm(right), abs=1e-9)
        assert math.cos(edge.dihedral) == pytest.approx(-first.normal @ second.normal, abs=1e-9)


def is_left_of(edge: Edge, face: Face) -> bool:
    """Return whether a face lies on the left of its edge: its corners go the way of the edge."""
    ring = face.outline
    start, end = (int(np.linalg.norm(ring - point, axis=1).argmin()) for point in (edge.start, edge.end))
    return (start + 1) % len(ring) == end
