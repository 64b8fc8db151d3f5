"""A camera that took a photograph: where it stood, where it looked, its lens, and where it sees a point."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial.transform import Rotation

from trimwright.model.geometry.arrays import Array


@dataclass(frozen=True, slots=True, eq=False)
class Camera:
    """A camera with square pixels, its axis through the middle of the picture.

    Attributes:
        size: Width and height of the picture, pixels.
        focal: Distance of the picture from the lens, pixels.
        turn: ``(3, 3)`` rotation from the scene frame to the camera's: to the right, down, away from the eye.
        eye: ``(3,) float, inches, scene frame``.
        bend: Radial distortion: a point is seen ``bend`` times the square of its distance from the middle, in
            halves of the diagonal, farther out than a straight lens would show it.
    """

    size: tuple[int, int]
    focal: float
    turn: Array
    eye: Array
    bend: float = 0.0

    @property
    def middle(self) -> Array:
        """``(2,)`` pixels."""
        return np.array(self.size) / 2

    def seen(self, points: Array) -> Array:
        """Return ``(n, 3)`` scene points in the camera's own frame, inches."""
        return np.asarray((np.asarray(points, dtype=float) - self.eye) @ self.turn.T)

    def project(self, points: Array) -> Array:
        """Return where ``(n, 3)`` scene points fall, ``(n, 2)`` pixels from the upper left corner.

        A point beside or behind the eye falls far outside of the picture.
        """
        local = self.seen(points)
        flat = local[:, :2] / np.maximum(local[:, 2:], NEAREST) * self.focal
        half = np.linalg.norm(self.middle)
        off = np.minimum((flat**2).sum(axis=1, keepdims=True) / half**2, FARTHEST)
        return np.asarray(self.middle + flat * (1 + self.bend * off))


NEAREST = 1e-3
"""Inches before the eye: nearer points are taken to be there, so that a search that strays finds its way back."""

FARTHEST = 16.0
"""Square of a distance from the middle, in halves of the diagonal, beyond which distortion grows no more."""


def camera_from(numbers: Array, size: tuple[int, int], focal: float | None) -> Camera:
    """Return the camera that a row of numbers stands for.

    Args:
        numbers: Turn as a rotation vector (3), where the scene's middle is in the camera's frame (3), then the
            logarithm of the focal length unless ``focal`` is given, then the distortion if there is one more.
        size: Of the picture, pixels.
        focal: The focal length where it is known, pixels.
    """
    turn = Rotation.from_rotvec(numbers[:3]).as_matrix()
    rest = numbers[6:]
    if focal is None:
        focal, rest = float(np.exp(rest[0])), rest[1:]
    return Camera(size, focal, turn, -turn.T @ numbers[3:6], float(rest[0]) if len(rest) else 0.0)


def numbers_of(camera: Camera, focal: bool, bend: bool) -> Array:
    """Return the row of numbers that `camera_from` makes the camera of again."""
    place = -camera.turn @ camera.eye
    numbers = [*Rotation.from_matrix(camera.turn).as_rotvec(), *place]
    return np.array(numbers + [np.log(camera.focal)] * focal + [camera.bend] * bend)
