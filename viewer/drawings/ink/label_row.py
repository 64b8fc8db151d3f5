"""Labels beside the marks that they name: as near as they can stand without touching each other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise


def spread(wanted: Sequence[float], widths: Sequence[float], low: float, high: float) -> list[float] | None:
    """Return where the middles of labels stand in a row, each as near as it can to where it is wanted.

    The sum of the squared shifts is the least there is (labels that would touch are pooled, and a pool stands at
    the mean of what its labels want).

    Args:
        wanted: Where each label's middle would stand if it were alone, rising, inches.
        widths: Of each label with the white beside it, inches.
        low: Where the row begins, inches.
        high: Where it ends, inches.

    Returns:
        The middles, rising, inches; None when the row is too short for all of them.
    """
    if sum(widths) > high - low + 1e-9:
        return None
    offsets = [0.0]
    for before, after in pairwise(widths):
        offsets.append(offsets[-1] + (before + after) / 2)
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=False):
        pools.append((want - offset, 1))
        while len(pools) > 1 and pools[-2][0] >= pools[-1][0]:
            (first, m), (second, n) = pools[-2:]
            pools[-2:] = [((first * m + second * n) / (m + n), m + n)]
    if not pools:
        return []
    first, last = low + widths[0] / 2, high - widths[-1] / 2 - offsets[len(wanted) - 1]
    places = [min(max(place, first), last) for place, count in pools for _ in range(count)]
    return [place + offset for place, offset in zip(places, offsets, strict=False)]
