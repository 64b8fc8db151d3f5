"""Bodies: closed, turned outward, of the volume that their size says."""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st
from zoo import NAMES, layout

from trimwright.viewer.display.body import merged, slab, triangles_of
from trimwright.viewer.display.stage import stage_of

L_SHAPE = np.array([[0, 0, 0], [4, 0, 0], [4, 1, 0], [1, 1, 0], [1, 3, 0], [0, 3, 0]], dtype=float)


def turned(points: np.ndarray, angle: float) -> np.ndarray:
    turn = trimesh.transformations.rotation_matrix(angle, [0.3, -0.5, 0.8])[:3, :3]
    return points @ turn.T


@given(st.floats(-3, 3), st.booleans())
def test_triangles_cover_a_polygon_with_a_notch_and_turn_as_it_does(angle: float, backward: bool) -> None:
    polygon = turned(L_SHAPE[::-1] if backward else L_SHAPE, angle)
    corners = polygon[triangles_of(polygon)]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
    assert np.linalg.norm(normals, axis=1).sum() == pytest.approx(6.0)
    assert np.linalg.norm(normals.sum(axis=0)) == pytest.approx(6.0)


def test_a_slab_is_closed_and_has_its_volume() -> None:
    vertices, faces, side = slab(L_SHAPE, np.array([0.0, 0.0, -0.5]))
    solid = trimesh.Trimesh(vertices, faces, process=False)
    assert solid.is_watertight
    assert solid.volume == pytest.approx(3.0)
    assert (side == 1).sum() == (side == -1).sum() == 4


def test_merging_keeps_each_part() -> None:
    one = slab(L_SHAPE, np.array([0.0, 0.0, -1.0]))
    vertices, faces, side = merged([one, one])
    assert len(vertices) == 2 * len(one[0])
    assert trimesh.Trimesh(vertices, faces, process=False).volume == pytest.approx(12.0)
    assert len(side) == len(faces)


@pytest.mark.parametrize("name", NAMES)
def test_all_but_walls_and_their_siding_are_closed(name: str) -> None:
    for body in stage_of(layout(name)).bodies:
        solid = trimesh.Trimesh(body.vertices, body.faces, process=False)
        assert len(body.side) == len(body.faces)
        if body.kind not in ("wall", "siding"):
            assert solid.is_watertight, (body.kind, body.name)
            assert solid.volume > 0, (body.kind, body.name)


def test_boards_of_a_roof_close_its_corners() -> None:
    boards = [body for body in stage_of(layout("harbor-office")).bodies if body.kind == "fascia"]
    ends = np.concatenate([np.round(body.vertices[:4, :2], 6) for body in boards])
    _, counts = np.unique(ends, axis=0, return_counts=True)
    assert (counts == 2).all()


def test_panels_show_their_paint_upward_and_at_the_eave_outward() -> None:
    roof = layout("boat-shed")
    face = roof.roof.faces[0]
    for body in stage_of(roof).bodies:
        if body.kind == "pan" and body.name.startswith(face.name):
            corners = body.vertices[body.faces[body.side == 1]]
            areas = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
            normals = areas / np.linalg.norm(areas, axis=1)[:, None]
            pan = normals @ face.normal > 0.99
            sizes = np.linalg.norm(areas, axis=1)
            assert sizes[pan].sum() > 0.7 * sizes.sum(), body.name
            front = normals[(normals @ face.normal < 0.1) & (normals[:, 1] < -0.5)]
            assert len(front), body.name
