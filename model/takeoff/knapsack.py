"""The best filling of a stick, and all good ones, out of one table of best values.

Source:
    P. C. Gilmore, R. E. Gomory, *A Linear Programming Approach to the Cutting-Stock Problem*, Operations
    Research 9 (1961) and 11 (1963): a better pattern is the answer to a knapsack problem. From memory.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from operator import neg

import numpy as np
from numpy.typing import NDArray

Table = NDArray[np.int64]


def values(sizes: Sequence[int], wanted: Sequence[int], worth: Sequence[int], room: int) -> Table:
    """Return the best worth of fillings, for every room and every tail of the sizes.

    Args:
        sizes: Steps of the grid, each more than 0.
        wanted: The most pieces of each size.
        worth: Of one piece of each size, at least 0.
        room: The largest room to answer for.

    Returns:
        ``(n + 1, room + 1) int``: entry ``[i, r]`` is the most that sizes ``i`` and later are worth in room ``r``.
    """
    table = np.zeros((len(sizes) + 1, room + 1), dtype=np.int64)
    for i in reversed(range(len(sizes))):
        table[i] = table[i + 1]
        if worth[i] > 0:
            size = sizes[i]
            for n in range(1, min(wanted[i], room // size) + 1):
                np.maximum(table[i, n * size :], table[i + 1, : -n * size] + n * worth[i], out=table[i, n * size :])
    return table


def best(table: Table, sizes: Sequence[int], wanted: Sequence[int], worth: Sequence[int], room: int) -> tuple[int, ...]:
    """Return how many pieces of each size make up the best filling of ``room``."""
    counts = []
    for i, size in enumerate(sizes):
        n = 0
        while table[i, room] != table[i + 1, room - n * size] + n * worth[i]:
            n += 1
        counts.append(n)
        room -= n * size
    return tuple(counts)


def at_least(
    table: Table, sizes: Sequence[int], wanted: Sequence[int], worth: Sequence[int], room: int, least: int
) -> Iterator[tuple[int, ...]]:
    """Yield every filling of ``room`` worth ``least`` or more to which no further piece can be added.

    The sizes go from the longest to the shortest.
    """
    waiting: list[tuple[int, int, int, tuple[int, ...]]] = [(0, room, least, ())]
    if table[0, room] < least:
        return
    while waiting:
        i, room, need, counts = waiting.pop()
        skipped = bisect_left(sizes, -room, lo=i, key=neg) - i
        i, counts = i + skipped, counts + (0,) * skipped
        if i == len(sizes):
            if all(size > room or n == most for size, n, most in zip(sizes, counts, wanted, strict=True)):
                yield counts
            continue
        for n in range(min(wanted[i], room // sizes[i]) + 1):
            left, still = room - n * sizes[i], need - n * worth[i]
            if table[i + 1, left] >= still:
                waiting.append((i + 1, left, still, (*counts, n)))
