"""Pieces: which lengths a run is cut into, and how they lap."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Piece:
    """One length of trim on its run.

    Attributes:
        mark: What is written on the metal: ``R2-3`` is the third piece from the low end of rake run 2.
        run: Name of its run.
        number: Place in the run, from 1 at the low end.
        start: Run distance of the metal's low end, inches; below 0 where it reaches past the corner.
        end: Run distance of the metal's high end, inches.
        stock: The stock length it is cut from, inches; the piece's own length when none is long enough.
        short: It is the remainder: the piece that was cut to what was left.
        placed: Its length was given by hand in the scene.
        hand: The hand it was made to, when the scene says so and it differs from the run's; else None.
    """

    mark: str
    run: str
    number: int
    start: float
    end: float
    stock: float
    short: bool
    placed: bool
    hand: str | None

    @property
    def length(self) -> float:
        """Length of the metal, inches."""
        return self.end - self.start
