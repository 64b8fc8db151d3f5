"""What a search may choose: how runs are divided, where the seams stand, which of the stock lengths are used.

Runs that are each other's twins, alike in kind, slope and length, are changed together: a roof whose two sides are
laid out differently looks wrong, and the search is shorter. What the scene pins by hand stays: lengths, screws, the
start of a run that has one of its own, the first seam.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from ..checks.proposals import joints_elsewhere
from ..layout import Layout
from ..runs import Run
from ..scene.draft import Change, Changes
from ..scene.schema import Scene
from ..scene.trim import Start

STARTS: tuple[Start, ...] = get_args(Start)

SEAMS = ("clear", "left", "right", "centered", "equal")

Choice = tuple[Changes, ...]
"""Ways of which one is taken; the first leaves all as it is."""


def choices_of(layout: Layout) -> tuple[Choice, ...]:
    """Return what there is to choose on a roof, those with most to gain first."""
    found = [_divided(layout, names) for names in twins(layout)]
    found += _seams(layout.scene)
    found += _stock(layout.scene)
    return tuple(found)


def with_start(choice: Choice, start: Start) -> int:
    """Return the place of the way that starts its runs so; 0 where that is how they are, or it is no such choice."""
    for place, changes in enumerate(choice):
        if any(change.key[-1] == "start" and change.value == start for change in changes):
            return place
    return 0


def twins(layout: Layout) -> list[tuple[str, ...]]:
    """Return the names of the runs that may be divided otherwise, twins together."""
    groups: dict[tuple[str, float, float, float], list[str]] = {}
    pieces: dict[str, int] = {}
    for part in layout.parts:
        pieces[part.run.name] = pieces.get(part.run.name, 0) + 1
    for run in layout.runs:
        if pieces[run.name] > 1 and not _pinned(run, layout.scene):
            alike = (run.trim, round(run.edge.slope, 4), round(run.length, 2), run.spec.lap)
            groups.setdefault(alike, []).append(run.name)
    return [tuple(names) for names in groups.values()]


def _divided(layout: Layout, names: tuple[str, ...]) -> Choice:
    """Return the ways to divide twins: the starting rules, then joints in other places."""
    own = next(run.spec.start for run in layout.runs if run.name == names[0])
    starts = (
        tuple(Change(("run", name, "start"), start) for name in names) for start in STARTS if start != own
    )
    joints = (
        tuple(Change(("run", name, "pieces"), lengths) for name in names)
        for lengths in joints_elsewhere(layout, names[0])
    )
    return ((), *starts, *joints)


def _seams(scene: Scene) -> Iterator[Choice]:
    """Yield the ways to begin the panels, where the scene leaves that open."""
    if scene.panels.offset or "start" in scene.panels.model_fields_set:
        return
    others = (start for start in SEAMS if start != scene.panels.start)
    yield ((), *((Change(("panels", "start"), start),) for start in others))


def _stock(scene: Scene) -> Iterator[Choice]:
    """Yield the ways to do without the longest of the stock lengths."""
    stock, show = scene.metal.stock, scene.tape
    if len(stock) > 1:
        shorter = [[show.typed(length) for length in stock[:count]] for count in range(len(stock) - 1, 0, -1)]
        yield ((), *((Change(("metal", "stock"), lengths),) for lengths in shorter))


def _pinned(run: Run, scene: Scene) -> bool:
    """Return whether the scene says by hand how this run is laid out."""
    own = scene.run.get(run.name)
    placed = any(mark.partition("-")[0] == run.code for mark in scene.screws.placed)
    return run.spec.pieces is not None or placed or (own is not None and own.start is not None)
