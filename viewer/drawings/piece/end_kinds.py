"""Kinds of ends: which ends of pieces are cut alike, or are each other's mirror image, and can share a sheet."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import count

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Listed, Message, Value, message
from trimwright.model.profiles.section import Section
from trimwright.model.steps import Step

from ...data.pattern_lines import is_mirrored

SAME = 1 / 32
"""Ends that differ by no more than this are cut as one, inches: closer than snips follow a line."""

NEIGHBOR = message("its neighbor")

BY_HAND = ("mark", "turn", "fold", "ease")
"""Work that a square end does not take."""


@dataclass(frozen=True, slots=True, eq=False)
class PieceEnd:
    """One end of one piece.

    Attributes:
        part: The piece.
        end: Its end.
    """

    part: Part
    end: End

    @property
    def at_left(self) -> bool:
        """Whether the end is at the left when its piece lies painted side up, inboard edge away."""
        return (self.end.at == "low") != is_mirrored(self.part)

    @property
    def blank(self) -> float:
        """``u`` where its blank ends, inches."""
        return self.part.low if self.end.at == "low" else self.part.high

    def inward(self, points: Array) -> Array:
        """Return ``(n, 2)`` sheet points as inches from the end of the blank, and ``v``."""
        return np.stack([np.abs(points[:, 0] - self.blank), points[:, 1]], axis=1)


@dataclass(frozen=True, slots=True, eq=False)
class EndKind:
    """Ends that are cut alike, on either hand.

    Attributes:
        code: A letter; empty for square ends, which need no sheet.
        ends: All of them.
    """

    code: str
    ends: tuple[PieceEnd, ...]

    @property
    def first(self) -> PieceEnd:
        """The end whose steps are drawn."""
        return self.ends[0]

    @property
    def square(self) -> bool:
        """Whether it is cut straight across, and nothing else is done to it by hand."""
        return is_square(self.first.end)

    def hand(self, left: bool) -> tuple[PieceEnd, ...]:
        """Return the ends at the left of their pieces, or those at the right."""
        return tuple(one for one in self.ends if one.at_left == left)

    def told(self, step: Step) -> Message:
        """Return what a step says to all of them: without a neighbor's mark where they have several."""
        return unmarked(step, self.first.end.others if len(self.ends) > 1 else ())


def kinds_of(layout: Layout) -> tuple[EndKind, ...]:
    """Return the ends of all pieces by how they are cut: those at corners first, the most work before the less.

    Square ends come last.
    """
    found: list[list[PieceEnd]] = []
    for part in layout.parts:
        for end in part.ends:
            own = PieceEnd(part, end)
            same = next((kind for kind in found if alike(kind[0], own)), None)
            if same is None:
                found.append([own])
            else:
                same.append(own)
    found.sort(
        key=lambda kind: (is_square(kind[0].end), kind[0].end.lap is not None, -len(kind[0].end.steps))
    )
    return lettered([EndKind("", tuple(kind)) for kind in found])


def lettered(kinds: Iterable[EndKind]) -> tuple[EndKind, ...]:
    """Return kinds with letters in their order; square ends have none."""
    codes = (letters(number) for number in count())
    return tuple(replace(kind, code="" if kind.square else next(codes)) for kind in kinds)


def letters(number: int) -> str:
    """Return ``A`` for 0, ``Z`` for 25, ``AA`` for 26."""
    code = ""
    while number >= 0:
        code = chr(ord("A") + number % 26) + code
        number = number // 26 - 1
    return code


def is_square(end: End) -> bool:
    """Return whether an end is cut straight across, and nothing else is done to it by hand."""
    plain = all(step.verb not in BY_HAND for step in end.steps)
    return plain and end.cut.is_square and not end.cut.tabs


def alike(first: PieceEnd, second: PieceEnd) -> bool:
    """Return whether two ends, or one and the other's mirror image, have the same metal, outline and steps."""
    a, b = first.end, second.end
    return (
        a.kind is b.kind
        and a.lies == b.lies
        and told_alike(a.steps, b.steps)
        and alike_sections(first.part.run.section, second.part.run.section)
        and _near(first.inward(a.cut.edge), second.inward(b.cut.edge))
        and len(a.cut.tabs) == len(b.cut.tabs)
        and all(
            abs(one.angle - other.angle) < np.radians(1.0)
            for one, other in zip(a.cut.tabs, b.cut.tabs, strict=True)
        )
        and all(
            _near(first.inward(np.array(one)), second.inward(np.array(other)))
            for own, others in zip(a.steps, b.steps, strict=True)
            for one, other in zip(own.lines, others.lines, strict=True)
        )
    )


def alike_sections(a: Section, b: Section) -> bool:
    """Return whether two sections are bent alike, as closely as a brake does."""
    return a is b or (
        a.profile == b.profile
        and abs(a.thickness - b.thickness) < 1e-6
        and a.v.shape == b.v.shape
        and float(np.abs(a.v - b.v).max()) <= SAME
        and all(
            abs(one.angle - two.angle) < np.radians(0.5) for one, two in zip(a.bends, b.bends, strict=True)
        )
    )


def told_alike(first: Sequence[Step], second: Sequence[Step]) -> bool:
    """Return whether steps say the same, but for marks and for lengths that no tape tells apart."""
    return len(first) == len(second) and all(
        one.verb == other.verb
        and one.says.text == other.says.text
        and _words(one) == _words(other)
        and len(one.lines) == len(other.lines)
        and all(abs(one.lengths[name] - other.lengths[name]) <= SAME for name in one.lengths)
        for one, other in zip(first, second, strict=True)
    )


def unmarked(step: Step, marks: Collection[str]) -> Message:
    """Return what a step says, with ``its neighbor`` in place of ``marks``."""
    values = tuple((name, NEIGHBOR if value in marks else value) for name, value in step.says.values)
    return replace(step.says, values=values)


def _words(step: Step) -> list[Value]:
    return [value for _, value in step.says.values if isinstance(value, Message | Listed)]


def _near(first: Array, second: Array) -> bool:
    """Return whether two lines are cut as one, whatever corners too small for snips either of them has."""
    if len(first) < 2 or len(second) < 2:
        return first.shape == second.shape and float(np.abs(first - second).max(initial=0.0)) <= SAME
    return float(shapely.hausdorff_distance(shapely.LineString(first), shapely.LineString(second))) <= SAME
