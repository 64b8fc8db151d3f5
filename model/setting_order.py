"""The order of setting: everything in the order in which it goes on, each with what it lies on.

What lies under goes on first: that follows from how laps, corners, seams and closures really lie, so a level run whose
laps open away from a wind from the left begins with its last piece. Of what is free to go on, edges come before
panels, panels before the caps over them, and each run goes up from its low end.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from .edge_kinds import KINDS, rank
from .fitting import Fitted
from .geometry.arrays import Array
from .panels.caps import fold_inside
from .panels.cleats import Cleat
from .panels.closures import Closure
from .panels.record import Panel
from .runs import Run
from .tolerances import POINT

SetKind = Literal["trim", "cleat", "panel", "closure"]

Span = tuple[float, float]
"""From where to where along a run, inches."""

Rank = tuple[int, ...]
"""Of things that are free to go on, the one with the lowest rank goes first."""

EDGES, CLEATS, PANELS, CLOSURES, CAPS = range(5)
"""What is set before what where neither lies on the other."""

AT_EDGE = 1.0
"""A panel whose corner comes this near to where its pan ends at an edge ends there, inches."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that is set.

    Attributes:
        name: Mark of the piece or cleat, or name of the panel or closure.
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


def order_of_setting(
    fitted: Sequence[Fitted],
    panels: Sequence[Panel] = (),
    closures: Sequence[Closure] = (),
    cleats: Sequence[Cleat] = (),
) -> tuple[Setting, ...]:
    """Return all of it in the order in which it goes on, each with what it lies on.

    Where a scene makes pieces lie over each other in a ring, the one of lowest rank begins.
    """
    spans = _spans(fitted, panels)
    things = (
        *_trim(fitted, spans, closures),
        *_cleats(fitted, cleats),
        *_panels(fitted, panels, spans, cleats),
        *_closures(closures),
    )
    return tuple(_sorted(things))


def _spans(fitted: Sequence[Fitted], panels: Sequence[Panel]) -> dict[str, list[tuple[Panel, Span]]]:
    """Return, for each run by name, the panels that end at it, and from where to where along it."""
    by_face: dict[int, list[Panel]] = {}
    for panel in panels:
        by_face.setdefault(panel.face, []).append(panel)
    runs = {one.run.name: one.run for one in fitted}
    return {
        name: [found for face in run.edge.faces for found in _ending_at(run, by_face.get(face, []))]
        for name, run in runs.items()
    }


def _trim(
    fitted: Sequence[Fitted], spans: Mapping[str, Sequence[tuple[Panel, Span]]], closures: Sequence[Closure]
) -> Iterator[Ranked]:
    """Yield every piece: it lies on what its ends lie over, on what says that it lies under it, and a cap on panels."""
    under: dict[str, list[str]] = {one.piece.mark: [] for one in fitted}
    for one in fitted:
        for end in one.ends:
            for other in end.others if end.lies == "over" else ():
                under[one.piece.mark].append(other)
            for other in end.others if end.lies == "under" else ():
                under[other].append(one.piece.mark)
    carried = _carried(fitted, closures)
    for place, one in enumerate(fitted):
        kind, faces = KINDS[one.run.trim], one.run.edge.faces
        capped = not kind.is_covered
        below = list(under[one.piece.mark])
        covers = [face for face in faces if kind.ending(face != faces[0]) == "under"]
        if covers:
            extent = one.sheet.extent
            ending = [(panel.name, span) for panel, span in spans[one.run.name] if panel.face in covers]
            below += [name for name, span in ending if _meet(span, extent)]
            below += [closure.name for closure, span in carried[one.run.name] if _meet(span, extent)]
        yield Ranked(
            Setting(one.piece.mark, "trim", tuple(dict.fromkeys(below))),
            (CAPS if capped else EDGES, rank(one.run.trim), place),
        )


def _cleats(fitted: Sequence[Fitted], cleats: Sequence[Cleat]) -> Iterator[Ranked]:
    """Yield every cleat: it lies on the trim that it is screwed down over, and on the cleat that it laps over."""
    for place, cleat in enumerate(cleats):
        over = [
            one.piece.mark
            for one in fitted
            if one.run.name == cleat.at and _meet(_reach(cleat), one.sheet.extent)
        ]
        over += [mark for end in cleat.laps if end.lies == "over" for mark in end.others]
        yield Ranked(Setting(cleat.mark, "cleat", tuple(over)), (CLEATS, place))


def _panels(
    fitted: Sequence[Fitted],
    panels: Sequence[Panel],
    spans: Mapping[str, Sequence[tuple[Panel, Span]]],
    cleats: Sequence[Cleat],
) -> Iterator[Ranked]:
    """Yield every panel: it lies on the trim and cleats that it hooks, and on the panel whose seam it folds over."""
    over: dict[str, list[str]] = {panel.name: [] for panel in panels}
    below = [
        (
            one.piece.mark,
            one.run.name,
            one.sheet.extent,
            one.run.edge.faces if KINDS[one.run.trim].lower is None else one.run.edge.faces[:1],
        )
        for one in fitted
        if KINDS[one.run.trim].is_covered
    ]
    below += [(cleat.mark, cleat.at, _reach(cleat), (cleat.face,)) for cleat in cleats]
    for mark, run, reach, faces in below:
        for panel, span in spans[run]:
            if panel.face in faces and _meet(span, reach):
                over[panel.name].append(mark)
    at: dict[tuple[int, int], list[Panel]] = {}
    for panel in panels:
        at.setdefault((panel.face, panel.column), []).append(panel)
    for (face, column), own in at.items():
        for left, right in itertools.product(own, at.get((face, column + 1), ())):
            if _share_a_seam(left, right):
                upper, lower = (right, left) if right.edges[0] == "over" else (left, right)
                over[upper.name].append(lower.name)
    for place, panel in enumerate(panels):
        yield Ranked(Setting(panel.name, "panel", tuple(over[panel.name])), (PANELS, panel.face, place))


def _closures(closures: Sequence[Closure]) -> Iterator[Ranked]:
    """Yield every closure: it stands on a panel, or beside one on a valley's pan."""
    for place, closure in enumerate(closures):
        over = (closure.panel,) if closure.pan is None else (closure.pan, closure.panel)
        yield Ranked(Setting(closure.name, "closure", over), (CLOSURES, closure.face, place))


def _reach(cleat: Cleat) -> Span:
    return cleat.start, cleat.start + cleat.length


def _share_a_seam(left: Panel, right: Panel) -> bool:
    """Return whether two panels in columns side by side stand beside each other at the seam between."""
    if not right.seams:
        return False
    foot, top = right.seams[0]
    way = top - foot
    length = math.sqrt(way @ way)
    along = (((left.outline - foot) @ way) / length).tolist()
    return _meet((min(along), max(along)), (0.0, length))


def _carried(fitted: Sequence[Fitted], closures: Sequence[Closure]) -> dict[str, list[tuple[Closure, Span]]]:
    """Return, for each run by name, the closures that carry it, and from where to where along it."""
    runs = {one.run.name: one.run for one in fitted}
    found: dict[str, list[tuple[Closure, Span]]] = {name: [] for name in runs}
    for closure in closures:
        frame = runs[closure.at].frame
        first, last = ((closure.line - frame[:3, 3]) @ frame[:3, 0]).tolist()
        found[closure.at].append((closure, (min(first, last), max(first, last))))
    return found


def _ending_at(run: Run, panels: Sequence[Panel]) -> Iterator[tuple[Panel, Span]]:
    """Yield the panels of one face that end at the edge of a run, and from where to where along it."""
    if not panels:
        return
    outlines: Array = np.concatenate([panel.outline for panel in panels])
    local = (outlines - run.frame[:3, 3]) @ run.frame[:3, :3]
    out = local[:, 1] if len(run.edge.faces) == 1 else -abs(local[:, 1])
    kind = KINDS[run.trim]
    folds = [fold_inside(run, face) for face in run.edge.faces] if kind.lower is not None else [0.0]
    ends = out > -kind.short - AT_EDGE - max(0.0, *folds)
    sizes = np.array([len(panel.outline) for panel in panels])
    begins = np.cumsum(sizes) - sizes
    counts = np.add.reduceat(ends, begins, dtype=np.int64)
    low = np.minimum.reduceat(np.where(ends, local[:, 0], np.inf), begins)
    high = np.maximum.reduceat(np.where(ends, local[:, 0], -np.inf), begins)
    for k in np.flatnonzero(counts > 1).tolist():
        yield panels[k], (float(low[k]), float(high[k]))


def _meet(one: Span, other: Span) -> bool:
    """Return whether two stretches have more than a point in common."""
    return min(one[1], other[1]) - max(one[0], other[0]) > POINT


def _sorted(things: Iterable[Ranked]) -> Iterator[Setting]:
    """Yield things so that each comes after what it lies on; of those that are free the one of lowest rank."""
    known = {thing.setting.name: thing for thing in things}
    waiting = {
        name: {one for one in thing.setting.over if one in known and one != name}
        for name, thing in known.items()
    }
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
        yield setting if done.issuperset(setting.over) else _kept(setting, done)
        done.add(name)
        for other in above[name]:
            if other in waiting:
                waiting[other].discard(name)
                if not waiting[other]:
                    heapq.heappush(free, (known[other].rank, other))


def _kept(setting: Setting, done: Set[str]) -> Setting:
    """Return a setting on what is set already, of all that it should lie on."""
    return replace(setting, over=tuple(one for one in setting.over if one in done))
