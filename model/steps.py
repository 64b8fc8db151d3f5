"""One step of hand work on a piece: what to do, with which dimensions, along which lines of the sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

Verb = Literal["mark", "cut", "turn", "fold", "ease", "set", "seal"]


@dataclass(frozen=True, slots=True)
class Step:
    """A hand-tool step.

    Attributes:
        verb: What kind of work it is.
        text: A sentence; ``{name}`` stands for the length of that name.
        lengths: Lengths by name, inches, exact.
        lines: Each line that the tool follows, as sheet points ``(u, v)``, inches.
    """

    verb: Verb
    text: str
    lengths: dict[str, float] = field(default_factory=dict)
    lines: tuple[tuple[tuple[float, float], ...], ...] = ()

    def say(self, show: Callable[[float], str]) -> str:
        """Return the sentence with its lengths written by ``show``."""
        return self.text.format(**{name: show(value) for name, value in self.lengths.items()})
