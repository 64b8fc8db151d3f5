"""Alike: which pieces are cut to the same pattern and can share a cut sheet."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimwright.model.layout import Layout, Part
from trimwright.model.steps import Step

from ...data.traces import is_mirrored

SAME = 1 / 32
"""Patterns that differ by no more than this are cut as one, inches: closer than snips follow a line."""


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

    @property
    def title(self) -> str:
        """Their marks as a heading has them: not too many."""
        marks = self.marks
        return ", ".join(marks) if len(marks) < 4 else f"{marks[0]} and {len(marks) - 1} more"


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
            _spoken(one.steps) == _spoken(other.steps)
            for one, other in zip(first.ends, second.ends, strict=True)
        )
    )


def unmarked(text: str, marks: Sequence[str]) -> str:
    """Return a step's sentence with ``its neighbour`` in place of the marks of pieces."""
    if not marks:
        return text
    return re.sub(
        "|".join(rf"\b{re.escape(mark)}\b" for mark in sorted(marks, key=len, reverse=True)),
        "its neighbour",
        text,
    )


def _spoken(steps: Sequence[Step]) -> list[tuple[str, str]]:
    return [(step.verb, re.sub(r"\b[A-Z]\d+-\d+\b", "", step.text)) for step in steps]
