"""The order of setting: everything in the order in which it goes on, each with what it lies on.

What lies under goes on first: that follows from how laps, corners and panels really lie, so a level run whose laps
open away from a wind from the left begins with its last piece. Of what is free to go on, edges come before panels,
panels before the caps over them, and each run goes up from its low end.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from .fitting import Fitted
from .geometry.arrays import Array
from .panels.record import Panel
from .tolerances import POINT
from .trim_kinds import KINDS, rank

SetKind = Literal["trim", "panel"]

Rank = tuple[int, ...]
"""Of things that are free to go on, the one with the lowest rank goes first."""

AT_EDGE = 1.0
"""A panel whose corner comes this near to where its pan ends at an edge ends there, inches."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that is set.

    Attributes:
        name: Mark of the piece, or name of the panel.
        kind: What it is.
        over: Names of what it lies on, all of it set before.
    """

    name: str
    kind: SetKind
    over: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ranked:
    """A thing that is to be set, and its rank among those that are free."""

    setting: Setting
    rank: Rank


def order_of_setting(fitted: Sequence[Fitted], panels: Sequence[Panel]) -> tuple[Setting, ...]:
    """Return pieces and panels in the order in which they go on, each with what it lies on.

    Where a scene makes pieces lie over each other in a ring, the one of lowest rank begins.
    """
    return tuple(_sorted([*_trim(fitted, panels), *_panels(fitted, panels)]))


def _trim(fitted: Sequence[Fitted], panels: Sequence[Panel]) -> Iterator[Ranked]:
    """Yield every piece: it lies on what its ends lie over, on what says that it lies under it, and on panels."""
    under: dict[str, list[str]] = {one.piece.mark: [] for one in fitted}
    for one in fitted:
        for end in one.ends:
            for other in end.others if end.lies == "over" else ():
                under[one.piece.mark].append(other)
            for other in end.others if end.lies == "under" else ():
                under[other].append(one.piece.mark)
    for place, one in enumerate(fitted):
        kind = KINDS[one.run.trim]
        capped = kind.panels == "under"
        below = [panel.name for panel in panels if _ends_at(panel, one, -kind.short)] if capped else []
        over = tuple(dict.fromkeys([*under[one.piece.mark], *below]))
        yield Ranked(Setting(one.piece.mark, "trim", over), (2 if capped else 0, rank(one.run.trim), place))


def _panels(fitted: Sequence[Fitted], panels: Sequence[Panel]) -> Iterator[Ranked]:
    """Yield every panel: it lies on the trim that it hooks round."""
    hooked = [one for one in fitted if KINDS[one.run.trim].panels == "hook"]
    for place, panel in enumerate(panels):
        over = tuple(one.piece.mark for one in hooked if _ends_at(panel, one, 0.0))
        yield Ranked(Setting(panel.name, "panel", over), (1, panel.face, place))


def _ends_at(panel: Panel, one: Fitted, past: float) -> bool:
    """Return whether a panel ends over or under a piece: at its edge, along some of its length.

    Args:
        panel: The panel.
        one: The piece.
        past: How far past the edge the pan goes there at least, inches; below 0 where it stops short.
    """
    run = one.run
    if panel.face not in run.edge.faces:
        return False
    local: Array = (panel.outline - run.frame[:3, 3]) @ run.frame[:3, :3]
    out = local[:, 1] if len(run.edge.faces) == 1 else -abs(local[:, 1])
    ends = local[out > past - AT_EDGE, 0]
    low, high = one.sheet.extent
    return len(ends) > 1 and min(float(ends.max()), high) - max(float(ends.min()), low) > POINT


def _sorted(things: Iterable[Ranked]) -> Iterator[Setting]:
    """Yield things so that each comes after what it lies on; of those that are free the one of lowest rank."""
    known = {thing.setting.name: thing for thing in things}
    waiting = {name: set(thing.setting.over) & known.keys() - {name} for name, thing in known.items()}
    above: dict[str, list[str]] = {name: [] for name in known}
    for name, below in waiting.items():
        for one in below:
            above[one].append(name)
    free = [(known[name].rank, name) for name, below in waiting.items() if not below]
    heapq.heapify(free)
    done: set[str] = set()
    while waiting:
        if not free:
            heapq.heappush(free, min((known[name].rank, name) for name in waiting))
        _, name = heapq.heappop(free)
        if waiting.pop(name, None) is None:
            continue
        setting = known[name].setting
        yield replace(setting, over=tuple(one for one in setting.over if one in done))
        done.add(name)
        for other in above[name]:
            if other in waiting:
                waiting[other].discard(name)
                if not waiting[other]:
                    heapq.heappush(free, (known[other].rank, other))
