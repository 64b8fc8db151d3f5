"""A roof over any outline: what a scene says of it, and what cannot be meant."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Annotated, Literal

import numpy as np
from pydantic import Field, ValidationError, model_validator
from pydantic_core import InitErrorDetails

from ..errors import Problem
from ..geometry.arrays import Array
from ..geometry.ring import crossing, stretches, turned_area, turns
from ..message import Length, Message, message
from ..tolerances import TAPE
from .fields import Along, BoundedLength, Coordinate, Deck, Overhang, Slope, Spec, WallHeight, refusal
from .overhangs import Overhangs
from .survey import Taped

Ring = Annotated[tuple[tuple[Coordinate, Coordinate], ...], Field(min_length=3, max_length=200)]

SHORTEST_SIDE = 6.0
"""Sides below 6 in are refused, as edges of every roof are."""


class SideSpec(Spec):
    """What one side of the outline has otherwise than the others.

    Attributes:
        edge: An eave, with a slope over it, or a gable, which the slopes beside it end over.
        pitch: Slope from level of an eave's side, radians; None for the roof's.
        overhang: How far the deck reaches past the wall here, level, inches; None for the roof's.
    """

    edge: Literal["eave", "gable"] = "eave"
    pitch: Slope | None = None
    overhang: Overhang | None = None


class PorchSpec(Spec):
    """A porch: the slope over a side carried down past its eave, to a lower one.

    Attributes:
        side: The side, by its number.
        begins: Where it begins, from the side's first corner along the wall, inches.
        ends: Where it ends.
        depth: How far its eave is out from the side's own, level, inches.
    """

    side: int
    begins: Annotated[Along, Field(alias="from")]
    ends: Annotated[Along, Field(alias="to")]
    depth: Annotated[float, BoundedLength(12, 12_000, "6'")]


Porches = Annotated[tuple[PorchSpec, ...], Field(max_length=20)]


class OutlineSpec(Spec):
    """A slope over every side of an outline but its gables.

    Attributes:
        outline: Corners of the outside of the walls, x and y, inches, counter-clockwise seen from above. Side 1
            goes from the first to the second.
        holes: Courtyards, each clockwise; their sides are numbered on after the outline's.
        pitch: Slope from level, radians, of all sides that have none of their own.
        sides: By number, from 1: what a side has otherwise.
        porch: Porches, in their order along each side.
        wall_height: Of the walls under the first side that is an eave, inches. All eaves are at one height.
        overhang: How far the deck reaches past the walls.
        deck: Its thickness, inches.
        taped: What was measured on the deck, overhangs included: the true sizes.
    """

    form: Literal["outline"]
    outline: Ring
    holes: Annotated[tuple[Ring, ...], Field(max_length=20)] = ()
    pitch: Slope
    sides: Annotated[dict[int, SideSpec], Field(max_length=400)] = Field(default_factory=dict)
    porch: Porches = ()
    wall_height: WallHeight = 96.0
    overhang: Overhangs = Overhangs.model_construct()
    deck: Deck = 0.5
    taped: Taped = Field(default_factory=dict)

    @property
    def rings(self) -> list[Array]:
        """The outline and its holes, ``(n, 2) float, inches`` each."""
        return [np.array(ring, dtype=float) for ring in (self.outline, *self.holes)]

    @property
    def length(self) -> float:
        """From the leftmost wall to the rightmost, inches."""
        return float(np.ptp(self.rings[0][:, 0]))

    @property
    def width(self) -> float:
        """From the frontmost wall to the one farthest back, inches."""
        return float(np.ptp(self.rings[0][:, 1]))

    @property
    def slopes(self) -> tuple[float, ...]:
        """Every pitch that was given, radians."""
        return (self.pitch, *(side.pitch for side in self.sides.values() if side.pitch is not None))

    def is_gable(self, number: int) -> bool:
        """Return whether a side, counted from 1, is a gable."""
        return number in self.sides and self.sides[number].edge == "gable"

    def pitch_of(self, number: int) -> float:
        """Return the slope over a side, radians."""
        own = self.sides[number].pitch if number in self.sides else None
        return self.pitch if own is None else own

    def overhang_of(self, number: int) -> float:
        """Return how far the deck reaches past a side, inches."""
        own = self.sides[number].overhang if number in self.sides else None
        usual = self.overhang.rake if self.is_gable(number) else self.overhang.eave
        return usual if own is None else own

    @model_validator(mode="after")
    def _can_be_meant(self) -> OutlineSpec:
        refused = [
            InitErrorDetails(type=refusal(problem.message), loc=problem.key, input=None)
            for problem in outline_problems(self)
        ]
        if refused:
            raise ValidationError.from_exception_data("OutlineSpec", refused)
        return self


def outline_problems(spec: OutlineSpec) -> Iterator[Problem]:
    """Yield all that an outline cannot be, with its key under ``roof``."""
    rings = spec.rings
    count = sum(len(ring) for ring in rings)
    for number in spec.sides:
        if not 1 <= number <= count:
            told = message(
                "there is no side {number}; the sides are numbered 1 to {count}, side 1 from the first corner",
                number=number,
                count=count,
            )
            yield Problem(told, ("sides", str(number)))
    short = list(_short_sides(rings))
    yield from short
    crossed = None if short else crossing(rings)
    if crossed is not None:
        told = message(
            "sides cross or touch at ({x}, {y}); list the corners in order round the house, holes inside it",
            x=Length(crossed[0]),
            y=Length(crossed[1]),
        )
        yield Problem(told, ("outline",))
    if short or crossed is not None:
        return
    wrong = list(_wrong_way_round(rings))
    yield from wrong
    if not wrong:
        yield from _side_problems(spec, rings)
        yield from porch_problems(spec)


def porch_problems(spec: OutlineSpec) -> Iterator[Problem]:
    """Yield porches of sides that are not there or are gables, and those that end before they begin."""
    long = [
        float(one) for ring in spec.rings for one in np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1)
    ]
    for number, porch in enumerate(spec.porch):
        key = ("porch", number)
        if not 1 <= porch.side <= len(long):
            told = message(
                "there is no side {number}; the sides are numbered 1 to {count}",
                number=porch.side,
                count=len(long),
            )
            yield Problem(told, (*key, "side"))
        elif spec.is_gable(porch.side):
            told = message("side {number} is a gable, which has no eave to carry down", number=porch.side)
            yield Problem(told, (*key, "side"))
        elif not porch.begins + SHORTEST_SIDE <= porch.ends <= long[porch.side - 1] + TAPE:
            told = message(
                "it goes from {first} to {last}; give at least {least} of width within the side, which is {long} long",
                first=Length(porch.begins),
                last=Length(porch.ends),
                least=Length(SHORTEST_SIDE),
                long=Length(long[porch.side - 1]),
            )
            yield Problem(told, (*key, "to"))


def _short_sides(rings: list[Array]) -> Iterator[Problem]:
    """Yield sides that are too short to trim."""
    number = 0
    for ring in rings:
        for length in np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1):
            number += 1
            if length < SHORTEST_SIDE:
                told = message(
                    "side {number} is {length} long, and trim needs {least} or more; move or leave out one of "
                    "its corners",
                    number=number,
                    length=Length(float(length)),
                    least=Length(SHORTEST_SIDE),
                )
                yield Problem(told, ("outline",))


def _wrong_way_round(rings: list[Array]) -> Iterator[Problem]:
    """Yield an outline that goes clockwise, and holes that do not."""
    outer, *holes = rings
    if turned_area(outer) < 0:
        told = message("its corners go round clockwise seen from above; list them counter-clockwise")
        yield Problem(told, ("outline",))
    for number, hole in enumerate(holes):
        if turned_area(hole) > 0:
            told = message("its corners go round counter-clockwise seen from above; list them clockwise")
            yield Problem(told, ("holes", number))


def _side_problems(spec: OutlineSpec, rings: list[Array]) -> Iterator[Problem]:
    """Yield gables where none can be, and neighbors in one line that differ."""
    first = 1
    eaves = 0
    for ring in rings:
        bends = turns(ring)
        groups = stretches(ring, TAPE)
        yield from _unlike(spec, groups, first)
        for k, group in enumerate(groups):
            number = group[0] + first
            if not spec.is_gable(number):
                eaves += 1
                continue
            beside = [groups[k - 1][0] + first, groups[(k + 1) % len(groups)][0] + first]
            yield from _gable_problems(spec, number, beside, bends[[group[0], (group[-1] + 1) % len(ring)]])
        first += len(ring)
    if not eaves:
        told = message('every side is a gable; leave out edge = "gable" where the roof is to shed water')
        yield Problem(told, ("sides",))


def _gable_problems(spec: OutlineSpec, number: int, beside: list[int], bends: Array) -> Iterator[Problem]:
    """Yield what keeps one side from being a gable: ``bends`` are the turns at its two ends."""
    side = ("sides", str(number))
    if spec.sides[number].pitch is not None:
        told = message("a gable has the slopes of its neighbors; leave pitch out, or edge")
        yield Problem(told, (*side, "pitch"))
    if (bends <= 0).any():
        told = message(
            "a gable stands between two outside corners, and this side has an inside corner; make it an eave"
        )
        yield Problem(told, (*side, "edge"))
    other = next((one for one in beside if spec.is_gable(one)), None)
    if other is not None:
        told = message(
            "a gable stands between two eaves, and side {other} beside it is a gable too; make one an eave",
            other=other,
        )
        yield Problem(told, (*side, "edge"))


UNLIKE = {
    "edge": Message("goes on in the line of side {other}, one an eave and one a gable; make both the same"),
    "pitch": Message("goes on in the line of side {other}, with another pitch; give both the same"),
    "overhang": Message("goes on in the line of side {other}, with another overhang; give both the same"),
}


def _unlike(spec: OutlineSpec, groups: list[list[int]], first: int) -> Iterator[Problem]:
    """Yield sides that go on in the line of the one before but differ from it."""
    ways = {"edge": spec.is_gable, "pitch": spec.pitch_of, "overhang": spec.overhang_of}
    for group in groups:
        for one, two in pairwise(number + first for number in group):
            for name, of in ways.items():
                if of(one) != of(two):
                    told = replace(UNLIKE[name], values=(("other", one),))
                    yield Problem(told, ("sides", str(two)))
