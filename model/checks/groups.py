"""Put alike findings into groups, and what follows from another finding under its cause, so that few lines tell all."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from ..errors import Key
from .record import Finding, Severity

FOLLOWS = {
    "short-piece-low": ("short-end-piece",),
    "end-screw": ("short-end-piece", "piece-longer-than-stock", "lap-too-long"),
    "screws-per-piece": ("short-end-piece",),
    "screws-crowded": ("short-end-piece",),
    "screw-in-lap": ("short-end-piece",),
    "lap-in-corner": ("short-end-piece",),
    "laps-in-one-place": ("short-end-piece",),
    "lap-head": ("lap-too-short",),
    "lap-gap": ("wrong-hand",),
    "miter-gap": ("wrong-hand",),
    "pieces-collide": ("wrong-hand",),
    "tab-too-small": ("short-face", "narrow-flange"),
    "panel-unhooked": ("hook-too-short",),
    "unlikely-size": ("mixed-units",),
    "panels-collide": ("edge-without-trim", "hook-too-short"),
}
"""By rule, the rules whose findings on the same piece or run make such a finding: mend the cause, and it goes too."""

ORDER: dict[Severity, int] = {"error": 0, "warning": 1, "note": 2}
"""The worst first."""


def grouped(findings: Sequence[Finding], trims: Mapping[str, str]) -> tuple[Finding, ...]:
    """Return the findings in the order in which they are read, each with the number of its group and of its cause.

    The worst come first and what is accepted last; a group that follows from another stands right after it, and where
    it is the worse of the two, both are read where it belongs.

    Args:
        findings: Everything that the rules found.
        trims: The kind of trim of each run.
    """
    causes = {id(one): _cause(one, findings) for one in findings}
    worst = {id(one): ORDER[one.severity] for one in findings}
    for one in findings:
        if (made_by := causes[id(one)]) is not None:
            worst[id(made_by)] = min(worst[id(made_by)], ORDER[one.severity])
    ranked = sorted(findings, key=lambda one: (worst[id(one)], one.accepted is not None))
    alike: dict[Hashable, list[Finding]] = {}
    for one in ranked:
        alike.setdefault(_kind(one, causes[id(one)], trims), []).append(one)
    first_cause = {kind: causes[id(group[0])] for kind, group in alike.items()}
    read: list[Finding] = []
    number = 0
    for kind, group in alike.items():
        if first_cause[kind] is not None:
            continue
        number += 1
        read += (replace(one, group=number) for one in group)
        own, cause = {id(one) for one in group}, number
        for other, others in alike.items():
            made_by = first_cause[other]
            if made_by is not None and id(made_by) in own:
                number += 1
                read += (replace(one, group=number, cause=cause) for one in others)
    return tuple(read)


def groups_of(findings: Iterable[Finding]) -> Iterator[tuple[Finding, ...]]:
    """Yield the groups of findings that :func:`grouped` has numbered."""
    for _, group in groupby(findings, key=lambda one: one.group):
        yield tuple(group)


def marks_of(group: Sequence[Finding]) -> tuple[str, ...]:
    """Return the marks of all pieces of a group, each once; where they concern no piece, what they concern."""
    marks = dict.fromkeys(mark for one in group for mark in one.pieces)
    return tuple(marks or dict.fromkeys(one.where for one in group))


def _cause(finding: Finding, findings: Iterable[Finding]) -> Finding | None:
    """Return the finding that ``finding`` follows from: on the same metal and as bad or worse, or beside it."""
    if finding.accepted is not None:
        return None
    for other in findings:
        if (
            other.rule in FOLLOWS.get(finding.rule, ())
            and other.accepted is None
            and (
                other.where in finding.beside
                or (ORDER[other.severity] <= ORDER[finding.severity] and _same_metal(other, finding))
            )
        ):
            return other
    return None


def _same_metal(cause: Finding, finding: Finding) -> bool:
    """Return whether two findings concern one piece, or one run where the cause names no piece."""
    shared = set(cause.pieces) & set(finding.pieces)
    return bool(shared) or (cause.where == finding.where and not cause.pieces)


def _kind(finding: Finding, cause: Finding | None, trims: Mapping[str, str]) -> Hashable:
    """Return what alike findings have in common: rule, limit, kind of trim, reason, and that of their causes.

    Where one key of ``[screws]`` makes all of them, they are alike on any trim.
    """
    own = (
        finding.rule,
        finding.severity,
        finding.limit.rule,
        _screw_keys(finding) or trims.get(finding.where),
        finding.accepted,
    )
    return own, None if cause is None else _kind(cause, None, trims)


def _screw_keys(finding: Finding) -> tuple[Key, ...]:
    """Return the keys of ``[screws]`` that a finding is gone without, where they are said for all trim."""
    first = finding.proposals[0] if finding.proposals else ()
    said = [change.key for change in first if change.value is None and change.key[0] == "screws"]
    return tuple(said) if len(said) == len(first) and all(len(key) == 2 for key in said) else ()
