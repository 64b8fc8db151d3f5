"""One step of hand work on a piece: what to do, with which dimensions, along which lines of the sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from .message import Length, Message, Place

Verb = Literal["mark", "cut", "turn", "fold", "ease", "set", "seal"]
Line: TypeAlias = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Step:
    """A hand-tool step.

    Attributes:
        verb: What kind of work it is.
        says: What to do, with its dimensions and places.
        lines: Each line that the tool follows, as sheet points ``(u, v)``, inches.
        below: The tool goes in from the unpainted side.
    """

    verb: Verb
    says: Message
    lines: tuple[Line, ...] = ()
    below: bool = False

    @property
    def lengths(self) -> dict[str, float]:
        """Its dimensions and places by name, inches, exact."""
        return {name: value.inches for name, value in self.says.values if isinstance(value, Length)}


def from_blank_end(step: Step, end: float) -> Step:
    """Return a step whose places are measured from the end of the blank at ``end``, not along the run."""
    says = step.says
    if not any(isinstance(value, Place) for _, value in says.values):
        return step
    values = tuple(
        (name, Place(abs(value.inches - end)) if isinstance(value, Place) else value)
        for name, value in says.values
    )
    return replace(step, says=replace(says, values=values))
