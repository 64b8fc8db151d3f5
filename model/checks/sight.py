"""Which laps of the trim people see: told here once, for the rule, for the search and for the table of starts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ..edge_kinds import FACED, KINDS
from ..layout import Layout, Part
from ..runs import Run
from ..scene.house import OpeningSpec, Side

ALONG = {
    "front": np.array([1.0, 0.0]),
    "right": np.array([0.0, 1.0]),
    "back": np.array([-1.0, 0.0]),
    "left": np.array([0.0, -1.0]),
}
"""From left to right along a side of the house, in plan, seen from outside."""


@dataclass(frozen=True, slots=True, eq=False)
class SeenLap:
    """A lap that people see.

    Attributes:
        run: Its run.
        lower: The piece below it, or before it.
        upper: The other one.
        over_door: It is over a door, or nearer to one than the limit.
    """

    run: Run
    lower: Part
    upper: Part
    over_door: bool


def seen_laps(layout: Layout) -> Iterator[SeenLap]:
    """Yield the laps of eave, rake and high trim on the street's side, and those over doors on any side.

    Where a scene does not say which side is the street's, people see all of them.
    """
    for run in layout.runs:
        if KINDS[run.trim].legs != FACED:
            continue
        on_street = layout.scene.street in (None, side_of(run))
        doors = doors_under(layout, run)
        for lower, upper in pairwise(layout.parts_of(run.name)):
            over = is_over(layout, run, doors, upper.low, lower.high)
            if over or on_street:
                yield SeenLap(run, lower, upper, over)


def fewest_laps(layout: Layout, run: Run) -> int:
    """Return how few laps a run can have, of the longest stock: what is needed is no fault of the layout's."""
    stock, parts = layout.scene.metal.stock[-1], layout.parts_of(run.name)
    covered = parts[-1].high - parts[0].low
    return max(0, math.ceil((covered - stock) / (stock - run.spec.lap) - 1e-6))


def fewest_seen(layout: Layout) -> int:
    """Return how few laps people can see, with full lengths wherever they go."""
    return sum(
        fewest_laps(layout, run)
        for run in layout.runs
        if KINDS[run.trim].legs == FACED and layout.scene.street in (None, side_of(run))
    )


def side_of(run: Run) -> Side:
    """Return the side of the house that a run looks to."""
    x, y = run.edge.outward[:2]
    if abs(x) > abs(y):
        return "right" if x > 0 else "left"
    return "back" if y > 0 else "front"


def doors_under(layout: Layout, run: Run) -> list[OpeningSpec]:
    """Return the doors on the side of the house that a run looks to."""
    side = side_of(run)
    return [one for one in layout.scene.house.opening if one.kind == "door" and one.wall == side]


def is_over(layout: Layout, run: Run, doors: list[OpeningSpec], first: float, last: float) -> bool:
    """Return whether a stretch of a run is over one of ``doors``, or nearer to it than the limit, level along the wall.

    Args:
        layout: The layout.
        run: The run.
        doors: On its side of the house.
        first: Where the stretch begins along the run, inches.
        last: Where it ends.
    """
    if not doors:
        return False
    least = layout.limits.number("joint-in-sight")
    rings = layout.roof.walls or tuple(face.outline for face in layout.roof.faces)
    along = ALONG[side_of(run)]
    left = min(float((ring[:, :2] @ along).min()) for ring in rings)
    low, high = sorted(float((run.edge.start + u * run.edge.direction)[:2] @ along) for u in (first, last))
    middles = (left + door.at for door in doors)
    halves = (door.width / 2 for door in doors)
    return any(
        max(middle - half - high, low - middle - half, 0.0) < least
        for middle, half in zip(middles, halves, strict=True)
    )
