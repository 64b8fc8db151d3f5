"""Flaps: the tab that is folded round a corner, and the one that is turned down to close an end."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

import numpy as np

from ..geometry.arrays import Array
from ..sheet.fold import strip_fold
from ..sheet.sheet import Tab
from .stand import Stand

Side = float | Literal["plumb", "along"]


def flap(
    stand: Stand,
    strip: int,
    hinge: Array,
    width: float,
    toward: Array,
    sides: tuple[Side, Side] = (0.0, 0.0),
    least: tuple[float, float] = (0.0, 0.0),
) -> Tab:
    """Return a tab beyond a cut.

    Args:
        stand: The end that it belongs to.
        strip: The strip that it hangs on.
        hinge: ``(2, 2) float, inches``: its fold line in ``(u, v)``, in the order of the cut.
        width: How far it stands out from the fold line, inches.
        toward: Scene vector that it points along once folded.
        sides: How its two side edges draw in: inches in for each inch out; ``plumb`` for an edge that hangs
            plumb once folded, so that it does not stand out past its neighbor; ``along`` for one that runs
            along the piece, so that it stays on its strip.
        least: The least that they draw in, whatever they are to do once folded.
    """
    fold, normal = strip_fold(stand.section, strip)
    start, end = hinge
    length = float(np.linalg.norm(end - start))
    along = (end - start) / length
    away = np.array([-along[1], along[0]])
    if away[0] * stand.sign < 0:
        away = -away
    wanted = stand.local(toward)
    angle = math.atan2(-wanted @ normal, wanted @ (fold[:, :2] @ away))
    down = stand.local(np.array([0.0, 0.0, -1.0]))
    folded = math.cos(angle) * (fold[:, :2] @ away) - math.sin(angle) * normal
    lean = float((down @ (fold[:, :2] @ along)) / (down @ folded)) if abs(down @ folded) > 1e-9 else 0.0
    draw = {"plumb": lean, "along": -float(away[1] / along[1]) if abs(along[1]) > 1e-9 else 0.0}
    first = sides[0] if not isinstance(sides[0], str) else max(draw[sides[0]], 0.0)
    second = sides[1] if not isinstance(sides[1], str) else max(-draw[sides[1]], 0.0)
    first, second = max(first, least[0]), max(second, least[1])
    room = 0.9 * length / max((first + second) * width, 1e-12)
    if room < 1:
        first, second = first * room, second * room
    corners = np.array([end + (away - along * second) * width, start + (away + along * first) * width])
    return Tab(strip, hinge, corners, angle)


def hinges(tabs: Iterable[Tab]) -> dict[int, list[tuple[float, float]]]:
    """Return the points that the fold lines of tabs put on a cut, by strip."""
    return {tab.strip: [(float(u), float(v)) for u, v in tab.hinge] for tab in tabs}


def way_round(tab: Tab) -> list[Array]:
    """Return the corners of a tab the way that snips go round it: from its hinge's first point to its second."""
    return [tab.hinge[0], tab.flap[1], tab.flap[0], tab.hinge[1]]
