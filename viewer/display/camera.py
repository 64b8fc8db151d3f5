"""Where a view is seen from, and where its points fall in the picture."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from trimwright.model.geometry.arrays import Array

UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True, eq=False)
class Shot:
    """One camera.

    Attributes:
        eye: ``(3,) float, inches, scene frame``.
        target: Point in the middle of the picture.
        up: ``(3,)`` direction that is up in the picture.
        width: Least width of what is seen at the target, inches.
        height: Least height of it.
        frame: Part of the picture it fills: left, top, right, bottom, from 0 to 1.
        axes: ``(3, 3)`` rows: to the right, up in the picture, and back toward the eye.
    """

    eye: Array
    target: Array
    up: Array
    width: float
    height: float
    frame: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    axes: Array = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Work out the axes."""
        object.__setattr__(self, "axes", axes_of(self.up, (self.eye - self.target) / self.distance))

    @property
    def distance(self) -> float:
        """From eye to target, inches."""
        return float(np.linalg.norm(self.target - self.eye))

    def span(self, aspect: float) -> float:
        """Return the height seen at the target in a picture ``aspect`` times as wide as high, inches."""
        return max(self.height, self.width / aspect)

    def angle(self, aspect: float) -> float:
        """Return the angle of view from top to bottom, radians."""
        return 2 * math.atan(self.span(aspect) / 2 / self.distance)

    def project(self, points: Array, size: tuple[int, int]) -> tuple[Array, Array]:
        """Return where points fall in a picture and how far along the line of sight they are.

        Args:
            points: ``(n, 3) float, inches, scene frame``.
            size: Width and height of the picture, pixels.

        Returns:
            ``(n, 2)`` pixels from the upper left corner, and ``(n,)`` inches; negative behind the eye.
        """
        width, height = size
        seen = (np.asarray(points) - self.eye) @ self.axes.T
        away = -seen[:, 2]
        scale = height / 2 / math.tan(self.angle(width / height) / 2) / np.where(away == 0, 1e-9, away)
        pixels = np.stack([width / 2 + seen[:, 0] * scale, height / 2 - seen[:, 1] * scale], axis=1)
        return pixels, away


def axes_of(up: Array, back: Array) -> Array:
    """Return ``(3, 3)`` rows, to the right, up and back, of who looks against the unit vector ``back``."""
    right = np.cross(up, back)
    right /= np.linalg.norm(right)
    return np.array([right, np.cross(back, right), back])


def looking_at(
    points: Array,
    direction: Sequence[float] | Array,
    up: Array = UP,
    margin: float = 1.1,
    lens: float = math.radians(26),
    frame: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0),
) -> Shot:
    """Return the camera that sees all of ``points`` from ``direction``.

    Args:
        points: ``(n, 3) float, inches, scene frame``.
        direction: ``(3,)`` from the target toward the eye.
        up: ``(3,)``: what is up in the picture.
        margin: How much more than the points is seen.
        lens: Angle of view across what is seen, radians.
        frame: Part of the picture it fills.
    """
    back = np.asarray(direction, dtype=float)
    back = back / np.linalg.norm(back)
    axes = axes_of(up, back)
    spread = points @ axes.T
    middle = (spread.min(axis=0) + spread.max(axis=0)) / 2
    span = np.ptp(spread, axis=0)
    width, height = max(span[0], 1e-6), max(span[1], 1e-6)
    for _ in range(5):
        target = middle @ axes
        distance = max(height, width / 1.6) / 2 / math.tan(lens / 2) + span[2] / 2
        seen = (points - target) @ axes.T
        flat = seen[:, :2] * (distance / (distance - seen[:, 2]))[:, None]
        middle[:2] += (flat.min(axis=0) + flat.max(axis=0)) / 2
        width, height = (max(float(size), 1e-6) for size in np.ptp(flat, axis=0))
    width, height = (max(2 * float(size), 1e-6) for size in np.abs(flat).max(axis=0))
    return Shot(target + back * distance, target, up, width * margin, height * margin, frame)
