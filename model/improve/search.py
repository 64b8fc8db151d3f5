"""The search for a better layout: rules first for all runs alike, then run by run, then where the seams stand.

Runs that are each other's twins, alike in kind, slope and length, are changed together: a roof whose two sides are
laid out differently looks wrong, and the search is shorter. What the scene pins by hand stays: lengths, screws, the
start of a run that has one of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import prod
from typing import get_args

from ..errors import TrimwrightError
from ..layout import Layout
from ..pipeline import build
from ..runs import Run
from ..scene.draft import Change
from ..scene.schema import Scene
from ..scene.trim import Start, TrimOverride
from .score import Judged, judged

STARTS: tuple[Start, ...] = get_args(Start)

ALL = 40
"""Up to so many ways all are tried, and the best of them is the best there is."""

MOST = 60
"""How many layouts are made at the most where there are more."""

Progress = Callable[[int, int], None]
"""Told how many layouts have been made, and how many may be."""


@dataclass(frozen=True, slots=True, eq=False)
class Improved:
    """What a search came to.

    Attributes:
        before: The scene as it is.
        after: The best that was found; the same where nothing is better.
        changes: What makes the one of the other.
        best: Names of the parts of the score that no layout of these choices can do better in.
        tried: How many layouts were made.
    """

    before: Judged
    after: Judged
    changes: tuple[Change, ...]
    best: tuple[str, ...]
    tried: int


class Search:
    """Layouts of one scene that were tried, and the best of them."""

    def __init__(self, scene: Scene, progress: Progress | None = None) -> None:
        """Begin with the scene as it is.

        Raises:
            TrimwrightError: It cannot be laid out.
        """
        self.scene = scene
        self.before = judged(build(scene))
        self.best: tuple[Judged, Mapping[str, Start]] = (self.before, {})
        self.tried = 1
        self._seen: set[tuple[tuple[str, Start], ...]] = {()}
        self._progress = progress
        self._own = {run.name: run.spec.start for run in self.before.layout.runs}

    def offer(self, starts: Mapping[str, Start]) -> bool:
        """Lay the scene out with the runs started so; return whether nothing was better before."""
        starts = {name: start for name, start in starts.items() if start != self._own[name]}
        key = tuple(sorted(starts.items()))
        if key in self._seen:
            return False
        found = self._made(key)
        if found is not None and found.score < self.best[0].score:
            self.best = (found, starts)
            return True
        return False

    def prefer(self, starts: Mapping[str, Start]) -> None:
        """Take fewer changes where they make a layout that is as good."""
        found = self._made(tuple(sorted(starts.items())))
        if found is not None and found.score.ranked == self.best[0].score.ranked:
            self.best = (found, starts)

    def _made(self, key: tuple[tuple[str, Start], ...]) -> Judged | None:
        """Return the layout with runs started so; None where there is none."""
        self._seen.add(key)
        self.tried += 1
        if self._progress is not None:
            self._progress(self.tried, MOST)
        try:
            return judged(_unsure(build(started(self.scene, dict(key)))))
        except TrimwrightError:
            return None


def improve(scene: Scene, progress: Progress | None = None) -> Improved:
    """Return the best layout of a scene that is found by starting its runs otherwise.

    Raises:
        TrimwrightError: The scene cannot be laid out as it is.
    """
    search = Search(scene, progress)
    groups = _twins(search.before.layout)
    every = prod(len(STARTS) for _ in groups) <= ALL
    if every:
        for chosen in product(STARTS, repeat=len(groups)):
            search.offer(_spread(groups, chosen))
    else:
        for start in STARTS:
            search.offer(_spread(groups, [start] * len(groups)))
        _one_by_one(search, groups)
    _undo_idle(search, groups)
    after, starts = search.best
    if starts and scene.survey is not None:
        after = judged(build(started(scene, starts)))
    changes = tuple(Change(("run", run, "start"), start) for run, start in sorted(starts.items()))
    return Improved(search.before, after, changes, tuple(_proved(after, every)), search.tried)


def _unsure(layout: Layout) -> Layout:
    """Return a layout of which nobody asks how sure it is: that takes long, and no score depends on it."""
    return replace(layout, scene=layout.scene.model_copy(update={"survey": None}))


def started(scene: Scene, starts: Mapping[str, Start]) -> Scene:
    """Return ``scene`` with the runs named in ``starts`` started so."""
    runs = dict(scene.run)
    for name, start in starts.items():
        own = runs.get(name) or TrimOverride()
        said = own.model_dump(include=own.model_fields_set - {"start"})
        runs[name] = TrimOverride.model_validate({**said, "start": start}, context={"unit": "in"})
    return scene.model_copy(update={"run": runs})


def _one_by_one(search: Search, groups: Sequence[Sequence[str]]) -> None:
    """Change one group after the other, as long as that makes anything better or there is time."""
    better = True
    while better and search.tried < MOST:
        better = False
        for group in groups:
            for start in STARTS:
                if search.tried < MOST:
                    starts = {**search.best[1], **dict.fromkeys(group, start)}
                    better |= search.offer(starts)


def _undo_idle(search: Search, groups: Sequence[Sequence[str]]) -> None:
    """Take back every change of a group that the score is as good without."""
    for group in groups:
        rest = {name: start for name, start in search.best[1].items() if name not in group}
        if rest != search.best[1]:
            search.prefer(rest)


def _twins(layout: Layout) -> list[tuple[str, ...]]:
    """Return the names of the runs that may be started otherwise, twins together, those with most to gain first."""
    groups: dict[tuple[str, float, float, float], list[str]] = {}
    pieces: dict[str, int] = {}
    for part in layout.parts:
        pieces[part.run.name] = pieces.get(part.run.name, 0) + 1
    for run in layout.runs:
        if pieces[run.name] > 1 and not _pinned(run, layout.scene):
            alike = (run.trim, round(run.edge.slope, 4), round(run.length, 2), run.spec.lap)
            groups.setdefault(alike, []).append(run.name)
    return [tuple(names) for names in groups.values()]


def _pinned(run: Run, scene: Scene) -> bool:
    """Return whether the scene says by hand how this run is laid out."""
    own = scene.run.get(run.name)
    placed = any(mark.partition("-")[0] == run.code for mark in scene.screws.placed)
    return run.spec.pieces is not None or placed or (own is not None and own.start is not None)


def _spread(groups: Sequence[Sequence[str]], chosen: Sequence[Start]) -> dict[str, Start]:
    return {name: start for group, start in zip(groups, chosen, strict=True) for name in group}


def _proved(after: Judged, every: bool) -> Iterator[str]:
    """Yield the parts of the score that cannot be better: all where every way was tried, else what is at its bound.

    No findings are fewer than none. A run has no fewer laps than its metal needs lengths of the longest stock, and
    every starting rule takes just so many.
    """
    score = after.score
    names = ("errors", "warnings", "joints", "metal", "screws")
    for name in names:
        floor = name == "joints" or getattr(score, name) == 0
        if every or floor:
            yield name
