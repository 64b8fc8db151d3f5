"""Limits: one number or pair of numbers that a rule compares with, and how far its source can be trusted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..source import Source


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit with its pedigree.

    Attributes:
        rule: Name of the limit, which is the name of the rule that it belongs to.
        value: One number, or the two ends of a band.
        unit: ``in``, ``deg``, ``ft``, ``1`` ...
        source: Where it comes from.
        reason: Why the scene overrides it; None when it does not, or gives no reason.
        instead_of: The rule set's limit, which the scene overrides; None when it does not.
    """

    rule: str
    value: float | tuple[float, float]
    unit: str
    source: Source
    reason: str | None = None
    instead_of: Limit | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits in force for a scene."""

    name: str
    by_rule: Mapping[str, Limit]

    def __getitem__(self, rule: str) -> Limit:
        """Return the limit called ``rule``."""
        return self.by_rule[rule]

    def number(self, rule: str) -> float:
        """Return the limit called ``rule``, which is one number."""
        value = self.by_rule[rule].value
        if isinstance(value, tuple):
            raise TypeError(f"limit {rule} is a band")
        return value

    def band(self, rule: str) -> tuple[float, float]:
        """Return the limit called ``rule``, which is a band."""
        value = self.by_rule[rule].value
        if not isinstance(value, tuple):
            raise TypeError(f"limit {rule} is one number")
        return value
