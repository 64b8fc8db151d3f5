"""Cameras: what they are to see lies in the picture, upright and the right way round."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from trimwright.viewer.display.camera import Shot, looking_at

coordinate = st.floats(-500, 500)
point = st.tuples(coordinate, coordinate, coordinate)


@given(
    st.lists(point, min_size=2, max_size=12), st.floats(0, 6.28), st.floats(-0.5, 1.5), st.floats(0.5, 2.5)
)
def test_all_that_is_to_be_seen_is_in_the_picture(
    points: list[tuple[float, float, float]], turn: float, rise: float, aspect: float
) -> None:
    cloud = np.array(points)
    shot = looking_at(cloud, (np.cos(turn), np.sin(turn), rise), margin=1.05)
    size = (round(600 * aspect), 600)
    pixels, away = shot.project(cloud, size)
    assert (away > 0).all()
    assert (pixels >= -1).all()
    assert (pixels <= np.array(size) + 1).all()


def test_right_is_right_and_up_is_up() -> None:
    shot = Shot(np.array([0.0, -100.0, 0.0]), np.zeros(3), np.array([0.0, 0.0, 1.0]), 20.0, 10.0)
    pixels, away = shot.project(np.array([[0, 0, 0], [5, 0, 0], [0, 0, 5]], dtype=float), (200, 100))
    assert np.allclose(pixels, [[100, 50], [150, 50], [100, 0]])
    assert np.allclose(away, 100)


def test_a_narrow_picture_still_shows_the_whole_width() -> None:
    shot = Shot(np.array([0.0, -100.0, 0.0]), np.zeros(3), np.array([0.0, 0.0, 1.0]), 20.0, 10.0)
    pixels, _ = shot.project(np.array([[-10, 0, 0], [10, 0, 0]], dtype=float), (100, 100))
    assert np.allclose(pixels[:, 0], [0, 100])
