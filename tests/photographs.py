"""Made-up photographs: a known camera before a known roof, and what a finger taps in it."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from zoo import layout

from trimwright.viewer.photo.camera import Camera

Array = NDArray[np.float64]
SIZE = (1600, 1200)
SIX = ("boat-shed", "harbor-office", "ice-house", "sail-loft", "net-loft")
"""Scenes whose roof has six corners, on two faces and more."""


@dataclass(frozen=True, slots=True, eq=False)
class Shot:
    """A photograph: the roof's corners, the camera, where it sees them, and where they are tapped."""

    corners: Array
    camera: Camera
    seen: Array
    taps: Array

    def off(self, camera: Camera) -> Array:
        """Return how far from where they are another camera sees the corners, pixels."""
        return np.asarray(np.linalg.norm(camera.project(self.corners) - self.seen, axis=1))


def camera_before(points: Array, draw: np.random.Generator, bend: float) -> Camera:
    """Return a camera that someone holds upright before a house, all of the roof in the picture."""
    middle = points.mean(axis=0)
    reach = np.linalg.norm(points - middle, axis=1).max()
    while True:
        focal = draw.uniform(0.7, 1.6) * SIZE[0]
        bearing, rise = draw.uniform(0, math.tau), draw.uniform(-0.15, 0.15)
        back = np.array(
            [math.cos(bearing) * math.cos(rise), math.sin(bearing) * math.cos(rise), math.sin(rise)]
        )
        right = np.cross([0.0, 0.0, 1.0], back)
        right /= np.linalg.norm(right)
        turn = np.array([right, np.cross(-back, right), -back])
        eye = (
            middle + back * focal * reach / draw.uniform(350, 650) + turn[0] * draw.uniform(-0.1, 0.1) * reach
        )
        camera = Camera(SIZE, focal, turn, eye, bend)
        seen = camera.project(points)
        if ((seen > 20) & (seen < np.array(SIZE) - 20)).all():
            return camera


def from_the_front_left(name: str, noise: float = 0.0) -> Shot:
    """Return a photograph of a scene's roof by someone who stands before its left front corner."""
    corners = layout(name).roof.vertices
    middle = corners.mean(axis=0)
    eye = middle + np.array([-420.0, -640.0, 60.0])
    away = (middle - eye) / np.linalg.norm(middle - eye)
    right = np.cross(away, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    camera = Camera(SIZE, 1500.0, np.array([right, np.cross(away, right), away]), eye)
    seen = camera.project(corners)
    return Shot(corners, camera, seen, seen + np.random.default_rng(11).normal(0, noise, seen.shape))


def shot(name: str, draw: np.random.Generator, noise: float = 2.0, bend: float = 0.0) -> Shot:
    """Return a photograph of a scene's roof, all its corners tapped with ``noise`` pixels (one standard error)."""
    corners = layout(name).roof.vertices
    camera = camera_before(corners, draw, bend)
    seen = camera.project(corners)
    return Shot(corners, camera, seen, seen + draw.normal(0, noise, seen.shape))
