"""The trim: a body for every piece, and where points of its sheet lie once it is folded and set."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Part
from trimwright.model.sheet.fold import strip_fold, tab_fold
from trimwright.model.sheet.sheet import Tab

from .body import Body


def trim_bodies(parts: Sequence[Part], order: Mapping[str, int]) -> Iterator[Body]:
    """Yield a body for each piece."""
    for part in parts:
        solid = part.solid
        yield Body(
            "trim",
            part.mark,
            solid.vertices,
            solid.faces,
            solid.side,
            order[part.mark],
            part.run.trim,
            part.run.name,
        )


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
