"""Where a strip of a run lies on the paper: a stretch of one piece, at the scale of all strips of the run."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from trimwright.model.layout import Part
from trimwright.model.message import Message, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.profiles.section import Leg
from trimwright.model.screws import Screw

from ..ink.letters import width_of
from ..ink.style import SMALL
from .broadside import extent, height_of
from .run_facts import RunFacts, merged
from .tape_marks import UPRIGHT, row_names

GUTTER = 0.8
"""Room at the left for the names of legs and of rows of marks at least, inches on the paper."""

BESIDE = 0.08
"""White beside those names, inches on the paper."""

GHOST = 7.0
"""How much of each neighbor is drawn, inches."""

BROAD = 0.5
"""Height of the drawn section, inches on the paper."""

LARGEST = 1 / 4
"""Inches on the paper for an inch of metal, at most."""


@dataclass(frozen=True, slots=True)
class StripScale:
    """How the strips of one run are drawn.

    Attributes:
        ratio: Inches on the paper for an inch along the run.
        broad: Height of the drawn section, inches on the paper.
        width: Of the strip, inches on the paper.
        gutter: Room at the left for the names of legs and of rows of marks, inches on the paper.
        count: Strips for each piece: more than one where its screws stand close.
    """

    ratio: float
    broad: float
    width: float
    gutter: float
    count: int


@dataclass(frozen=True, slots=True, eq=False)
class Strip:
    """One piece's place on the paper.

    Attributes:
        facts: Its run.
        part: The piece.
        scale: Of the strip.
        stretch: Which of its strips, from 0 at its low end.
        bottom: Lowest side of the drawn section, inches on the paper.
    """

    facts: RunFacts
    part: Part
    scale: StripScale
    stretch: int
    bottom: float

    @property
    def own(self) -> tuple[float, float]:
        """Run distances between which screws and findings are this strip's, inches."""
        step = self.part.length / self.scale.count
        return self.part.low + self.stretch * step, self.part.low + (self.stretch + 1) * step

    @property
    def span(self) -> tuple[float, float]:
        """Run distances between which the strip is drawn, inches."""
        low, high = self.own
        return low - GHOST, high + GHOST

    @property
    def first(self) -> bool:
        """Whether the piece's low end is in it."""
        return self.stretch == 0

    @property
    def last(self) -> bool:
        """Whether the piece's high end is in it."""
        return self.stretch == self.scale.count - 1

    def has(self, u: float) -> bool:
        """Return whether what lies at a run distance of the piece is this strip's."""
        low, high = self.own
        return (self.first or u >= low) and (self.last or u < high)

    @property
    def screws(self) -> tuple[Screw, ...]:
        """The screws of this strip."""
        low = self.part.low
        return tuple(screw for screw in self.facts.screws[self.part.mark] if self.has(low + screw.at))

    @property
    def top(self) -> float:
        """Highest side of the drawn section, inches on the paper."""
        return self.bottom + self.scale.broad

    def x(self, u: float) -> float:
        """Return where a run distance lies on the paper."""
        shift = (u - self.span[0]) * self.scale.ratio
        return self.scale.width - shift if self.facts.aspect.mirrored else self.scale.gutter + shift

    def y(self, height: float) -> float:
        """Return where a height of the section, as ``broadside`` gives it, lies on the paper."""
        low, high = extent(self.part.run.section, self.facts.aspect)
        return self.bottom + self.scale.broad * (height - low) / (high - low)

    def across(self, v: float) -> float:
        """Return where a point ``v`` across the developed width lies on the paper."""
        return self.y(height_of(self.part.run.section, self.facts.aspect, v))

    def below(self, v: float) -> bool:
        """Return whether a point lies on the lower wing of a cap: its tape mark stands below."""
        return len(self.facts.run.edge.faces) == 2 and self.across(v) < (self.bottom + self.top) / 2


def scale_of(facts: RunFacts, width: float) -> StripScale:
    """Return the scale at which a strip of the longest piece fits ``width`` inches of paper, its marks apart."""
    names = [facts.say(leg_name(leg)) for leg in facts.run.section.legs if is_named(leg)]
    widest = max([row_names(facts.say).width, *(width_of(name, SMALL) for name in names)])
    gutter = max(GUTTER, widest + BESIDE)
    count = 1
    while not _apart(facts, count, width - gutter):
        count += 1
    longest = max(part.length for part in facts.parts) / count + 2 * GHOST
    return StripScale(min(LARGEST, (width - gutter) / longest), BROAD, width, gutter, count)


def is_named(leg: Leg) -> bool:
    """Return whether the name of a leg is written beside it: hems and returns are too narrow for that."""
    return leg.name != "return" and "hem" not in leg.name


def leg_name(leg: Leg) -> Message:
    """Return what a leg is called."""
    return message("{leg}", leg=leg_words(leg.name))


def _apart(facts: RunFacts, count: int, room: float) -> bool:
    """Return whether the marks of every strip fit ``room`` when each piece has ``count`` of them."""
    for part in facts.parts:
        marks = merged([screw.at for screw in facts.screws[part.mark]])
        strips = Counter(min(int(at / part.length * count), count - 1) for at in marks)
        if (max(strips.values(), default=0) + 2) * UPRIGHT > room:
            return False
    return True
