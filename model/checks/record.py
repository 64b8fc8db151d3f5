"""A finding: what a rule found wrong, where, by how much, and what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..limits.record import Limit
from ..message import Message
from ..scene.draft import Changes

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True, eq=False)
class Finding:
    """One thing that is wrong, or worth knowing, about a layout.

    Attributes:
        rule: Name of the rule.
        severity: How much it matters.
        where: Name of the run, edge, face or panel that it concerns.
        message: One sentence: where, and what was found.
        pieces: Marks of the pieces concerned.
        point: ``(3,) float, inches, scene frame``; where to look.
        measured: The number found, in the limit's unit; None for a yes-or-no rule.
        limit: The limit it was compared with, its source and trust.
        remedy: What to do about it, a sentence.
        accepted: The scene's reason for accepting it; None when it is not accepted.
        group: Number of the group of findings like it, from 1 in the order in which they are read; 0 until the rules
            have all been asked.
        cause: Number of the group that it follows from; None when it follows from no other finding.
        proposals: Changes of the scene that may remove it, the best first; nobody has tried them.
        change: Changes of the scene that remove all of its group and make nothing worse, for they have been made and
            checked; None where none is known.
        beside: Names of edges that it may come from, where it is not found on these.
    """

    rule: str
    severity: Severity
    where: str
    message: Message
    pieces: tuple[str, ...]
    point: NDArray[np.float64]
    measured: float | None
    limit: Limit
    remedy: Message
    accepted: str | None = None
    group: int = 0
    cause: int | None = None
    proposals: tuple[Changes, ...] = ()
    change: Changes | None = None
    beside: tuple[str, ...] = ()
