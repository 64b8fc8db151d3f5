"""Mending a scene: remedies made one at a time, the worst finding first, each kept only if nothing worse appears."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass

from ..checks.groups import ORDER, groups_of
from ..checks.record import Finding
from ..scene.draft import Changes, Draft
from .trial import Tried, checked, remedy_of

MOST = 60
"""Changes that are made at the most; each removes a group of findings, and no scene has so many."""

GUESSES = {
    "decimal-feet",
    "flat-pitch",
    "mixed-units",
    "profile-unused",
    "sides-swapped",
    "steep-pitch",
    "stock-for-nothing",
    "unlikely-size",
}
"""Rules that guess what was meant: their changes are told, and made by nobody but who measured the roof."""

Progress = Callable[[int], None]
"""Told how many changes have been kept."""


@dataclass(frozen=True, slots=True, eq=False)
class MendStep:
    """One remedy that was kept.

    Attributes:
        group: The findings that it removed.
        changes: What was changed.
    """

    group: tuple[Finding, ...]
    changes: Changes


@dataclass(frozen=True, slots=True, eq=False)
class Mended:
    """What mending came to.

    Attributes:
        before: The scene as it is.
        after: The scene with every remedy that was kept.
        steps: These, in the order in which they were made.
    """

    before: Tried
    after: Tried
    steps: tuple[MendStep, ...]


def mend(draft: Draft, progress: Progress | None = None) -> Mended:
    """Return a scene with one remedy after the other made.

    What no remedy helps at first is tried again once others have been made.

    Raises:
        TrimwrightError: It cannot be read or built as it is.
    """
    before = now = checked(draft)
    steps: list[MendStep] = []
    more = True
    while more and len(steps) < MOST:
        more = False
        set_aside: set[Hashable] = set()
        while len(steps) < MOST and (step := _next(now, set_aside)):
            now, made = step
            steps.append(made)
            more = True
            if progress is not None:
                progress(len(steps))
    return Mended(before, now, tuple(steps))


def _next(now: Tried, set_aside: set[Hashable]) -> tuple[Tried, MendStep] | None:
    """Return the scene with the first remedy that helps, the worst finding first; None where none helps.

    Groups that are set aside are passed over, and those that no remedy helps are set aside.
    """
    for group in _worst_first(now.findings):
        name = (group[0].rule, frozenset((one.where, *one.pieces) for one in group))
        if group[0].rule in GUESSES or name in set_aside:
            continue
        if remedy := remedy_of(now, group):
            changes, after = remedy
            return after, MendStep(group, changes)
        set_aside.add(name)
    return None


def _worst_first(findings: Iterable[Finding]) -> Iterator[tuple[Finding, ...]]:
    """Yield each group of findings, and then, of groups of several, each finding by itself: the worst first."""
    groups = tuple(groups_of(findings))
    for severity in ORDER:
        alike = [group for group in groups if group[0].severity == severity]
        yield from alike
        yield from ((one,) for group in alike if len(group) > 1 for one in group)
