"""Corners of measured faces, moved so that these are plane: as little as does it, and never beyond the tolerance."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.model.roof import forms
from trimwright.model.roof.edges import roof_from_faces
from trimwright.model.roof.record import Roof
from trimwright.model.tolerances import LEVEL, POINT

HIP = forms.faces(forms.hip(480, 300, (0.5, 0.7), 100, 0))


def noisy(seed: int, noise: float) -> Roof:
    chance = np.random.default_rng(seed)
    return roof_from_faces(
        [face + chance.uniform(-noise, noise, face.shape) for face in HIP], 0.5, tolerance=0.5
    )


def out_of_plane(roof: Roof) -> float:
    return max(float(np.abs((face.outline - face.outline[0]) @ face.normal).max()) for face in roof.faces)


@given(st.integers(0, 2**32 - 1), st.sampled_from([0.001, 0.02, 0.1]))
def test_faces_are_plane_and_eaves_and_ridge_level(seed: int, noise: float) -> None:
    roof = noisy(seed, noise)
    assert out_of_plane(roof) <= POINT
    kinds = [edge.kind for edge in roof.edges]
    assert {kind: kinds.count(kind) for kind in kinds} == {"eave": 4, "hip": 4, "ridge": 1}
    assert all(edge.slope <= LEVEL for edge in roof.edges if edge.kind != "hip")


@given(st.integers(0, 2**32 - 1), st.sampled_from([0.001, 0.02, 0.1]))
def test_no_corner_goes_farther_than_the_noise(seed: int, noise: float) -> None:
    """A corner is noisy by a root of 3 at the most, and the true roof is as near: what is nearest is no farther."""
    plain = roof_from_faces(HIP, 0.5)
    off = np.linalg.norm(noisy(seed, noise).vertices[:, None] - plain.vertices, axis=2).min(axis=1)
    assert np.linalg.norm(off) <= 2 * math.sqrt(3 * len(off)) * noise


def test_a_corner_out_of_plane_by_hand() -> None:
    """Four corners of a square, one of them lifted by 0.4 in: each gives way by 0.1 in, as signs go + - + -.

    The square is turned by 30 degrees in its plane, so that none of its sides is to be level.
    """
    along, up, normal = np.array([[1, 0, 0], [0, 1, 1], [0, -1, 1]]) / np.array([[1], [2**0.5], [2**0.5]])
    turns = [math.radians(30 + 90 * k) for k in range(4)]
    square = np.array([240 * (math.cos(turn) * along + math.sin(turn) * up) for turn in turns])
    lifted = square + np.outer([0, 0, 0.4, 0], normal)
    (face,) = roof_from_faces([lifted], 0.5, tolerance=0.5).faces
    assert (face.outline - lifted) @ normal == pytest.approx([-0.1, 0.1, -0.1, 0.1], abs=0.001)


def test_an_eave_that_rises_more_than_the_tolerance_goes_on_rising() -> None:
    """By 2 in over 20 ft."""
    face = np.array([[0, 0, 100], [240, 0, 102], [240, 120, 162], [0, 120, 160]], dtype=float)
    roof = roof_from_faces([face], 0.5, tolerance=0.5)
    assert roof.vertices == pytest.approx(face, abs=POINT)
    (eave,) = (edge for edge in roof.edges if edge.kind == "eave")
    assert math.degrees(eave.slope) == pytest.approx(math.degrees(math.atan(2 / 240)))


def test_without_tolerance_nothing_moves() -> None:
    roof = roof_from_faces(HIP, 0.5)
    given_corners = np.concatenate(HIP)
    assert all(np.abs(given_corners - corner).sum(axis=1).min() == 0.0 for corner in roof.vertices)
