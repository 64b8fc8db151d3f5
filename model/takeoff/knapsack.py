"""The best filling of a stick, and all good ones, out of one table of best values."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from operator import neg

import numpy as np
from numpy.typing import NDArray

from .problem import Filling

Table = NDArray[np.int64]


def values(sizes: Sequence[int], wanted: Sequence[int], worth: Sequence[int], room: int) -> Table:
    """Return the best worth of fillings, for every room and every tail of the sizes.

    Args:
        sizes: Steps of the grid, each more than 0.
        wanted: The most pieces of each size.
        worth: Of one piece of each size, at least 0.
        room: The largest room to answer for.

    Returns:
        ``(n + 1, room + 1) int``: entry ``[i, r]`` is the most that ``r`` holds of sizes ``i`` and later.
    """
    table = np.zeros((len(sizes) + 1, room + 1), dtype=np.int64)
    for i in reversed(range(len(sizes))):
        table[i] = table[i + 1]
        if worth[i] > 0:
            size = sizes[i]
            for n in range(1, min(wanted[i], room // size) + 1):
                np.maximum(
                    table[i, n * size :], table[i + 1, : -n * size] + n * worth[i], out=table[i, n * size :]
                )
    return table


def best(table: Table, sizes: Sequence[int], worth: Sequence[int], room: int) -> Filling:
    """Return the best filling of ``room``."""
    filling = []
    for i in range(len(sizes)):
        n = 0
        while table[i, room] != table[i + 1, room - n * sizes[i]] + n * worth[i]:
            n += 1
        if n:
            filling.append((i, n))
            room -= n * sizes[i]
    return tuple(filling)


def at_least(
    table: Table, sizes: Sequence[int], wanted: Sequence[int], worth: Sequence[int], room: int, least: int
) -> Iterator[Filling]:
    """Yield every filling of ``room`` worth ``least`` or more to which no further piece can be added.

    The sizes go from the longest to the shortest.
    """
    waiting: list[tuple[int, int, int, Filling]] = [(0, room, least, ())]
    while waiting:
        i, room, need, filling = waiting.pop()
        fitting = bisect_left(sizes, -room, key=neg)
        i = max(i, fitting)
        if i == len(sizes):
            taken = dict(filling)
            if all(taken.get(j) == wanted[j] for j in range(fitting, len(sizes))):
                yield filling
            continue
        for n in range(min(wanted[i], room // sizes[i]) + 1):
            left, still = room - n * sizes[i], need - n * worth[i]
            if table[i + 1, left] >= still:
                waiting.append((i + 1, left, still, (*filling, (i, n)) if n else filling))
