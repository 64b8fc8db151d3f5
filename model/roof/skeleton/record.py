"""What the skeleton stands on and what it yields: sides that rise, and the arcs that their corners draw."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from ...geometry.arrays import Array

NEAR = 1e-6
"""Corners this close are one, inches: far above the rounding of a 1000 ft roof, far below any cut."""

ALONG = 1e-9
"""Sides whose directions differ by less than this sine are parallel."""


class OpenRoof(Exception):
    """Sides that make no roof; says which and where.

    Attributes:
        why: ``jog``: two sides in line, of unequal pitch, come to one height; ``open``: what is left never
            closes; ``check``: the faces do not make up the plan.
        sides: The sides concerned, counted from 0.
        at: ``(2,)`` place in plan, inches.
    """

    def __init__(self, why: str, sides: tuple[int, ...], at: Array) -> None:
        """Keep the reason, the sides and the place."""
        super().__init__(f"{why}: sides {sides} at {at}")
        self.why = why
        self.sides = sides
        self.at = at


@dataclass(frozen=True, slots=True, eq=False)
class Sides:
    """The lines that rise: side ``k`` is at ``normals[k] · p = offsets[k] + speeds[k] * height``.

    Attributes:
        normals: ``(n, 2)`` unit vectors into the roof, to the left of each side's direction.
        offsets: ``(n,) float, inches``.
        speeds: ``(n,)`` how far a side moves in for each inch of height: 1 / pitch, 0 for a gable.
    """

    normals: Array
    offsets: Array
    speeds: Array

    @property
    def directions(self) -> Array:
        """``(n, 2)`` unit vectors along the sides, the roof on the left."""
        return np.column_stack([self.normals[:, 1], -self.normals[:, 0]])


@dataclass(frozen=True, slots=True, eq=False)
class PlanCorner:
    """Where two sides meet, and how their meeting point moves as they rise.

    Attributes:
        before: The side that arrives here, the roof on its left.
        after: The side that leaves.
        node: Where it began, an index of the trace's nodes.
        place: ``(2,) float, inches``; the same in plan.
        height: And in height, inches.
        velocity: ``(2,)`` inches in plan for each inch of height.
    """

    before: int
    after: int
    node: int
    place: Array
    height: float
    velocity: Array


@dataclass(slots=True, eq=False)
class Trace:
    """What has been drawn so far.

    Attributes:
        nodes: ``(3,) float, inches`` each; where arcs begin and end.
        arcs: From node to node, with the side that has the arc in this direction round its face.
        same: For each side the one whose face it is part of: sides that come to lie in one plane share one.
    """

    nodes: list[Array] = field(default_factory=list)
    arcs: list[tuple[int, int, int]] = field(default_factory=list)
    same: list[int] = field(default_factory=list)

    def node(self, place: Array, height: float) -> int:
        """Return the index of a new node."""
        self.nodes.append(np.array([*place, height]))
        return len(self.nodes) - 1

    def draw(self, start: int, end: int, left: int, right: int) -> None:
        """Draw an arc with one side's face on its left and another's on its right."""
        if start != end:
            self.arcs += [(start, end, left), (end, start, right)]

    def face(self, side: int) -> int:
        """Return the side whose face ``side`` is part of."""
        while self.same[side] != side:
            side = self.same[side]
        return side

    def unite(self, one: int, two: int) -> None:
        """Make one face of two sides."""
        low, high = sorted((self.face(one), self.face(two)))
        self.same[high] = low
