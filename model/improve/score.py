"""Score: how good a layout is. Errors count before warnings, these before joints in sight, metal and screws."""

from __future__ import annotations

from dataclasses import dataclass
from functools import total_ordering

from ..checks.record import Finding
from ..checks.run import check
from ..checks.sight import seen_laps
from ..layout import Layout
from ..takeoff.count import take_off
from ..takeoff.record import Takeoff

SAME_METAL = 1.0
"""Metal bought that differs by less than this is the same, square inches."""


@total_ordering
@dataclass(frozen=True, slots=True)
class Score:
    """What a layout comes to; less is better, the first before the next.

    Attributes:
        errors: Findings of that severity that nobody accepted.
        warnings: The same.
        joints: Laps of trim that people see, as `checks/sight.py` counts them.
        metal: Of the trim, bought, square inches.
        screws: Of the trim.
    """

    errors: int
    warnings: int
    joints: int
    metal: float
    screws: int

    @property
    def ranked(self) -> tuple[int, int, int, int, int]:
        """What scores are compared by."""
        return (self.errors, self.warnings, self.joints, round(self.metal / SAME_METAL), self.screws)

    def __lt__(self, other: Score) -> bool:
        """Return whether this is the better one."""
        return self.ranked < other.ranked


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """A layout with all that it is judged by."""

    layout: Layout
    findings: tuple[Finding, ...]
    takeoff: Takeoff
    score: Score


def judged(layout: Layout) -> Judged:
    """Return a layout with its findings, what to buy for it, and its score."""
    findings, takeoff = check(layout), take_off(layout)
    severities = [finding.severity for finding in findings]
    return Judged(
        layout,
        findings,
        takeoff,
        Score(
            severities.count("error"),
            severities.count("warning"),
            sum(1 for _ in seen_laps(layout)),
            sum(trim.area for trim in takeoff.trim),
            len(layout.screws),
        ),
    )
