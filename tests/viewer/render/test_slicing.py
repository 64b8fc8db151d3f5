"""A solid cut through: what is left is closed, and as much as lies on that side of the plane."""

import numpy as np
import pytest
import trimesh
from zoo import layout

from trimwright.viewer.display.coats import DULL
from trimwright.viewer.render.slicing import CUT_METAL, sliced
from trimwright.viewer.render.surface import ColoredMesh


@pytest.mark.parametrize("share", [0.25, 0.5, 0.9])
def test_two_halves_of_a_panel_are_closed_and_make_up_the_whole(share: float) -> None:
    solid = layout("boat-shed").panels[3].solid
    colors = np.zeros((len(solid.faces), 3), dtype=np.uint8)
    piece = ColoredMesh(solid.vertices, solid.faces, colors, DULL)
    low, high = solid.vertices[:, 0].min(), solid.vertices[:, 0].max()
    point, normal = np.array([low + share * (high - low) + 0.0123, 0.0, 0.0]), np.array([1.0, 0.0, 0.0])
    halves = [sliced(piece, point, way, CUT_METAL) for way in (normal, -normal)]
    meshes = [
        trimesh.Trimesh(half.vertices, half.faces, process=False) for half in halves if half is not None
    ]
    assert len(meshes) == 2 and all(mesh.is_watertight for mesh in meshes)
    assert sum(mesh.volume for mesh in meshes) == pytest.approx(solid.volume, rel=1e-4)
    assert (halves[0].colors == CUT_METAL).all(axis=1).any()  # type: ignore[union-attr]


def test_what_the_plane_misses_stays_or_goes_whole() -> None:
    solid = layout("boat-shed").panels[3].solid
    piece = ColoredMesh(solid.vertices, solid.faces, np.zeros((len(solid.faces), 3), dtype=np.uint8), DULL)
    far = np.array([1e4, 0.0, 0.0])
    assert sliced(piece, far, np.array([1.0, 0.0, 0.0]), CUT_METAL) is piece
    assert sliced(piece, far, np.array([-1.0, 0.0, 0.0]), CUT_METAL) is None
