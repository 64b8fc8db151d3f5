"""Alike: which pieces are cut to the same pattern and can share a cut sheet."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Listed, Message, Value, message
from trimwright.model.steps import Step

from ...data.pattern_lines import is_mirrored
from ...words.speaker import Speaker

SAME = 1 / 32
"""Patterns that differ by no more than this are cut as one, inches: closer than snips follow a line."""


NEIGHBOUR = message("its neighbour")


@dataclass(frozen=True, slots=True)
class Batch:
    """Pieces that are cut alike.

    Attributes:
        parts: They; the first is the one that is drawn.
    """

    parts: tuple[Part, ...]

    @property
    def first(self) -> Part:
        """The piece that is drawn."""
        return self.parts[0]

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of all of them."""
        return tuple(part.mark for part in self.parts)

    def title(self, say: Speaker) -> str:
        """Return their marks as a heading has them: not too many."""
        marks = self.marks
        if len(marks) < 4:
            return ", ".join(marks)
        return say("{mark} and {count} more", mark=marks[0], count=len(marks) - 1)


def batches(layout: Layout) -> tuple[Batch, ...]:
    """Return the pieces of a layout, those that are cut alike together, in the order of the first of each."""
    found: list[list[Part]] = []
    for part in layout.parts:
        same = next((batch for batch in found if alike(batch[0], part)), None)
        if same is None:
            found.append([part])
        else:
            same.append(part)
    return tuple(Batch(tuple(parts)) for parts in found)


def alike(first: Part, second: Part) -> bool:
    """Return whether two pieces have the same hand, section, outline and steps, to 1/32 in."""
    a, b = first.sheet, second.sheet
    if (
        is_mirrored(first) != is_mirrored(second)
        or a.section.profile != b.section.profile
        or abs(a.section.thickness - b.section.thickness) > 1e-6
        or a.section.v.shape != b.section.v.shape
        or a.outline.shape != b.outline.shape
        or len(a.holes) != len(b.holes)
    ):
        return False
    shift = np.array([second.low - first.low, 0.0])
    near = float(np.abs(a.outline + shift - b.outline).max()) <= SAME
    bends = all(
        abs(one.angle - other.angle) < np.radians(0.5)
        for one, other in zip(a.section.bends, b.section.bends, strict=True)
    )
    tabs = len(a.tabs) == len(b.tabs) and all(
        abs(one.angle - other.angle) < np.radians(1.0) for one, other in zip(a.tabs, b.tabs, strict=True)
    )
    return (
        near
        and bends
        and tabs
        and float(np.abs(a.section.v - b.section.v).max()) <= SAME
        and all(
            _told(one.steps) == _told(other.steps) for one, other in zip(first.ends, second.ends, strict=True)
        )
    )


def unmarked(step: Step, marks: Collection[str]) -> Message:
    """Return what a step says, with ``its neighbour`` in place of ``marks``."""
    values = tuple((name, NEIGHBOUR if value in marks else value) for name, value in step.says.values)
    return replace(step.says, values=values)


def _told(steps: Sequence[Step]) -> list[tuple[str, str, list[Value]]]:
    """Return what steps say: their sentences and the words in them, but for marks, and what the outline shows."""
    return [
        (
            step.verb,
            step.says.text,
            [value for _, value in step.says.values if isinstance(value, Message | Listed)],
        )
        for step in steps
    ]
