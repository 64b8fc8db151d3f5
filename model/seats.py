"""Seats: how each piece lies on what is under it. A piece stays rigid; it tilts by a sheet's thickness."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from .joints.lift import Lift
from .pieces import Piece
from .runs import Run

Array = NDArray[np.float64]


def seat_pieces(run: Run, pieces: Sequence[Piece], low: Lift, high: Lift) -> list[Array]:
    """Return each piece's ``(4, 4)`` placement, from ``(u, out, up)`` to the scene frame.

    A piece on top is lifted one thickness over the whole lap and, where nothing holds it up, comes down to the
    deck at its other end.

    Args:
        run: The run.
        pieces: Its pieces, low end first.
        low: What the joint at the run's low end lifts.
        high: What the joint at its high end lifts.
    """
    count = len(pieces)
    sheets: list[tuple[float, float] | None] = [None] * count
    while None in sheets:
        for i, piece in enumerate(pieces):
            before = i > 0 and piece.lies == "over"
            after = i + 1 < count and pieces[i + 1].lies == "under"
            if (
                sheets[i] is not None
                or (before and sheets[i - 1] is None)
                or (after and sheets[i + 1] is None)
            ):
                continue
            ends = [low.sheets if i == 0 else 0.0, high.sheets if i == count - 1 else 0.0]
            overlaps = [
                low.overlap - piece.start if i == 0 and low.overlap else 0.0,
                high.overlap + piece.end - run.length if i == count - 1 and high.overlap else 0.0,
            ]
            needs = [(ends[0], ends[0]), (ends[1], ends[1])]
            if before:
                needs[0], overlaps[0] = _on_top(pieces[i - 1], sheets[i - 1], piece, "low")
            if after:
                needs[1], overlaps[1] = _on_top(pieces[i + 1], sheets[i + 1], piece, "high")
            sheets[i] = _line(needs, overlaps, piece.length)
    nesting = run.section.nesting
    placements = []
    for i, (piece, pair) in enumerate(zip(pieces, sheets, strict=True)):
        assert pair is not None
        first = pair[0] * nesting + (low.aside if i == 0 else 0.0)
        last = pair[1] * nesting + (high.aside if i == count - 1 else 0.0)
        placements.append(run.frame @ tilt(piece.start, piece.end, first, last))
    return placements


def tilt(start: float, end: float, first: Array, last: Array) -> Array:
    """Return the rigid motion that shifts a run's axis by ``first`` at ``start`` and by ``last`` at ``end``.

    Args:
        start: Run distance, inches.
        end: Run distance, inches.
        first: ``(2,) float, inches``: shift ``(out, up)``.
        last: The same.
    """
    rise = (float(last[0] - first[0]), float(last[1] - first[1]))
    far = math.hypot(end - start, *rise)
    x, y, z = (end - start) / far, rise[0] / far, rise[1] / far
    flat = math.hypot(x, z)  # out stays square to the axis and level with it
    return np.array(
        [
            [x, -x * y / flat, -z / flat, start - x * start],
            [y, flat, 0.0, first[0] - y * start],
            [z, -y * z / flat, x / flat, first[1] - z * start],
            [0.0, 0.0, 0.0, 1.0],
        ]
    )


def _on_top(
    under: Piece, pair: tuple[float, float] | None, over: Piece, at: str
) -> tuple[tuple[float, float], float]:
    """Return the sheets needed at the end of ``over`` and where its lap ends, and the lap's length."""
    assert pair is not None
    lap = under.end - over.start if at == "low" else over.end - under.start
    share = min(lap / under.length, 1.0)
    if at == "low":
        return (pair[1] + (pair[0] - pair[1]) * share + 1, pair[1] + 1), lap
    return (pair[0] + (pair[1] - pair[0]) * share + 1, pair[0] + 1), lap


def _line(needs: list[tuple[float, float]], overlaps: list[float], length: float) -> tuple[float, float]:
    """Return the sheets under both ends, so that the straight line between clears each overlap."""
    (low, low_in), (high, high_in) = needs
    if low == low_in == high == high_in == 0:
        return 0.0, 0.0
    if max(overlaps) > length / 2 or (low > 0 and high > 0 and overlaps[0] and overlaps[1]):
        most = max(low, low_in, high, high_in)
        return most, most
    share = overlaps[0] / length
    first = max(low, (low_in - high * share) / (1 - share))
    share = overlaps[1] / length
    last = max(high, (high_in - first * share) / (1 - share)) if high_in > 0 else high
    return first, last
