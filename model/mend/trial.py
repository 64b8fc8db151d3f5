"""Trials: a change counts as a remedy once it has been made, and removed what was found without anything worse."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from ..checks.groups import ORDER, groups_of
from ..checks.record import Finding, Severity
from ..checks.run import check
from ..errors import Key, TrimwrightError
from ..layout import Layout
from ..pipeline import build
from ..scene.draft import Change, Changes, Draft

TRIES = 4
"""How many changes are tried at the most for one group of findings."""

MORE_TRIES = 6
"""With the changes of how many other groups what is proposed for one is tried at the most."""

Tally = Counter[tuple[str, str, Severity]]
"""How many findings there are, by rule, by place and by severity."""


@dataclass(frozen=True, slots=True, eq=False)
class Tried:
    """A scene laid out and checked.

    Attributes:
        draft: Its tables.
        layout: Its layout.
        findings: What is wrong with it.
    """

    draft: Draft
    layout: Layout
    findings: tuple[Finding, ...]


def checked(draft: Draft) -> Tried:
    """Lay a draft out and check it.

    Raises:
        TrimwrightError: It cannot be read or built.
    """
    layout = build(draft.scene())
    return Tried(draft, layout, check(layout))


def with_changes(before: Tried, go_on: Callable[[], bool] = lambda: True) -> tuple[Finding, ...]:
    """Return the findings, each with the change that removes its group, where one of those proposed does.

    A group that follows from another one takes that one's change, where it goes with it. One that nothing proposed for
    it removes alone takes that together with the change of another group, where both remove it.

    Args:
        before: The scene as it is.
        go_on: Asked before each trial; once it says no, no more are made.
    """
    found: dict[int, Changes | None] = {}
    tried: dict[int, Tried] = {}
    groups = tuple(groups_of(before.findings))
    for group in groups:
        number, cause = group[0].group, group[0].cause
        after = tried.get(cause) if cause is not None else None
        if after is not None and cause is not None and removes(before, after, group):
            found[number] = found[cause]
            continue
        found[number] = None
        if remedy := remedy_of(before, group, go_on):
            found[number], tried[number] = remedy
    for group in groups:
        if found[group[0].group] is None:
            others = [changes for number, changes in found.items() if changes and number in tried]
            if remedy := _remedy_with(before, group, others, go_on):
                found[group[0].group], _ = remedy
    return tuple(replace(one, change=found[one.group]) for one in before.findings)


def remedy_of(
    before: Tried, group: Sequence[Finding], go_on: Callable[[], bool] = lambda: True
) -> tuple[Changes, Tried] | None:
    """Return the first of the changes proposed for a group that removes it, and the scene with it made.

    None where none does; what the scene accepts is left alone.
    """
    return _first_of(before, group, proposed(group), go_on)


def _remedy_with(
    before: Tried, group: Sequence[Finding], others: Iterable[Changes], go_on: Callable[[], bool]
) -> tuple[Changes, Tried] | None:
    """Return the same of what is proposed first, made after one of ``others``."""
    if not (own := proposed(group)[:1]):
        return None
    keys = {change.key for change in own[0]}
    both = [(*one, *own[0]) for one in others if not keys & {change.key for change in one}]
    return _first_of(before, group, both[:MORE_TRIES], go_on)


def _first_of(
    before: Tried, group: Sequence[Finding], ways: Iterable[Changes], go_on: Callable[[], bool]
) -> tuple[Changes, Tried] | None:
    """Return the first way that removes a group without anything worse, and the scene with it made."""
    if group[0].accepted is not None:
        return None
    had_stock = _stock_serves(before.layout)
    for changes in ways:
        if not go_on():
            return None
        try:
            after = checked(before.draft.changed(changes))
        except TrimwrightError:
            continue
        if had_stock and not _stock_serves(after.layout):
            continue
        if removes(before, after, group) and not worse(before, after, group[0].severity):
            return changes, after
    return None


def _stock_serves(layout: Layout) -> bool:
    """Return whether the stock that a scene names, if any, serves its pieces."""
    if layout.scene.buy.stock:
        from ..takeoff.count import take_off  # a quarter of a second, and few scenes name stock

        try:
            take_off(layout, layout.scene.buy)
        except TrimwrightError:
            return False
    return True


def proposed(group: Sequence[Finding]) -> list[Changes]:
    """Return what is proposed for all findings of a group in one: the best of each together, then the next of each."""
    ways = max((len(one.proposals) for one in group), default=0)
    result: list[Changes] = []
    for way in range(min(ways, TRIES)):
        together: dict[Key, Change] = {}
        for one in group:
            if one.proposals:
                for change in one.proposals[min(way, len(one.proposals) - 1)]:
                    together.setdefault(change.key, change)
        changes = tuple(together.values())
        if changes not in result:
            result.append(changes)
    return result


def removes(before: Tried, after: Tried, group: Sequence[Finding]) -> bool:
    """Return whether all findings of a group are gone, wherever they were."""
    had, has = (_tally(one, one.findings) for one in (before, after))
    gone = _tally(before, group)
    return all(has[place] <= had[place] - count for place, count in gone.items())


def worse(before: Tried, after: Tried, severity: Severity) -> bool:
    """Return whether anything was found after that was not before, and is as bad as ``severity`` or worse."""
    new = _tally(after, after.findings) - _tally(before, before.findings)
    return any(ORDER[kind] <= ORDER[severity] for _, _, kind in new) or bool(
        set(after.layout.untrimmed) - set(before.layout.untrimmed)
    )


def _tally(one: Tried, findings: Sequence[Finding]) -> Tally:
    """Return findings counted: errors and warnings by run, edge or face.

    Notes are counted wherever they are, for one of them speaks for a roof, and so are findings on panels, which a
    change may number otherwise.
    """
    roof = one.layout.roof
    places = {edge.name for edge in roof.edges} | {face.name for face in roof.faces}
    return Counter(
        (f.rule, f.where if f.where in places and f.severity != "note" else "", f.severity) for f in findings
    )
