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


def one_face(wide: float, rise: float) -> Roof:
    """Return a plane face, its eave and its upper edge ``rise`` inches higher on the right; tolerance 1/2 in."""
    face = np.array([[0, 0, 100], [wide, 0, 100 + rise], [wide, 120, 160 + rise], [0, 120, 160]], dtype=float)
    return roof_from_faces([face], 0.5, tolerance=0.5)


def test_an_eave_as_good_as_level_is_level_by_hand() -> None:
    """By 0.1 in over 20 ft, 0.02 degrees: half of it is taken from the one end and given to the other."""
    heights = np.sort(one_face(240, 0.1).vertices[:, 2])
    assert heights == pytest.approx([100.05, 100.05, 160.05, 160.05], abs=POINT)


@pytest.mark.parametrize(
    ("wide", "rise"),
    [(240, 2.0), (240, 0.7), (10, 0.4)],
    ids=["by far more than the tolerance", "by more than the tolerance", "by 2.3 degrees"],
)
def test_an_eave_that_rises_goes_on_rising(wide: float, rise: float) -> None:
    """0.7 in could be shared by both ends within the tolerance; 0.4 in is within it, but not on an edge of 10 in."""
    roof = one_face(wide, rise)
    assert np.sort(roof.vertices[:, 2]) == pytest.approx([100, 100 + rise, 160, 160 + rise], abs=POINT)
    (eave,) = (edge for edge in roof.edges if edge.kind == "eave")
    assert math.degrees(eave.slope) == pytest.approx(math.degrees(math.atan(rise / wide)))


def test_where_level_edges_would_go_too_far_faces_are_still_plane() -> None:
    """Twelve sides round a face that falls by 0.4 degrees, 1.4 in over 200.

    Each rises by 0.36 in at the most, but all of them level would take corners down by 0.7 in, farther than 1/2 in.
    """
    turns = np.radians(30 * np.arange(12))
    fall = math.tan(math.radians(0.4))
    ring = np.column_stack([100 * np.cos(turns), 100 * np.sin(turns), 100 * np.sin(turns) * fall])
    ring[0, 2] += 0.3
    roof = roof_from_faces([ring], 0.5, tolerance=0.5)
    assert out_of_plane(roof) <= POINT
    assert np.ptp(roof.vertices[:, 2]) == pytest.approx(200 * fall, abs=0.3)


def test_without_tolerance_nothing_moves() -> None:
    roof = roof_from_faces(HIP, 0.5)
    given_corners = np.concatenate(HIP)
    assert all(np.abs(given_corners - corner).sum(axis=1).min() == 0.0 for corner in roof.vertices)
