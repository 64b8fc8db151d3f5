"""A cutting plan: which lengths to take, what comes out of each, and how good the plan is known to be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..message import Message, message

Objective = Literal["metal", "lengths", "money"]
"""What a plan makes least of: the metal bought, the number of lengths bought, or their price."""


@dataclass(frozen=True, slots=True)
class Stock:
    """A length that pieces can be cut from.

    Attributes:
        length: Inches.
        price: Of one length, in the scene's currency; None when unknown.
        count: How many there are; None for as many as are wanted.
        on_hand: It is there and paid for: taking it buys nothing. Needs a count.
    """

    length: float
    price: float | None = None
    count: int | None = None
    on_hand: bool = False


@dataclass(frozen=True, slots=True)
class Demand:
    """A piece that is wanted.

    Attributes:
        mark: What is written on the metal.
        length: Inches.
    """

    mark: str
    length: float


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece in the length that it is cut from.

    Attributes:
        mark: The piece's mark.
        start: Distance of its low end from the end of the length where the tape hooks on, inches.
        length: Inches.
    """

    mark: str
    start: float
    length: float


@dataclass(frozen=True, slots=True)
class Bought:
    """One length of stock and what is cut out of it.

    Attributes:
        profile: What it is a length of.
        length: Inches.
        cuts: The pieces, from the end where the tape hooks on.
        offcut: What is left after the last cut, inches.
        from_hand: It was on hand and is not bought.
        price: In the scene's currency; None when unknown, 0 when it was on hand.
    """

    profile: Message | str
    length: float
    cuts: tuple[CutPiece, ...]
    offcut: float
    from_hand: bool
    price: float | None

    @property
    def pieces(self) -> tuple[str, ...]:
        """Marks of the pieces."""
        return tuple(cut.mark for cut in self.cuts)


@dataclass(frozen=True, slots=True)
class Plan:
    """The lengths of one profile.

    Attributes:
        profile: What the lengths are lengths of.
        objective: What was made least.
        kerf: Lost at every cut, inches.
        lengths: Every length taken, the longest first; every piece comes out of exactly one.
        cost: What the plan comes to: inches bought, lengths bought, or money.
        bound: No plan can come to less than this; same unit.
        proven: ``cost`` has been shown to be the least there is.
    """

    profile: Message | str
    objective: Objective
    kerf: float
    lengths: tuple[Bought, ...]
    cost: float
    bound: float
    proven: bool

    @property
    def gap(self) -> float:
        """How far the plan may be above the least, as a share of its cost; 0 when it is proven."""
        return 0.0 if self.proven or self.cost == 0 else (self.cost - self.bound) / self.cost

    @property
    def bought(self) -> float:
        """Metal bought, inches."""
        return sum(length.length for length in self.lengths if not length.from_hand)

    @property
    def taken(self) -> float:
        """Metal taken, bought or from what is on hand, inches."""
        return sum(length.length for length in self.lengths)

    @property
    def used(self) -> float:
        """Metal that goes on to the roof, inches."""
        return sum(cut.length for length in self.lengths for cut in length.cuts)

    @property
    def waste(self) -> float:
        """Offcuts and kerfs as a share of the metal taken."""
        return 1.0 - self.used / self.taken if self.lengths else 0.0

    @property
    def proof(self) -> Message:
        """How good the plan is known to be."""
        if self.proven:
            return message("proven: no plan does better")
        return message("stopped before the proof: at most {gap} above the best", gap=f"{self.gap:.1%}")
