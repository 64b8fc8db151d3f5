"""Light: what stands in the sun is brighter, what it shades is darker, folds are darker inside."""

import numpy as np
import pytest

from trimwright.viewer.display.body import slab
from trimwright.viewer.display.camera import Shot
from trimwright.viewer.display.coats import DULL
from trimwright.viewer.render.light import Weather, lights_on, lit
from trimwright.viewer.render.surface import ColoredMesh, Ground, surface_of
from trimwright.viewer.render.visible import see


def block(low: tuple[float, float, float], high: tuple[float, float, float]) -> ColoredMesh:
    (x0, y0, z0), (x1, y1, z1) = low, high
    top = np.array([[x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1]])
    vertices, faces, _ = slab(top, np.array([0, 0, z0 - z1]))
    return ColoredMesh(vertices, faces, np.full((len(faces), 3), 150, dtype=np.uint8), DULL, edges=False)


def looked_at(
    pieces: list[ColoredMesh], toward: tuple[float, float, float], ground: Ground | None = None
) -> np.ndarray:
    """Return the picture from straight above, 40 inches across, from 0 to 1, without the sky's own color."""
    shot = Shot(np.array([0.0, 0.0, 300.0]), np.zeros(3), np.array([0.0, 1.0, 0.0]), 40.0, 40.0)
    weather = Weather(
        np.array(toward) / np.linalg.norm(toward), 0.7, 0.5, 0.3, rays=24, sun_map=400, sky_map=200
    )
    surface = surface_of(pieces, ground)
    lights = lights_on(surface, weather, np.zeros(3), 40.0)
    backdrop = np.full((80, 80, 3), 255, dtype=np.uint8)
    return lit(see(surface, shot, (80, 80)), lights, backdrop).mean(axis=2) / 255


@pytest.fixture(scope="module")
def wall_on_a_slab() -> np.ndarray:
    """A wall that runs up the picture's middle, 6 in high, with the sun to its left."""
    return looked_at([block((-20, -20, -1), (20, 20, 0)), block((-0.5, -20, 0), (0.5, 20, 6))], (-1, 0, 1))


def test_a_wall_throws_a_shadow_as_long_as_it_is_high(wall_on_a_slab: np.ndarray) -> None:
    row = wall_on_a_slab[40]
    open_left, shade, open_right = row[10], row[40 + 6], row[40 + 26]
    assert shade < open_left - 0.1
    assert open_right == pytest.approx(open_left, abs=0.06)


def test_the_foot_of_a_wall_sees_less_sky_on_its_sunny_side_too(wall_on_a_slab: np.ndarray) -> None:
    row = wall_on_a_slab[40]
    assert row[36] < row[10] - 0.02


def test_ground_takes_the_shadow_and_fades_away() -> None:
    ground = Ground(0.0, np.array([0.6, 0.6, 0.6], dtype=np.float32), np.zeros(2), 19.0)
    picture = looked_at([block((-0.5, -6, 0), (0.5, 6, 6))], (-1, 0, 1), ground)
    assert picture[40, 46] < picture[40, 30] - 0.1, "in the shadow"
    assert picture[1, 1] == pytest.approx(1.0, abs=0.01), "beyond its reach the backdrop is left"


def test_both_sides_of_a_thin_sheet_are_lit() -> None:
    top = np.array([[-20, -20, 0], [20, -20, 0], [20, 20, 0], [-20, 20, 0]], dtype=float)
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    for turned in (faces, faces[:, ::-1]):
        piece = ColoredMesh(top, turned, np.full((2, 3), 150, dtype=np.uint8), DULL, edges=False)
        assert looked_at([piece], (0, 0, 1))[40, 40] > 0.4
