"""Cutting the ends of a sheet: where a plane meets each strip, and the line that the snips follow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from ..errors import FlatCornerError
from ..geometry.arrays import Array
from ..message import message
from ..profiles.section import Section


def square_cut(section: Section, u: float) -> Array:
    """Return ``(n, 2) float, inches``: ``u`` on both lines of every strip, for a cut straight across."""
    return np.full((section.strips, 2), u)


def plane_cut(section: Section, placement: Array, point: Array, normal: Array) -> Array:
    """Return where a plane meets each strip of a placed section.

    A plane cuts a flat strip along a straight line, so the two ends of that line say all; neighboring strips
    get the same point on the bend line that they share.

    Args:
        section: The section.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        point: ``(3,) float, inches, scene frame``: on the plane.
        normal: ``(3,)``: of the plane.

    Returns:
        ``(n, 2) float, inches``: ``u`` on the first and the last line of every strip.

    Raises:
        FlatCornerError: the plane runs along the piece.
    """
    local = placement[:3, :3].T @ normal
    if abs(local[0]) < 1e-9:
        raise FlatCornerError(
            message("a cut that runs along the piece never crosses it; the corner is too flat")
        )
    u = (normal @ (point - placement[:3, 3]) - section.points @ local[1:]) / local[0]
    return np.stack([u[:-1], u[1:]], axis=1)


def path(
    section: Section, ends: Array, inside: Mapping[int, Sequence[tuple[float, float]]] | None = None
) -> Array:
    """Join the cuts of all strips into one line from the inboard edge to the outboard edge.

    Args:
        section: The section.
        ends: ``(n, 2) float, inches``: ``u`` on the first and last line of every strip.
        inside: Further points ``(u, v)`` within a strip, in order of ``v``.

    Returns:
        ``(k, 2) float, inches``; a step along a bend line where two strips end differently.
    """
    points: list[tuple[float, float]] = []
    v = section.v.tolist()
    for strip, (first, last) in enumerate(ends.tolist()):
        if not points or points[-1][0] != first:
            points.append((first, v[strip]))
        points.extend((inside or {}).get(strip, ()))
        points.append((last, v[strip + 1]))
    return np.array(points)
