"""The takeoff: everything to buy for a layout, list by list."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..message import Message
from .facts import BEAD, FLUID_OUNCE, SPARE, TUBE, Fact
from .plan import Bought, Plan


@dataclass(frozen=True, slots=True)
class Trim:
    """Trim that is formed alike: one profile with the same bends, so that any of its pieces comes out of any length.

    Attributes:
        label: The profile's name; with the codes of its runs where the profile is formed in several ways.
        profile: Name of the profile.
        color: ``#rrggbb``.
        runs: Codes of its runs.
        width: Developed width: of the strip that it is formed from, inches.
        bends: Angles bent through from the inboard edge, radians, positive away from the painted side.
        weight: Of the metal taken, pounds.
        plan: Which lengths, and what comes out of each.
        least_offcut: Shorter offcuts are scrap, inches.
    """

    label: Message
    profile: str
    color: str
    runs: tuple[str, ...]
    width: float
    bends: tuple[float, ...]
    weight: float
    plan: Plan
    least_offcut: float

    @property
    def area(self) -> float:
        """Flat metal taken, square inches."""
        return self.plan.taken * self.width

    @property
    def counts(self) -> tuple[tuple[float, int], ...]:
        """Lengths to buy, inches, the longest first, and how many of each."""
        lengths = [bought.length for bought in self.plan.lengths if not bought.from_hand]
        return tuple((length, lengths.count(length)) for length in sorted(set(lengths), reverse=True))

    @property
    def shared(self) -> tuple[Bought, ...]:
        """Lengths whose offcut serves another run: their pieces belong to more than one."""
        return tuple(x for x in self.plan.lengths if len({mark.split("-")[0] for mark in x.pieces}) > 1)

    @property
    def offcuts(self) -> tuple[float, ...]:
        """Offcuts worth keeping, inches, the longest first."""
        kept = [bought.offcut for bought in self.plan.lengths if bought.offcut >= self.least_offcut]
        return tuple(sorted(kept, reverse=True))


@dataclass(frozen=True, slots=True)
class Lengths:
    """So many of one length.

    Attributes:
        what: ``panel``, or what a closure is called.
        width: Inches, up to the next 1/16; 0 for what has none.
        length: Inches, up to the next 1/16.
        count: How many.
    """

    what: str
    width: float
    length: float
    count: int


@dataclass(frozen=True, slots=True)
class Coil:
    """Metal by the foot, in one width: what panels are formed from, or closures.

    Attributes:
        what: ``panel``, ``closure`` or ``perforated closure``.
        width: Of the coil, inches.
        length: Of all that comes out of it, inches. What is ripped takes as much of it as what is whole.
        weight: Of that length of the coil, pounds.
    """

    what: str
    width: float
    length: float
    weight: float


@dataclass(frozen=True, slots=True)
class Supply:
    """Small parts.

    Attributes:
        what: Screws or cleats, with their metal.
        needed: As many as are set.
    """

    what: Message
    needed: int

    @property
    def buy(self) -> int:
        """How many to buy, with some to spare."""
        return with_spare(self.needed)


@dataclass(frozen=True, slots=True)
class Sealant:
    """Sealant, by where it goes.

    Attributes:
        laps: Length of beads across laps, inches.
        corners: Across corners.
        closures: Along closures.
        seams: Round seams under caps, at the ends of closures, and in the feet of seams.
    """

    laps: float
    corners: float
    closures: float
    seams: float

    @property
    def bead(self) -> float:
        """All of it, inches."""
        return self.laps + self.corners + self.closures + self.seams

    @property
    def tubes(self) -> int:
        """Tubes to buy, with some to spare."""
        return math.ceil(self.bead * (1 + SPARE.value) / TUBE_BEAD - 1e-9)


TUBE_BEAD = TUBE.value * FLUID_OUNCE / (math.pi / 4 * BEAD.value**2)
"""How far a tube goes, inches."""


@dataclass(frozen=True, slots=True)
class Takeoff:
    """What to buy.

    Attributes:
        trim: Trim by how it is formed.
        strips: Continuous cleats by how they are formed: those screwed over trim, and those of valleys.
        panels: Panels by length and width.
        closures: Closures between the seams, by length.
        coils: What panels and closures take of coils, by width.
        screws: For the trim.
        cleats: For the panels' seams.
        pan_cleats: For the hems of valleys.
        cleat_screws: For the continuous cleats that panels hook.
        rivets: For those on a valley's pan.
        sealant: For laps, corners, closures and seams.
        facts: What was counted with, beside the layout itself.
    """

    trim: tuple[Trim, ...]
    strips: tuple[Trim, ...]
    panels: tuple[Lengths, ...]
    closures: tuple[Lengths, ...]
    coils: tuple[Coil, ...]
    screws: Supply
    cleats: Supply
    pan_cleats: Supply
    cleat_screws: Supply
    rivets: Supply
    sealant: Sealant
    facts: tuple[Fact, ...]

    @property
    def small(self) -> tuple[Supply, ...]:
        """Small parts that are counted."""
        return self.screws, self.cleats, self.pan_cleats, self.cleat_screws, self.rivets

    @property
    def cut(self) -> tuple[Trim, ...]:
        """All that is cut from lengths: the trim, then continuous cleats."""
        return self.trim + self.strips

    @property
    def lengths(self) -> tuple[Bought, ...]:
        """Every length taken."""
        return tuple(bought for trim in self.cut for bought in trim.plan.lengths)

    @property
    def weight(self) -> float:
        """Weight of the metal taken in lengths, pounds."""
        return sum(trim.weight for trim in self.cut)

    @property
    def waste(self) -> float:
        """Share of the metal taken in lengths that does not go on to the roof."""
        taken = sum(trim.area for trim in self.cut)
        return 1 - sum(trim.plan.used * trim.width for trim in self.cut) / taken if taken else 0.0

    @property
    def proven(self) -> bool:
        """No plan does better."""
        return all(trim.plan.proven for trim in self.cut)

    @property
    def price(self) -> float | None:
        """What the lengths come to; None when a price is unknown."""
        prices = [bought.price for bought in self.lengths]
        known = [price for price in prices if price is not None]
        return sum(known) if len(known) == len(prices) else None


def with_spare(needed: int) -> int:
    """Return ``needed`` with some to spare, rounded up."""
    return math.ceil(needed * (1 + SPARE.value) - 1e-9)
