"""Cameras that nobody solved for: known, photographed with, and found again from what was tapped."""

import math

import numpy as np
import pytest
from photographs import SIX, SIZE, shot
from scipy.spatial.transform import Rotation

from trimwright.viewer.photo.camera import Camera, camera_from, numbers_of
from trimwright.viewer.photo.solve import UnsolvedError, solve


def errors(count: int, seed: int, bend: float = 0.0) -> np.ndarray:
    """Return how far off each corner of each of many roofs is seen by the camera that was solved, pixels."""
    draw = np.random.default_rng(seed)
    off = []
    for number in range(count):
        one = shot(SIX[number % len(SIX)], draw, bend=bend)
        off.append(one.off(solve(one.corners, one.taps, SIZE)[0].camera))
    return np.concatenate(off)


def slips_named(count: int, seed: int) -> int:
    """Return how often a tap that slipped by 40 to 120 pixels is named."""
    draw = np.random.default_rng(seed)
    named = 0
    for number in range(count):
        one = shot(SIX[number % len(SIX)], draw)
        slipped, way = int(draw.integers(len(one.taps))), draw.uniform(0, math.tau)
        taps = one.taps.copy()
        taps[slipped] += draw.uniform(40, 120) * np.array([math.cos(way), math.sin(way)])
        named += solve(one.corners, taps, SIZE)[0].wrong == slipped
    return named


def test_exact_taps_give_the_camera_itself() -> None:
    one = shot("sail-loft", np.random.default_rng(1), noise=0.0)
    (solved,) = solve(one.corners, one.taps, SIZE)
    assert solved.misfit < 1e-4 and solved.wrong is None
    assert solved.camera.focal == pytest.approx(one.camera.focal, rel=1e-4)
    assert np.linalg.norm(solved.camera.eye - one.camera.eye) < 0.5


def test_taps_of_two_pixels_give_corners_within_three() -> None:
    assert np.median(errors(5, seed=2)) <= 3


def test_a_bent_lens_is_seen_through() -> None:
    assert np.median(errors(3, seed=3, bend=0.02)) <= 6


def test_a_slip_is_named_and_left_out() -> None:
    assert slips_named(2, seed=4) == 2


@pytest.mark.sweep
def test_two_hundred_photographs() -> None:
    assert np.median(errors(200, seed=5)) <= 3
    assert np.median(errors(60, seed=6, bend=0.02)) <= 6
    assert slips_named(100, seed=7) >= 95


@pytest.mark.parametrize("count", [4, 5])
def test_with_the_focal_length_known_few_taps_do_and_every_camera_that_fits_is_offered(count: int) -> None:
    draw = np.random.default_rng(8)
    one = shot("boat-shed", draw, noise=0.3)
    picked = draw.permutation(len(one.corners))[:count]
    solved = solve(one.corners[picked], one.taps[picked], SIZE, one.camera.focal)
    assert min(one.off(each.camera).max() for each in solved) < 12
    assert [each.misfit for each in solved] == sorted(each.misfit for each in solved)


def test_corners_of_one_face_do_too() -> None:
    one = shot("oar-store", np.random.default_rng(9), noise=0.3)
    solved = solve(one.corners, one.taps, SIZE, one.camera.focal)
    assert min(one.off(each.camera).max() for each in solved) < 3


def test_too_few_taps_and_taps_on_a_line_are_refused() -> None:
    one = shot("boat-shed", np.random.default_rng(10))
    with pytest.raises(UnsolvedError, match="3 corners are tapped"):
        solve(one.corners[:3], one.taps[:3], SIZE)
    line = np.linspace([0, 0, 0], [100, 0, 50], 5)
    with pytest.raises(UnsolvedError, match="one line"):
        solve(line, one.taps[:5], SIZE)


def test_where_a_camera_sees_a_point_by_hand() -> None:
    """An eye at the origin looks along +y: 100 in ahead, 10 right and 20 up is 0.1 and 0.2 of the focal length."""
    turn = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])
    camera = Camera(SIZE, 1000.0, turn, np.zeros(3))
    assert camera.project(np.array([[10.0, 100, 20]])).ravel() == pytest.approx([900, 400])
    bent = Camera(SIZE, 1000.0, turn, np.zeros(3), 0.1)
    far = 1 + 0.1 * (100**2 + 200**2) / 1000**2
    assert bent.project(np.array([[10.0, 100, 20]])).ravel() == pytest.approx(
        [800 + 100 * far, 600 - 200 * far]
    )


def test_a_camera_and_its_numbers_are_inverse() -> None:
    camera = Camera(
        SIZE, 1234.0, Rotation.from_rotvec([0.3, -1.2, 0.4]).as_matrix(), np.array([5.0, -900, 60]), 0.01
    )
    again = camera_from(numbers_of(camera, focal=True, bend=True), SIZE, None)
    assert again.focal == pytest.approx(camera.focal) and again.bend == pytest.approx(camera.bend)
    assert np.allclose(again.turn, camera.turn) and np.allclose(again.eye, camera.eye)
