"""The lines of a flat pattern, whatever draws them: outline, bends, folds of tabs, and marks.

Up and down are as seen with the painted side up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Part
from trimwright.model.screws import Screw
from trimwright.model.steps import Step

from .flat import flat_of

Unit = Literal["in", "mm"]
Layer = Literal["outline", "bend up", "bend down", "mark", "text"]

CROSS = np.array([[0.2, 0.2], [0.2, -0.2]])
"""Arms of the cross that marks a single point, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """A line of a flat pattern.

    Attributes:
        layer: Where it goes.
        points: ``(n, 2) float, inches``: ``u`` from the low end, ``v`` from the inboard edge.
        closed: It goes back to its first point.
        says: What it is; empty for nothing.
    """

    layer: Layer
    points: Array
    closed: bool = False
    says: str = ""


def traces(part: Part, screws: tuple[Screw, ...] = (), scale: float = 1.0) -> Iterator[Trace]:
    """Yield the lines of a piece's flat pattern: its outline first, then holes, bends, folds of tabs and marks.

    Args:
        part: The piece.
        screws: Its own screws; each gives a cross on the layer of marks.
        scale: Of the lengths in what the lines say: 1 for inches.
    """
    flat = flat_of(part)
    yield Trace("outline", np.asarray(flat["outline"]), True)
    for hole in flat["holes"]:
        yield Trace("outline", np.asarray(hole), True)
    for bend in flat["bends"]:
        way = "down" if bend["angle"] > 0 else "up"
        says = f"{abs(bend['angle']):.2f} deg {way}"
        says = (
            f"tab, {says}"
            if bend["fold"] == "tab"
            else f"{says}, {bend['width'] * scale:.3f} of metal in the bend"
        )
        yield Trace("bend down" if way == "down" else "bend up", np.array(bend["line"]), says=says)
    for end in part.ends:
        for step in end.steps:
            if step.verb == "mark":
                for line in lines_of(step):
                    yield Trace("mark", line - [part.low, 0.0])
    for screw in screws:
        center = np.array([screw.at, screw.across])
        for arm in ([0.125, 0.0], [0.0, 0.125]):
            yield Trace("mark", np.stack([center - arm, center + arm]))


def title_of(part: Part) -> tuple[str, ...]:
    """Return the lines that say what a flat pattern shows, and from which side."""
    hand = f", {part.run.hand} hand" if part.run.hand else ""
    return (
        f"{part.mark}: {part.run.section.profile}{hand}",
        "x from the low end, y from the inboard edge; bends up and down as seen with the painted side up",
    )


def is_mirrored(part: Part) -> bool:
    """Return whether a piece is right-hand: seen from its painted side its low end is at the right."""
    return bool(np.linalg.det(part.placement[:3, :3]) > 0)


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
