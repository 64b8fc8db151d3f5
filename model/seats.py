"""Seats: how each piece lies on what is under it. A piece stays rigid; it tilts by a sheet's thickness."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from .geometry.arrays import Array
from .joints.lift import Lift
from .pieces import Piece
from .runs import Run

GAPE = 0.25
"""How far a piece may stand off what it lies on, sheets: steeper, and its hems no longer close round the other's."""


def seat_pieces(run: Run, pieces: Sequence[Piece], low: Lift, high: Lift) -> list[Array]:
    """Return each piece's ``(4, 4)`` placement, from ``(u, out, up)`` to the scene frame.

    A piece rests on two of what lies under it: the deck at its ends, the pieces that it laps over, and what the
    corners put under every piece that reaches so far.

    Args:
        run: The run.
        pieces: Its pieces, low end first.
        low: What the joint at the run's low end lifts.
        high: What the joint at its high end lifts.
    """
    lines: dict[int, tuple[float, float]] = {}
    while len(lines) < len(pieces):
        for i, piece in enumerate(pieces):
            under = [
                *([i - 1] if i > 0 and piece.lies == "over" else []),
                *([i + 1] if i + 1 < len(pieces) and pieces[i + 1].lies == "under" else []),
            ]
            if i not in lines and all(k in lines for k in under):
                props = [prop for k in under for prop in _props(piece, pieces[k], lines[k])]
                if low.sheets and piece.start <= low.overlap:
                    props += [(piece.start, low.sheets), (min(low.overlap, piece.end), low.sheets)]
                if high.sheets and piece.end >= run.length - high.overlap:
                    props += [
                        (max(run.length - high.overlap, piece.start), high.sheets),
                        (piece.end, high.sheets),
                    ]
                lines[i] = _rest(piece, props)
    nesting = run.section.nesting
    placements = []
    for i, piece in enumerate(pieces):
        first = lines[i][0] * nesting + (low.aside if i == 0 else 0.0)
        last = lines[i][1] * nesting + (high.aside if i == len(pieces) - 1 else 0.0)
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


def _props(piece: Piece, under: Piece, line: tuple[float, float]) -> list[tuple[float, float]]:
    """Return where a piece would touch the one under it, at both ends of their lap: ``u`` and sheets."""
    bounds = max(piece.start, under.start), min(piece.end, under.end)
    return [(u, float(np.interp(u, [under.start, under.end], line)) + 1) for u in bounds]


def _rest(piece: Piece, props: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return how many sheets lie under both ends of a piece that rests on the deck and on ``props``.

    Of all the ways in which a rigid piece can touch two of them and clear the rest, it lies the one that keeps its
    middle lowest, but not so steeply that it gapes on a prop.
    """
    if not props:
        return 0.0, 0.0
    held = np.array([(piece.start, 0.0), (piece.end, 0.0), *props])
    ways = []
    for (left, low), (right, high) in itertools.combinations(held.tolist(), 2):
        if left != right:
            slope = (high - low) / (right - left)
            first, last = (low + (u - left) * slope for u in (piece.start, piece.end))
            off = low + (held[:, 0] - left) * slope - held[:, 1]
            if off.min() >= -1e-9:
                steep = max(0.0, float(off[2:].max()) - GAPE)
                ways.append((round(steep, 9), first + last, first, last))
    _, _, first, last = min(ways)
    return first, last
