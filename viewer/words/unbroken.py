"""Lengths that no line break falls into: what is left of ``2 3/4"`` on the next line is another length."""

from __future__ import annotations

from trimwright.model.units import Tape


def unbroken(text: str) -> str:
    """Return ``text`` with no-break spaces, such as a length: ``12' 6 3/8"``."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


class _UnbrokenTape(Tape):
    """A tape whose lengths no line break falls into."""

    __slots__ = ()

    def __call__(self, inches: float) -> str:
        return unbroken(Tape.__call__(self, inches))

    def fine(self, inches: float) -> str:
        return unbroken(Tape.fine(self, inches))

    def rough(self, inches: float) -> str:
        return unbroken(Tape.rough(self, inches))


def unbroken_tape(tape: Tape) -> Tape:
    """Return a tape like ``tape`` whose lengths no line break falls into."""
    return _UnbrokenTape(tape.style, tape.denominator)
