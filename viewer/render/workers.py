"""Workers: threads that share out the rows of a picture; compiled kernels let them run side by side."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor

COUNT = os.cpu_count() or 1
"""How many work at a time. What they make does not depend on it."""

BANDS = 4
"""Into how many bands of rows a picture is divided for each of them: some bands take longer than others."""


def in_bands(work: Callable[[int, int], object], rows: int) -> None:
    """Do ``work`` from each band's first row to the row after its last, until all rows are done."""
    deep = max(1, -(-rows // (COUNT * BANDS)))
    at_once(lambda top: work(top, min(top + deep, rows)), range(0, rows, deep))


def at_once(work: Callable[[int], object], numbers: Iterable[int]) -> None:
    """Do ``work`` for each number, several at a time."""
    with ThreadPoolExecutor(max_workers=COUNT) as workers:
        list(workers.map(work, numbers))
