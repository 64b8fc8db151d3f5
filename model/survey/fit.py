"""The corners that agree best with what was measured: least squares, from the form's shape on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..errors import GeometryError, Problem
from ..geometry.arrays import Array
from ..message import message
from .assumed import Assumed
from .quantities import Quantity

LOOSE = 24.0
"""A direction in which one standard error moves corners by more than this is told by no tape, inches."""

SAME = 1e-9
"""Equations whose share of a direction is smaller than this, of 1, say nothing about it."""

ROUNDS = 25
"""Steps toward the answer; five or six do for a crooked house."""

ASTRAY = 3.0
"""Corners that go farther from the form's than so many times the roof's size are going nowhere."""


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """Where the corners are, and how well that is known.

    Attributes:
        points: ``(n, 3) float, inches``.
        misfits: ``(m,)`` what each measure read less what the roof now has, inches or radians.
        sure: ``(m,)`` redundancy of each: the share of a mistake in it that shows as its misfit, 0 to 1.
        leaning: ``(m, m)`` how the misfits hang together: what a mistake in one adds to each, in standard errors.
        spread: ``(3 n, f)``; corners move by this times independent standard errors; its rows' norms are theirs.
        gain: ``(3 n, m)``; how far corners move for what each measure is off, inches per inch or per radian.
    """

    points: Array
    misfits: Array
    sure: Array
    leaning: Array
    spread: Array
    gain: Array


def untold(measures: Sequence[Quantity], errors: Array, taken: Assumed) -> Array:
    """Return the directions that neither a measure nor an equation fixes, ``(k, 3 n)`` unit vectors."""
    from scipy.linalg import null_space, svd  # few roofs are taped, and it takes longer than the rest

    free = null_space(taken.changes(taken.form), rcond=SAME)
    weighted = _slopes(measures, taken.form) @ free / errors[:, None] if measures else free[:0]
    if not len(weighted):
        return np.asarray(free.T)
    _, sizes, ways = svd(weighted)
    known = int((sizes > 1 / LOOSE).sum())
    return np.asarray((free @ ways[known:].T).T)


def fitted(measures: Sequence[Quantity], read: Array, errors: Array, taken: Assumed) -> Fit:
    """Return the corners that agree best with what was read.

    Args:
        measures: What was measured.
        read: ``(m,)`` what was read, inches or radians.
        errors: ``(m,)`` standard error of each.
        taken: What holds exactly. A direction that no measure fixes stays as the form has it.

    Raises:
        GeometryError: The measures contradict each other so far that there is no such roof.
    """
    taken = replace(taken, kept=untold(measures, errors, taken))
    points = taken.form
    farthest = ASTRAY * float(np.ptp(taken.form, axis=0).max())
    for _ in range(ROUNDS):
        step, free, weighted = _step(points, measures, read, errors, taken)
        points = points + step
        if not np.abs(points - taken.form).max() < farthest:
            break
        if np.abs(step).max() < 1e-11 * np.abs(points).max():
            return _judged(points, measures, read, errors, free, weighted)
    told = message(
        "what was taped makes no roof of this form. Compare each length with the form's, and tape again what is "
        "far off."
    )
    raise GeometryError(Problem(told, ("roof", "taped")))


def _step(
    points: Array, measures: Sequence[Quantity], read: Array, errors: Array, taken: Assumed
) -> tuple[Array, Array, Array]:
    """Return how far to go, the free directions there, and how the weighted measures change along them."""
    from scipy.linalg import lstsq, null_space

    changes, off = taken.changes(points), taken.off(points)
    back = lstsq(changes, -off, cond=SAME)[0]
    free = null_space(changes, rcond=SAME)
    slopes = _slopes(measures, points)
    missing = read - np.array([one.value(points) for one in measures])
    weighted = slopes @ free / errors[:, None]
    along = lstsq(weighted, (missing - slopes @ back) / errors, cond=SAME)[0]
    return (back + free @ along).reshape(points.shape), free, weighted


def _slopes(measures: Sequence[Quantity], points: Array) -> Array:
    """Return how the measures change as corners move, ``(m, 3 n)``."""
    return np.array([one.gradient(points).ravel() for one in measures])


def _judged(
    points: Array, measures: Sequence[Quantity], read: Array, errors: Array, free: Array, weighted: Array
) -> Fit:
    """Return the fit, with what the geometry of the measures says of it.

    Source:
        Residuals of least squares are ``(I - A A+)`` times the errors, redundancy numbers its diagonal: Baarda, *A
        testing procedure for use in geodetic networks* (1968), from memory.
    """
    from scipy.linalg import svd

    left, sizes, right = svd(weighted, full_matrices=False)
    kept = sizes > SAME * max(float(sizes.max(initial=0.0)), 1e-300)
    left, sizes, right = left[:, kept], sizes[kept], right[kept]
    leaning = np.eye(len(measures)) - left @ left.T
    spread = free @ (right.T / sizes)
    return Fit(
        points=points,
        misfits=read - np.array([one.value(points) for one in measures]),
        sure=np.clip(np.diag(leaning), 0.0, 1.0),
        leaning=leaning,
        spread=spread,
        gain=spread @ left.T / errors,
    )
