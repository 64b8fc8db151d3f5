"""The terms of a check: its rules, what the scene changed of them and why, and what was not looked at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from ..layout import Layout
from ..limits.record import Limit
from ..scene.schema import AcceptSpec
from .record import Finding
from .rules.corner_without_joint import sealed_corners


@dataclass(frozen=True, slots=True, eq=False)
class Acceptance:
    """What a scene accepts.

    Attributes:
        asked: As it stands in the scene.
        findings: What it covers; empty when it matches nothing any longer.
    """

    asked: AcceptSpec
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Terms:
    """By which terms a layout was checked.

    Attributes:
        rule_set: Name of the rule set.
        overridden: Limits that the scene sets itself.
        off: Rules that were not asked, with the reason.
        acceptances: What the scene accepts, in its order.
        bare: Edges without trim: nothing on them was checked.
        sealed: Of each corner that is closed by sealant alone, the runs that meet there.
    """

    rule_set: str
    overridden: tuple[Limit, ...]
    off: Mapping[str, str]
    acceptances: tuple[Acceptance, ...]
    bare: tuple[str, ...]
    sealed: tuple[tuple[str, ...], ...]


def terms_of(layout: Layout, findings: Sequence[Finding]) -> Terms:
    """Return the terms by which ``findings`` were found in ``layout``."""
    rules, limits = layout.scene.rules, layout.limits
    return Terms(
        limits.name,
        tuple(limit for limit in limits.by_rule.values() if limit.instead_of is not None),
        rules.off,
        tuple(
            Acceptance(asked, tuple(one for one in findings if acceptance_of(one, rules.accept) is asked))
            for asked in rules.accept
        ),
        tuple(layout.untrimmed),
        tuple(
            tuple(dict.fromkeys(part.run.name for part, _ in ends))
            for ends in sealed_corners(layout).values()
        ),
    )


def acceptance_of(finding: Finding, accepts: Iterable[AcceptSpec]) -> AcceptSpec | None:
    """Return the first of ``accepts`` that covers ``finding``, or None."""
    for accept in accepts:
        if accept.rule == finding.rule and accept.where in (None, finding.where, *finding.pieces):
            return accept
    return None
