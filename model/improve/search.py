"""The search for a better layout: starting rules for all runs alike, then choice by choice, until nothing helps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import product

from ..checks.sight import fewest_seen
from ..errors import TrimwrightError
from ..layout import Layout
from ..pipeline import build
from ..scene.draft import Changes, Draft
from .choices import STARTS, Choice, choices_of, with_start
from .score import Judged, judged

ALL = 40
"""Up to so many ways all are tried, and the best of them is the best there is."""

MOST = 44
"""How many layouts are made at the most where there are more."""

Progress = Callable[[int, int], None]
"""Told how many layouts have been made, and how many may be; what it raises ends the search."""

Chosen = tuple[int, ...]
"""Of each choice, which way is taken."""


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
    changes: Changes
    best: tuple[str, ...]
    tried: int


class Search:
    """Layouts of one scene that were tried, and the best of them."""

    def __init__(self, draft: Draft, progress: Progress | None = None) -> None:
        """Begin with the scene as it is.

        Raises:
            TrimwrightError: It cannot be laid out.
        """
        self.draft = draft
        self.before = judged(build(draft.scene()))
        self.choices: tuple[Choice, ...] = choices_of(self.before.layout)
        as_it_is = (0,) * len(self.choices)
        self.best: tuple[Judged, Chosen] = (self.before, as_it_is)
        self.tried = 1
        self._seen = {as_it_is}
        self._progress = progress

    def changes(self, chosen: Chosen) -> Changes:
        """Return the changes that these ways make."""
        taken = (choice[way] for choice, way in zip(self.choices, chosen, strict=True))
        return tuple(change for changes in taken for change in changes)

    def offer(self, chosen: Chosen) -> bool:
        """Lay the scene out as chosen; return whether nothing was better before."""
        if chosen in self._seen:
            return False
        found = self._made(chosen)
        if found is not None and found.score < self.best[0].score:
            self.best = (found, chosen)
            return True
        return False

    def prefer(self, chosen: Chosen) -> None:
        """Take fewer changes where they make a layout that is as good."""
        found = self._made(chosen)
        if found is not None and found.score.ranked == self.best[0].score.ranked:
            self.best = (found, chosen)

    def _made(self, chosen: Chosen) -> Judged | None:
        """Return the layout as chosen; None where there is none."""
        self._seen.add(chosen)
        self.tried += 1
        if self._progress is not None:
            self._progress(self.tried, MOST)
        try:
            return judged(_unsure(build(self.draft.changed(self.changes(chosen)).scene())))
        except TrimwrightError:
            return None


def improve(draft: Draft, progress: Progress | None = None) -> Improved:
    """Return the best layout of a scene that is found by choosing otherwise what it leaves open.

    Raises:
        TrimwrightError: The scene cannot be laid out as it is.
    """
    search = Search(draft, progress)
    every = math.prod(map(len, search.choices)) <= ALL
    if every:
        for chosen in product(*(range(len(choice)) for choice in search.choices)):
            search.offer(chosen)
    else:
        for start in STARTS:
            search.offer(tuple(with_start(choice, start) for choice in search.choices))
        _one_by_one(search)
    _undo_idle(search)
    after, chosen = search.best
    changes = search.changes(chosen)
    if changes and search.before.layout.scene.survey is not None:
        after = judged(build(draft.changed(changes).scene()))
    return Improved(search.before, after, changes, tuple(_proved(after, every)), search.tried)


def _one_by_one(search: Search) -> None:
    """Take another way of one choice after the other, as long as that makes anything better or there is time."""
    better = True
    while better and search.tried < MOST:
        better = False
        for place, choice in enumerate(search.choices):
            for way in range(len(choice)):
                if search.tried < MOST:
                    better |= search.offer(_with(search.best[1], place, way))


def _undo_idle(search: Search) -> None:
    """Take back every way that the score is as good without."""
    for place in range(len(search.choices)):
        if search.best[1][place]:
            search.prefer(_with(search.best[1], place, 0))


def _with(chosen: Chosen, place: int, way: int) -> Chosen:
    return (*chosen[:place], way, *chosen[place + 1 :])


def _unsure(layout: Layout) -> Layout:
    """Return a layout of which nobody asks how sure it is: that takes long, and no score depends on it."""
    return replace(layout, scene=layout.scene.model_copy(update={"survey": None}))


def _proved(after: Judged, every: bool) -> Iterator[str]:
    """Yield the parts of the score that cannot be better: all where every way was tried, else what is at its bound.

    No findings are fewer than none. A run has no fewer laps than its metal needs lengths of the longest stock.
    """
    score = after.score
    names = ("errors", "warnings", "joints", "metal", "screws")
    for name in names:
        floor = score.joints == fewest_seen(after.layout) if name == "joints" else getattr(score, name) == 0
        if every or floor:
            yield name
