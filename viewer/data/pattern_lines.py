"""The lines of a flat pattern, whatever draws them: outline, bends, folds of tabs, and marks.

Up and down are as seen with the painted side up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Part
from trimwright.model.message import Message, message
from trimwright.model.screws import Screw
from trimwright.model.sheet.sheet import Sheet
from trimwright.model.steps import Step

from .flat_pattern import flat_of_sheet

Unit = Literal["in", "mm"]
PER_INCH: Mapping[Unit, float] = {"in": 1.0, "mm": 25.4}
"""How many of a unit make an inch."""

Layer = Literal["outline", "bend up", "bend down", "mark", "text"]

FROM_WHERE = message(
    "x from the low end, y from the inboard edge; bends up and down as seen with the painted side up"
)
"""How a flat pattern is measured."""

CROSS = np.array([[0.2, 0.2], [0.2, -0.2]])
"""Arms of the cross that marks a single point, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class PatternLine:
    """A line of a flat pattern.

    Attributes:
        layer: Where it goes.
        points: ``(n, 2) float, inches``: ``u`` from the low end, ``v`` from the inboard edge.
        closed: It goes back to its first point.
        says: What it is; None for nothing.
    """

    layer: Layer
    points: Array
    closed: bool = False
    says: Message | None = None


def pattern_lines(part: Part, screws: tuple[Screw, ...] = (), scale: float = 1.0) -> Iterator[PatternLine]:
    """Yield the lines of a piece's flat pattern: its outline first, then holes, bends, folds of tabs and marks.

    Args:
        part: The piece.
        screws: Its own screws; each gives a cross on the layer of marks.
        scale: Of the lengths in what the lines say: 1 for inches.
    """
    yield from sheet_lines(part.sheet, scale)
    for end in part.ends:
        yield from marked(end.steps, part.low)
    yield from crosses((screw.at, screw.across) for screw in screws)


def sheet_lines(sheet: Sheet, scale: float = 1.0) -> Iterator[PatternLine]:
    """Yield the lines of any sheet's flat pattern: its outline first, then holes, bends and folds of tabs."""
    flat = flat_of_sheet(sheet)
    yield PatternLine("outline", np.asarray(flat["outline"]), True)
    for hole in flat["holes"]:
        yield PatternLine("outline", np.asarray(hole), True)
    for bend in flat["bends"]:
        layer: Layer = "bend down" if bend["angle"] > 0 else "bend up"
        yield PatternLine(layer, np.array(bend["line"]), says=_bend(bend, scale))


def marked(steps: Iterable[Step], low: float) -> Iterator[PatternLine]:
    """Yield what is marked in some steps, on a sheet whose low end is at ``u`` = ``low``."""
    for step in steps:
        if step.verb == "mark":
            for line in lines_of(step):
                yield PatternLine("mark", line - [low, 0.0])


def crosses(points: Iterable[tuple[float, float]]) -> Iterator[PatternLine]:
    """Yield a cross at each point ``(u, v)``, inches."""
    for point in points:
        center = np.array(point)
        for arm in ([0.125, 0.0], [0.0, 0.125]):
            yield PatternLine("mark", np.stack([center - arm, center + arm]))


def _bend(bend: Mapping[str, Any], scale: float) -> Message:
    """Return how far a bend or a tab is folded, which way, and how much metal goes into it."""
    down = bend["angle"] > 0
    values = {"angle": f"{abs(bend['angle']):.2f}"}
    if bend["fold"] == "tab":
        if down:
            return message("tab, {angle} deg down", **values)
        return message("tab, {angle} deg up", **values)
    values["metal"] = f"{bend['width'] * scale:.3f}"
    if down:
        return message("{angle} deg down, {metal} of metal in the bend", **values)
    return message("{angle} deg up, {metal} of metal in the bend", **values)


def title_of(part: Part) -> tuple[Message, ...]:
    """Return the lines that say what a flat pattern shows, and from which side."""
    return (name_of(part), FROM_WHERE)


def name_of(part: Part) -> Message:
    """Return a piece's mark, its profile and, on a rake, its hand."""
    values = {"mark": part.mark, "profile": part.run.section.profile}
    match part.run.hand:
        case "left":
            return message("{mark}: {profile}, left hand", **values)
        case "right":
            return message("{mark}: {profile}, right hand", **values)
    return message("{mark}: {profile}", **values)


def is_mirrored(part: Part) -> bool:
    """Return whether a piece is right-hand: seen from its painted side its low end is at the right."""
    return mirrors(part.placement)


def mirrors(placement: Array) -> bool:
    """Return whether a sheet set by this ``(4, 4)`` placement shows its painted side, ``u`` and ``v`` as x and y."""
    return bool(np.linalg.det(placement[:3, :3]) > 0)


def lines_of(step: Step) -> tuple[Array, ...]:
    """Return the lines of a step, ``(n, 2) float, inches``; a single point becomes a cross."""
    lines: list[Array] = []
    for line in step.lines:
        points = np.array(line)
        if len(points) > 1:
            lines.append(points)
        elif len(points):
            lines += [np.stack([points[0] - arm, points[0] + arm]) for arm in CROSS]
    return tuple(lines)
