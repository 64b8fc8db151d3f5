"""What a camera sees, against rays cast by VTK; lines, and that it does not matter how many work at it."""

from dataclasses import replace

import numpy as np
import pytest
import pyvista
from scipy.spatial import Delaunay
from vtkmodules.vtkCommonCore import reference
from vtkmodules.vtkCommonDataModel import vtkStaticCellLocator
from zoo import layout

from trimwright.viewer.display.body import slab
from trimwright.viewer.display.camera import Shot
from trimwright.viewer.display.coats import DULL, PAINT
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.render import compiled, picture, workers
from trimwright.viewer.render.meshes import pieces_of
from trimwright.viewer.render.raster_kernels import fill
from trimwright.viewer.render.surface import ColoredMesh, Ground, Surface, surface_of
from trimwright.viewer.render.visible import NEAREST, Seen, see

SIZE = (40, 25)
UP = np.array([0.0, 0.0, 1.0])


def block(
    low: tuple[float, float, float], high: tuple[float, float, float], edges: bool = True
) -> ColoredMesh:
    (x0, y0, z0), (x1, y1, z1) = low, high
    top = np.array([[x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1]])
    vertices, faces, _ = slab(top, np.array([0, 0, z0 - z1]))
    return ColoredMesh(vertices, faces, np.full((len(faces), 3), 150, dtype=np.uint8), DULL, edges)


def front(away: float = 40.0, across: float = 20.0) -> Shot:
    """Return the camera that looks along +y at the origin."""
    return Shot(np.array([0.0, -away, 0.0]), np.zeros(3), UP, across, across)


def rays_of(seen: Seen) -> np.ndarray:
    """Return ``(n, 3)`` lines of sight, an inch of depth long, row by row."""
    high, wide = seen.shown.shape
    x, y = np.meshgrid(np.arange(wide) + 0.5, np.arange(high) + 0.5)
    x += np.where(np.arange(high) % 2 == 0, 0.25, -0.25)[:, None]
    return np.stack([x.ravel(), y.ravel(), np.ones(x.size)], axis=1) @ seen.eye.rays.T


def by_rays(surface: Surface, shot: Shot, seen: Seen) -> np.ndarray:
    """Return the depth that VTK's ray caster finds for each pixel; what is too near to be drawn is left off."""
    mesh = pyvista.PolyData.from_regular_faces(surface.vertices, surface.faces)
    locator = vtkStaticCellLocator()
    locator.SetDataSet(mesh)
    locator.BuildLocator()
    depth = []
    share, point, inside, part = reference(0.0), [0.0] * 3, [0.0] * 3, reference(0)
    near, far = NEAREST * shot.distance, 1e4
    for ray in rays_of(seen):
        hit = locator.IntersectWithLine(
            shot.eye + ray * near, shot.eye + ray * far, 0.0, share, point, inside, part
        )
        depth.append(near + share.get() * (far - near) if hit else np.inf)
    return np.array(depth).reshape(seen.shown.shape)


@pytest.mark.parametrize("name", ["street", "corner eave-rake R1-1", "screws R1", "ladder"])
def test_depths_are_those_that_rays_find(name: str) -> None:
    stage = stage_of(layout("boat-shed"))
    view = stage.view(name)
    surface = surface_of(pieces_of(stage, view))
    shot = view.shots[0]
    seen = see(surface, shot, SIZE)
    found = by_rays(surface, shot, seen)
    same = np.abs(seen.nearness - 1 / found) < 1e-3 / shot.distance
    assert np.isfinite(found).mean() > 0.1
    assert same.mean() > 0.998, "all but rays that graze an edge"


def test_a_side_level_but_for_a_hair_draws_nothing_outside_the_picture() -> None:
    """It crosses the row above the face farther off than whole numbers reach, and another side ends that row at -11."""
    corners = np.array([[-10.0, -1e5, 30], [5, np.nextafter(5, 6), 30], [1, 1, 1]])
    shown = np.full((40, 40), -1, dtype=np.int32)
    nearness = np.zeros((40, 40), dtype=np.float32)
    face, plane = np.array([[0, 1, 2]], dtype=np.int32), np.array([[0.0], [0], [1]])
    fill(corners, face, plane, 2.0, 0, 40, 0.0, shown, nearness)
    rows, columns = np.nonzero(shown == 0)
    assert (rows.min(), rows.max(), columns.min(), columns.max()) == (12, 29, 0, 28)


def test_an_eye_amid_a_face_needs_no_clipping() -> None:
    """A floor that reaches far behind the eye, seen along it: the horizon is where it should be."""
    floor = np.array([[-900.0, -900, -5], [900, -900, -5], [900, 900, -5], [-900, 900, -5]])
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    surface = surface_of([ColoredMesh(floor, faces, np.zeros((2, 3), dtype=np.uint8), DULL, False)])
    shot = front()
    seen = see(surface, shot, (100, 100))
    found = by_rays(surface, shot, seen)
    assert np.array_equal(np.isfinite(found), seen.shown >= 0)
    there = np.isfinite(found)
    assert np.allclose(1 / seen.nearness[there], found[there], rtol=1e-4)
    assert 0.3 < there.mean() < 0.5


def test_faces_that_share_a_side_leave_no_pixel_out() -> None:
    rng = np.random.default_rng(5)
    inner = rng.uniform(-6, 6, size=(60, 2))
    corners = np.concatenate([inner, [[-9, -9], [9, -9], [9, 9], [-9, 9]]])
    faces = Delaunay(corners).simplices.astype(np.int64)
    vertices = np.column_stack([corners[:, 0], rng.uniform(-1, 1, len(corners)), corners[:, 1]])
    surface = surface_of(
        [ColoredMesh(vertices, faces, np.zeros((len(faces), 3), dtype=np.uint8), DULL, False)]
    )
    seen = see(surface, front(across=14.0), (200, 200))
    assert (seen.shown >= 0).all()


def test_depth_is_measured_along_the_line_of_sight() -> None:
    square = np.array([[-5, 0, -5], [5, 0, -5], [5, 0, 5], [-5, 0, 5]], dtype=float)
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    surface = surface_of([ColoredMesh(square, faces, np.zeros((2, 3), dtype=np.uint8), DULL, False)])
    seen = see(surface, front(), (100, 100))
    assert seen.depth[50, 50] == pytest.approx(40, abs=0.01)
    assert np.isinf(seen.depth[2, 2])
    assert np.isfinite(seen.depth).mean() == pytest.approx(0.25, abs=0.01)


def test_edges_are_drawn_where_they_are_seen_and_nowhere_else() -> None:
    behind, before = block((-4, 10, -4), (4, 12, 4)), block((-8, 0, -8), (8, 1, 8), edges=False)
    alone = see(surface_of([behind]), front(), (100, 100)).ink
    assert alone[:, 60:140].any(), "its upper side"
    hidden = see(surface_of([behind, before]), front(), (100, 100)).ink
    assert not hidden.any()


def test_a_drawn_edge_is_whole_and_as_wide_as_it_should_be() -> None:
    """The front face of a block: each of its four sides is a line of 2 pixels of what is seen, without a gap."""
    ink = see(surface_of([block((-5, 0, -5), (5, 1, 5))]), front(), (100, 100)).ink.astype(float) / 255
    across = ink[100 - 40 : 100 + 40, 30:70].sum(axis=1)
    assert across == pytest.approx(np.full(80, 2.0), abs=0.05)


def test_nothing_is_drawn_below_the_ground() -> None:
    ground = Ground(-2.0, np.array([0.5, 0.5, 0.5], dtype=np.float32), np.zeros(2), 60.0)
    shot = Shot(np.array([0.0, -40.0, 20.0]), np.zeros(3), UP, 20.0, 20.0)
    post = block((-3, -3, -8), (3, 3, 2))
    seen = see(surface_of([post], ground), shot, (100, 100))
    sunk = shot.project(post.vertices[post.vertices[:, 2] < -7], (200, 200))[0].max()
    rows = np.flatnonzero(seen.ink.any(axis=1))
    assert rows.max() < sunk - 10
    assert (seen.shown[rows.max() + 4] >= seen.surface.bodies).all(), "below its foot there is ground alone"
    assert np.isinf(seen.depth[-1]).all(), "the ground hides nothing that is spoken of"


def test_the_sky_the_ground_and_what_is_matt_are_no_metal() -> None:
    ground = Ground(-5.0, np.array([0.5, 0.5, 0.5], dtype=np.float32), np.zeros(2), 60.0)
    wall = block((-5, 0, -5), (0, 1, 5))
    sheet = replace(block((0, 0, -5), (5, 1, 5)), coat=PAINT["satin"])
    seen = see(surface_of([wall, sheet], ground), front(), (100, 100))
    assert seen.metal.shape == seen.depth.shape == (100, 100)
    columns = np.flatnonzero(seen.metal.any(axis=0))
    assert (columns.min(), columns.max()) == pytest.approx((50, 74), abs=1)
    assert seen.metal.mean() == pytest.approx(0.125, abs=0.005)


def test_only_what_is_nearer_is_added_to_what_stands() -> None:
    far, near = surface_of([block((-5, 5, -5), (5, 6, 5))]), surface_of([block((-2, 0, -9), (2, 1, 0))])
    standing = see(far, front(), (50, 50))
    added = see(near, front(), (50, 50), standing.nearness)
    both = see(surface_of([block((-5, 5, -5), (5, 6, 5)), block((-2, 0, -9), (2, 1, 0))]), front(), (50, 50))
    assert np.array_equal(np.maximum(added.nearness, standing.nearness), both.nearness)
    assert not (see(far, front(), (50, 50), both.nearness).shown >= 0).any()


@pytest.mark.parametrize("view", ["finish", "corner eave-rake R1-1"])
def test_a_picture_is_the_same_to_the_byte_whoever_draws_it(
    view: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    stage = stage_of(layout("boat-shed"))
    pictures = []
    for count in (1, 2, 5):
        monkeypatch.setattr(workers, "COUNT", count)
        pictures.append(picture.drawn(stage, stage.view(view), (300, 190)).tobytes())
    assert pictures[0] == pictures[1] == pictures[2]


def test_where_no_folder_keeps_what_is_compiled_it_is_compiled_each_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def locked(**options: object) -> object:
        if options.pop("cache", False):
            raise RuntimeError("cannot cache function: no locator available")
        return njit(**options)

    njit = compiled.numba.njit
    monkeypatch.setattr(compiled.numba, "njit", locked)

    def double(x: int) -> int:
        return 2 * x

    assert compiled.kernel(double)(4) == 8


def test_outdoors_the_ground_is_seen_to_the_viewers_feet() -> None:
    post = block((-3, 0, -9), (3, 1, 5))
    ground = Ground(-9.0, np.array([0.5, 0.5, 0.5], dtype=np.float32), np.zeros(2), 900.0)
    shot = Shot(np.array([0.0, -100.0, 0.0]), np.zeros(3), UP, 60.0, 60.0)
    seen = see(surface_of([post], ground), shot, (100, 100))
    assert (seen.shown[-1] >= seen.surface.bodies).all()
