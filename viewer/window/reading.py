"""What is read in the corner of the window: a piece, a finding, the work at a corner, the keys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout, Part
from trimwright.model.units import Tape

from ..display.ends import meets
from ..display.order import Step
from ..display.stage import Stage
from ..report.words import marks_of, sentence_of
from .state import KEYS, State


@dataclass(frozen=True, slots=True)
class Reading:
    """A heading, and lines under it: a name, which may be empty, and what is said of it."""

    heading: str
    lines: tuple[tuple[str, str], ...]


def reading_of(
    layout: Layout, findings: Sequence[Finding], stage: Stage, steps: Sequence[Step], state: State
) -> Reading | None:
    """Return what is to be read; None when nothing is."""
    if state.keys:
        return Reading("Keys", KEYS)
    if state.finding is not None:
        return finding_reading(findings, state.finding, layout.scene.tape)
    if state.chosen is not None:
        return piece_reading(layout, layout.part(state.chosen), steps)
    legend = stage.view(state.view).legend if state.marks else ()
    if legend:
        return Reading(stage.view(state.view).title, tuple(_told(text) for text in legend))
    return None


def piece_reading(layout: Layout, part: Part, steps: Sequence[Step]) -> Reading:
    """Return what is known of a piece, in a roofer's words."""
    show = layout.scene.tape
    place = next(step.number for step in steps if part.mark in step.names)
    marks = [screw.at for screw in layout.screws_of(part.mark)]
    rows = [
        ("run", part.run.name),
        ("length", show(part.length) + (", the short piece" if part.piece.short else "")),
        ("cut from", f"{show(part.piece.stock)} stock"),
        ("hand", f"{part.run.hand}, as seen from outside" if part.run.hand else "none"),
        ("low end", meets(part.ends.low, show)),
        ("high end", meets(part.ends.high, show)),
        ("screws", f"{len(marks)}, at {_whole(marks_of(marks, show))}" if marks else "none"),
        ("set", f"no. {place} of {len(steps)}"),
    ]
    return Reading(part.mark, tuple(rows))


def finding_reading(findings: Sequence[Finding], number: int, show: Tape) -> Reading:
    """Return what a finding says: what was measured, the limit and where it comes from, what to do."""
    finding = findings[number - 1]
    rows = [
        ("where", finding.where),
        ("", str(sentence_of(finding, show))),
        ("limit from", str(finding.limit.source.whole)),
    ]
    if finding.pieces:
        rows.insert(1, ("pieces", ", ".join(finding.pieces)))
    return Reading(f"{number} of {len(findings)}  {finding.severity}: {finding.rule}", tuple(rows))


def _told(text: str) -> tuple[str, str]:
    """Return a line of a view's legend: a heading ends in a colon, a step begins with its number."""
    if text.endswith(":"):
        return "", text
    number, _, rest = text.partition("  ")
    return number, rest


def _whole(marks: str) -> str:
    """Return tape marks that no line break falls into."""
    return marks.replace(" ", "\u00a0").replace(",\u00a0", ", ")
