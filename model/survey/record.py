"""What a survey found: how each tape agrees, what no tape tells, what is in doubt, and how crooked each face is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..geometry.arrays import Array
from ..tolerances import LEVEL, TAPE
from .quantities import Kind


@dataclass(frozen=True, slots=True)
class Taped:
    """One measure and how it agrees with the rest.

    Attributes:
        name: What was measured.
        kind: A length, a diagonal or a pitch.
        read: What was read, inches or radians.
        form: What the form has.
        now: What the roof has.
        redundancy: The share of a mistake in it that the others bring to light, 0 to 1; below `CHECKED` they do not.
        score: Its misfit in standard errors of what such a misfit may be.
        left_out: It is in doubt, and the roof goes by the others.
        like: The tapes that a mistake in it looks like: that there is one shows, but not in which of them.
    """

    name: str
    kind: Kind
    read: float
    form: float
    now: float
    redundancy: float
    score: float
    left_out: bool
    like: tuple[str, ...]

    @property
    def misfit(self) -> float:
        """What was read less what the roof has, inches or radians."""
        return self.read - self.now

    @property
    def is_checked(self) -> bool:
        """Whether a mistake in it would show."""
        return self.redundancy >= CHECKED


CHECKED = 0.2
"""From this redundancy on, a mistake in a tape is told by its misfit. The project's own."""


@dataclass(frozen=True, slots=True)
class Untold:
    """A size that no tape tells.

    Attributes:
        name: An edge, a diagonal or a face's pitch.
        kind: Which size of it; a tilt is how far out of level it is.
        form: What the form has, inches or radians.
        value: What the roof has, the same unless what was taped moves it along.
        by_level: It follows from the eaves being level; else from the rest of the form.
    """

    name: str
    kind: Kind
    form: float
    value: float
    by_level: bool

    @property
    def is_as_planned(self) -> bool:
        """Whether neither a tape nor a level tells it from what the form has."""
        return abs(self.value - self.form) < (LEVEL if self.kind == "pitch" else TAPE)


@dataclass(frozen=True, slots=True)
class Doubt:
    """A mistake in a tape.

    Attributes:
        tapes: Those in which it may be, the likeliest first; of one, that one is named and left out.
        by: By how much the first read too much, inches or radians; less than 0 for too little.
    """

    tapes: tuple[str, ...]
    by: float


@dataclass(frozen=True, slots=True)
class Crooked:
    """How far a face is out of square.

    Attributes:
        face: Index of it.
        left: How far the top of its left side stands to the right of square over the eave, inches.
        right: The same of its right side.
        taper: How much farther the far side is from the eave at the right than at the left, inches.
    """

    face: int
    left: float
    right: float
    taper: float


@dataclass(frozen=True, slots=True, eq=False)
class Survey:
    """A roof of true sizes.

    Attributes:
        tapes: Every measure, in the order of the scene.
        untold: What no tape tells.
        doubts: Mistakes that show.
        crooked: Of each face with square corners in the form, how far it is out of square.
        spread: ``(3 n, f)``; the corners of the roof move by this times independent standard errors.
        gain: ``(3 n, m)``; how far they move for what each tape that is not left out is off.
        loose: Names of edges whose length no tape tells.
    """

    tapes: tuple[Taped, ...]
    untold: tuple[Untold, ...]
    doubts: tuple[Doubt, ...]
    crooked: tuple[Crooked, ...]
    spread: Array
    gain: Array
    loose: frozenset[str]

    @property
    def by_name(self) -> Mapping[str, Taped]:
        """The tapes by what they measure."""
        return {tape.name: tape for tape in self.tapes}
