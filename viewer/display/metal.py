"""The trim: a body for every piece, in the order in which a roofer sets them."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout, Part
from trimwright.model.sheet.fold import strip_fold, tab_fold
from trimwright.model.sheet.sheet import Tab

from .body import Body

Array = NDArray[np.float64]

RANK = {"eave": 0, "rake": 1, "panels": 2, "high": 3, "hip": 4, "ridge": 5}
"""What is set before what: the edges first, then the panels, then the caps over them."""


def install_order(layout: Layout) -> dict[str, int]:
    """Return each piece's place in the order of install, from 1; what lies under goes before what lies over.

    Pieces whose scene makes them lie over each other in a ring keep the order of their runs.
    """
    parts = {part.mark: part for part in layout.parts}
    before: dict[str, set[str]] = {mark: set() for mark in parts}
    for mark, part in parts.items():
        for end in part.ends:
            for other in end.others:
                if end.lies == "over" and RANK[parts[other].run.trim] <= RANK[part.run.trim]:
                    before[mark].add(other)
                elif end.lies == "under" and RANK[parts[other].run.trim] >= RANK[part.run.trim]:
                    before[other].add(mark)
    rank = {mark: (RANK[part.run.trim], i) for i, (mark, part) in enumerate(parts.items())}
    return {mark: place for place, mark in enumerate(_sorted(before, rank), 1)}


def _sorted(before: Mapping[str, set[str]], rank: Mapping[str, tuple[int, int]]) -> Iterator[str]:
    """Yield names so that each comes after those before it; of those that are free the one ranked first."""
    waiting = {name: set(names) for name, names in before.items()}
    free = [(rank[name], name) for name, names in waiting.items() if not names]
    heapq.heapify(free)
    while waiting:
        if not free:
            name = min(waiting, key=lambda one: rank[one])
            heapq.heappush(free, (rank[name], name))
        _, name = heapq.heappop(free)
        if waiting.pop(name, None) is None:
            continue
        yield name
        for other, names in waiting.items():
            if name in names:
                names.remove(name)
                if not names:
                    heapq.heappush(free, (rank[other], other))


def trim_bodies(parts: Sequence[Part], order: Mapping[str, int]) -> Iterator[Body]:
    """Yield a body for each piece."""
    for part in parts:
        solid = part.solid
        yield Body(
            "trim", part.mark, solid.vertices, solid.faces, solid.side,
            order[part.mark], part.run.trim, part.run.name,
        )  # fmt: skip


def on_strip(part: Part, strip: int, flat: Array, off: float = 0.0) -> tuple[Array, Array]:
    """Return where sheet points of one strip lie when the piece is folded and set.

    Args:
        part: The piece.
        strip: Index of the strip.
        flat: ``(n, 2) float, inches``: points ``(u, v)``.
        off: How far to move them out of the painted side, inches.

    Returns:
        ``(n, 3)`` points and the ``(3,)`` painted normal, inches, scene frame.
    """
    return _set_down(part, *strip_fold(part.sheet.section, strip), flat, off)


def on_tab(part: Part, tab: Tab, flat: Array, off: float = 0.0) -> tuple[Array, Array]:
    """Return where sheet points of a tab lie, as ``on_strip`` does."""
    return _set_down(part, *tab_fold(*strip_fold(part.sheet.section, tab.strip), tab), flat, off)


def _set_down(part: Part, fold: Array, normal: Array, flat: Array, off: float) -> tuple[Array, Array]:
    local = flat @ fold[:, :2].T + fold[:, 2] + normal * off
    turn = part.placement[:3, :3]
    return local @ turn.T + part.placement[:3, 3], turn @ normal
