"""Where a camera stood, from points whose place on the roof and in the photograph is known.

Six points or more that are not in one plane give the camera by linear equations (direct linear transformation),
which least squares then make exact; fewer, or such as lie in one plane, by least squares from many sides of the house
at once, and there may be more than one camera that fits.

Source: R. Hartley and A. Zisserman, *Multiple View Geometry in Computer Vision*, 2nd ed. (2004), ch. 7 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from scipy.linalg import rq
from scipy.optimize import least_squares

from trimwright.model.errors import Problem, TrimwrightError
from trimwright.model.geometry.arrays import Array
from trimwright.model.message import counted, message

from .camera import Camera, camera_from, numbers_of

FEWEST = 4
"""Taps that a camera can be solved from where its focal length is known."""

LINEAR = 6
"""Taps from which linear equations give the camera, focal length and all."""

BENT = 7
"""Taps from which the lens' distortion can be told from the rest."""

FOCALS = (0.6, 3.0)
"""Focal lengths of cameras, as shares of the picture's longer side: from a wide phone to a portrait lens."""

USUAL = 0.8
"""Focal length of a phone's main camera, as a share of the picture's longer side; from memory."""

MOST_BEND = 0.12
"""More distortion than any lens has that a house is photographed with."""

SAME = math.radians(3)
"""Cameras that look from directions this close, seen from the house, are one solution."""

WELL = 2.0
"""A solution that misses the taps by this many times what the best does is none."""


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """A camera that fits.

    Attributes:
        camera: The camera.
        misses: ``(n,)`` how far each tap lies from where the camera sees its corner, pixels.
        wrong: Which tap is so far off that it must be another corner or a slip; None for none.
    """

    camera: Camera
    misses: Array
    wrong: int | None = None

    @property
    def misfit(self) -> float:
        """Root mean square of the misses, pixels; of a wrong tap nothing counts."""
        kept = np.delete(self.misses, [] if self.wrong is None else [self.wrong])
        return float(np.sqrt((kept**2).mean()))


class UnsolvedError(TrimwrightError):
    """Taps that no camera follows from."""


def solve(
    points: Array, taps: Array, size: tuple[int, int], focal: float | None = None
) -> tuple[Solved, ...]:
    """Return the cameras that see ``points`` where the ``taps`` are, the best first; one where it is certain.

    Args:
        points: ``(n, 3) float, inches, scene frame``.
        taps: ``(n, 2)`` pixels from the upper left corner.
        size: Width and height of the photograph, pixels.
        focal: Focal length, pixels, where the photograph tells it.

    Raises:
        UnsolvedError: Too few taps, or all in one line.
    """
    points, taps = np.asarray(points, dtype=float), np.asarray(taps, dtype=float)
    _require(points)
    solved = _fitted(points, taps, size, focal)
    wrong = _wrong(points, taps, size, focal, solved[0])
    if wrong is None:
        return solved
    keep = np.delete(np.arange(len(taps)), wrong)
    best = _fitted(points[keep], taps[keep], size, focal)[0].camera
    return (Solved(best, _misses(best, points, taps), wrong),)


def _require(points: Array) -> None:
    """Refuse corners that no camera follows from."""
    if len(points) < FEWEST:
        told = counted(
            "{count} corner is tapped; tap {fewest} or more",
            "{count} corners are tapped; tap {fewest} or more",
            count=len(points),
            fewest=FEWEST,
        )
        raise UnsolvedError(Problem(told, ("photo", "point")))
    spread = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    if spread[1] < 1e-3 * spread[0]:
        told = message("all taps are on one line of the roof; tap a corner beside it too")
        raise UnsolvedError(Problem(told, ("photo", "point")))


def _fitted(
    points: Array, taps: Array, size: tuple[int, int], focal: float | None, near: Camera | None = None
) -> tuple[Solved, ...]:
    """Return every camera that fits the taps about as well as the best one; only those ``near`` one if it is given."""
    middle = points.mean(axis=0)
    bent = len(points) >= BENT
    found: list[Solved] = []
    if near is not None:
        starts: Iterable[Camera] = (Camera(size, near.focal, near.turn, near.eye - middle, near.bend),)
    else:
        starts = _starts(points - middle, taps, size, focal)
    for start in starts:
        camera = _refined(start, points - middle, taps, focal, bent)
        if (camera.seen(points - middle)[:, 2] <= 0).any():
            continue
        placed = Camera(size, camera.focal, camera.turn, camera.eye + middle, camera.bend)
        found.append(Solved(placed, _misses(placed, points, taps)))
    if not found:
        told = message("no camera sees these corners where the taps are; look at each tap once more")
        raise UnsolvedError(Problem(told, ("photo", "point")))
    found.sort(key=lambda solved: solved.misfit)
    kept: list[Solved] = []
    for solved in found:
        close = solved.misfit <= WELL * found[0].misfit + 0.5
        if close and all(_apart(solved.camera, other.camera, middle) > SAME for other in kept):
            kept.append(solved)
    return tuple(kept[:1] if len(points) >= LINEAR else kept)


def _starts(points: Array, taps: Array, size: tuple[int, int], focal: float | None) -> Iterator[Camera]:
    """Yield cameras to begin from: the linear one where there is one, and from all sides."""
    if len(points) >= LINEAR:
        linear = _linear(points, taps, size)
        if linear is not None:
            yield linear
            if _rms(linear, points, taps) < max(size) / 100:
                return
    span = float(np.linalg.norm(points, axis=1).max())
    seen = max(float(np.linalg.norm(taps - taps.mean(axis=0), axis=1).max()), 1.0)
    lengths = [focal] if focal is not None else [USUAL * max(size), 1.4 * max(size)]
    for length in lengths:
        far = length * span / seen
        for azimuth in np.linspace(0, 2 * math.pi, 12, endpoint=False):
            for height in (-0.25, 0.3):
                level = math.cos(height)
                back = np.array([math.cos(azimuth) * level, math.sin(azimuth) * level, math.sin(height)])
                yield _looking(back, far, length, taps.mean(axis=0), size)


def _looking(back: Array, far: float, length: float, toward: Array, size: tuple[int, int]) -> Camera:
    """Return a camera that sees the middle of the points at ``toward``, upright, from ``far`` inches away."""
    right = np.array([-back[1], back[0], 0.0])
    right /= np.linalg.norm(right)
    turn = np.array([right, -np.cross(back, right), -back])
    off = (toward - np.array(size) / 2) / length
    return Camera(size, length, turn, -turn.T @ (np.array([off[0], off[1], 1.0]) * far))


def _refined(start: Camera, points: Array, taps: Array, focal: float | None, bent: bool) -> Camera:
    """Return the camera near ``start`` that misses the taps least."""
    size, free = start.size, focal is None
    numbers = numbers_of(start, free, bent)
    longest = max(size)
    scale = np.concatenate([np.full(3, 0.1), np.full(3, np.linalg.norm(start.eye) / 10 + 1e-9)])
    low, high = np.full(len(numbers), -np.inf), np.full(len(numbers), np.inf)
    if free:
        scale = np.append(scale, 0.1)
        low[6], high[6] = math.log(FOCALS[0] * longest), math.log(FOCALS[1] * longest)
    if bent:
        scale = np.append(scale, 0.02)
        low[-1], high[-1] = -MOST_BEND, MOST_BEND
    inside = np.clip(numbers, low + 1e-9, high - 1e-9)

    def off(row: Array) -> Array:
        seen = camera_from(row, size, focal).project(points)
        held = [row[-1] / 0.05] if bent else []  # a lens is straight until the taps say otherwise
        return np.concatenate([np.clip(seen - taps, -10 * longest, 10 * longest).ravel(), held])

    done = least_squares(off, inside, bounds=(low, high), x_scale=scale, max_nfev=200)
    return camera_from(done.x, size, focal)


def _linear(points: Array, taps: Array, size: tuple[int, int]) -> Camera | None:
    """Return the camera that linear equations give; None where the points leave it open, as in one plane."""
    scale = np.linalg.norm(points, axis=1).max()
    middle, half = np.array(size) / 2, max(size) / 2
    x, y = ((taps - middle) / half).T
    rows = np.c_[points / scale, np.ones(len(points))]
    none = np.zeros_like(rows)
    equations = np.concatenate([np.c_[rows, none, -x[:, None] * rows], np.c_[none, rows, -y[:, None] * rows]])
    _, sizes, axes = np.linalg.svd(equations)
    if sizes[-2] < 1e-6 * sizes[0]:
        return None
    matrix = axes[-1].reshape(3, 4)
    if np.linalg.det(matrix[:, :3]) < 0:
        matrix = -matrix
    lens, turn = rq(matrix[:, :3])
    signs = np.diag(np.sign(np.diag(lens)))
    lens, turn = lens @ signs, signs @ turn
    eye = -np.linalg.solve(matrix[:, :3], matrix[:, 3]) * scale
    focal = float((lens[0, 0] + lens[1, 1]) / 2 / lens[2, 2]) * half
    if not math.isfinite(focal) or np.linalg.det(turn) < 0:
        return None
    return Camera(size, float(np.clip(focal, FOCALS[0] * max(size), FOCALS[1] * max(size))), turn, eye)


def _wrong(
    points: Array, taps: Array, size: tuple[int, int], focal: float | None, best: Solved
) -> int | None:
    """Return the one tap without which the rest agree, where all together they do not."""
    count = len(taps)
    if count < LINEAR or best.misfit < SLIP:
        return None
    without = []
    for tap in range(count):
        keep = np.delete(np.arange(count), tap)
        try:
            without.append(_fitted(points[keep], taps[keep], size, focal, best.camera)[0].misfit)
        except UnsolvedError:
            without.append(math.inf)
    least = int(np.argmin(without))
    return least if without[least] < best.misfit / 3 else None


SLIP = 4.0
"""Taps that agree to within this many pixels have no slip among them: a finger is as sure as that."""


def _misses(camera: Camera, points: Array, taps: Array) -> Array:
    return np.asarray(np.linalg.norm(camera.project(points) - taps, axis=1))


def _rms(camera: Camera, points: Array, taps: Array) -> float:
    return float(np.sqrt((_misses(camera, points, taps) ** 2).mean()))


def _apart(one: Camera, other: Camera, middle: Array) -> float:
    """Return the angle between two cameras, seen from the middle of the points, radians."""
    a, b = one.eye - middle, other.eye - middle
    return float(np.arccos(np.clip(a @ b / np.linalg.norm(a) / np.linalg.norm(b), -1.0, 1.0)))
