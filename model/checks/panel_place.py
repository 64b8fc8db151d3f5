"""What the rules about panels have in common: a finding that speaks for the worst of a face's panels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..geometry.arrays import Array
from ..message import Message, message
from ..panels.record import Panel
from ..scene.draft import Changes
from .facts import Facts, and_more, at_place
from .record import Finding, Severity


def worst_of(
    facts: Facts,
    rule: str,
    severity: Severity,
    found: Sequence[tuple[float, Panel, Message]],
    remedy: Message,
    point: Array | None = None,
    proposals: Sequence[Changes] = (),
) -> Iterator[Finding]:
    """Yield one finding for the panels of a face, about the one of the first in order; nothing where none was found.

    Args:
        facts: The layout.
        rule: Name of the rule and of its limit.
        severity: How much it matters.
        found: What was measured, on which panel, and what is wrong with it; the worst first.
        remedy: A sentence.
        point: Where to look, when that is not the middle of the panel.
        proposals: Changes of the scene that may remove it, the best first.
    """
    if not found:
        return
    measured, panel, problem = found[0]
    yield Finding(
        rule,
        severity,
        panel.name,
        at_place(message("{panel} panel", panel=panel.name), and_more(problem, len(found))),
        (),
        panel.outline.mean(axis=0) if point is None else point,
        measured,
        facts.limit(rule),
        remedy,
        proposals=tuple(proposals),
    )
