"""Packing: the order in which what stays together fills pages."""

from __future__ import annotations

from collections.abc import Sequence

from .flow import Block, groups_of, high


def packed(
    opening: Sequence[Block], sheets: Sequence[Sequence[Block]], left: float, page: float
) -> list[int]:
    """Return the order in which sheets fill pages: as they come, but one goes before what does not fit any more.

    Of those that fit the highest does, and only where all of it fits.

    Args:
        opening: What stands over the first of them.
        sheets: Blocks of each; one that is higher than a page goes on on the next.
        left: Height left on the page on which they begin, inches.
        page: Height of a page, inches.
    """
    order: list[int] = []
    waiting, over = list(range(len(sheets))), list(opening)
    while waiting:
        parts = {k: list(groups_of([*over, *sheets[k]], page)) for k in waiting}
        fitting = [k for k in waiting if high(parts[k][0]) <= left + 1e-9]
        whole = [k for k in fitting if len(parts[k]) == 1]
        first = waiting[0]
        if first not in fitting and whole:
            first = max(whole, key=lambda k: high(sheets[k]))
        for part in parts[first]:
            if high(part) > left + 1e-9:
                left = page - (part[0].head.height if part[0].head else 0.0)
            left -= high(part)
        order.append(first)
        waiting.remove(first)
        over = []
    return order
