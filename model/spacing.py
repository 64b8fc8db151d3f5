"""Spacing: where the screws of one row go between its two ends, evenly, off the seams that cross it."""

from __future__ import annotations

import math
from collections.abc import Sequence

SEAM = 1.0
"""How far screws keep from a seam that crosses their row, inches: room for a screw gun; common practice, no source."""


def space(start: float, end: float, most: float, seams: Sequence[float], off: float = SEAM) -> list[float]:
    """Return marks from ``start`` to ``end``, at most ``most`` apart: as few as will do, as even as seams allow.

    Args:
        start: First mark, inches.
        end: Last mark, inches.
        most: The most between two, inches.
        seams: Marks that the inner ones keep off where ``most`` leaves room for it.
        off: How far they keep from them along the row, inches; more where seams cross it at a slant.
    """
    fewest = max(1, math.ceil((end - start) / most - 1e-9))
    for gaps in range(fewest, fewest + 1 + len(seams)):
        marks = _step_along(start, end, most, seams, gaps, off)
        if marks:
            return marks
    return [start + (end - start) * k / fewest for k in range(fewest + 1)]


def end_mark(least: float, most: float, nearest: float, seams: Sequence[float], off: float = SEAM) -> float:
    """Return the distance from an end of the row's last screw there.

    In the band if it can be, off seams if it can be; rather off its band's near side than its far side, which
    lets the end lift.

    Args:
        least: Near side of the band, inches from the end.
        most: Its far side.
        nearest: As near as a cut, a fold or a hidden lap allows.
        seams: Distances of the seams from the end.
        off: How far it keeps from them along the row, inches.
    """
    least = max(least, nearest)
    seams = [seam for seam in seams if abs(seam - least) < max(most - least, 0.0) + 3 * off]
    choices = [least, *(seam + side * off for seam in seams for side in (-1.0, 1.0))]

    def cost(at: float) -> float:
        crowded = sum(max(0.0, off - abs(at - seam)) for seam in seams)
        beyond, before = max(0.0, at - max(most, least)), max(0.0, least - at)
        return 40 * beyond + 30 * before + 10 * crowded + 0.1 * abs(at - least)

    return min((at for at in choices if at >= nearest), key=cost)


def _step_along(
    start: float, end: float, most: float, seams: Sequence[float], gaps: int, off: float
) -> list[float]:
    """Return ``gaps`` steps from ``start`` to ``end`` that keep off the seams, or nothing."""
    marks = [start]
    for left in range(gaps, 1, -1):
        want = marks[-1] + (end - marks[-1]) / left
        near = [seam for seam in seams if abs(seam - want) < off + most]
        choices = [want, *(seam + side * off for seam in near for side in (-1.0, 1.0))]
        fitting = [
            at
            for at in choices
            if 1.0 <= at - marks[-1] <= most + 1e-9
            and 1.0 <= end - at <= most * (left - 1) + 1e-9
            and all(abs(at - seam) >= off - 1e-9 for seam in near)
        ]
        if not fitting:
            return []
        marks.append(min(fitting, key=lambda at: abs(at - want)))
    return [*marks, end]
