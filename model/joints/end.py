"""What a joint makes of one end of a run: the cut, the tabs and the work that makes them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..sheet.sheet import Tab
from ..steps import Step, Verb

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class End:
    """One end of a run, cut.

    Attributes:
        kind: Name of the joint.
        lies: Over or under its neighbours; None where it does neither.
        others: Names of the runs that it meets.
        cut: ``(k, 2) float, inches``: the line of the cut in ``(u, v)``.
        tabs: Flaps beyond it.
        steps: Hand-tool steps in order; lengths that are places along the piece are ``u`` of the run until
            ``from_end`` measures them from the piece's low end.
    """

    kind: str
    lies: Literal["over", "under"] | None
    others: tuple[str, ...]
    cut: Array
    tabs: tuple[Tab, ...] = ()
    steps: tuple[Step, ...] = ()

    @property
    def reach(self) -> tuple[float, float]:
        """Lowest and highest ``u`` of the cut and its tabs, inches."""
        u = np.concatenate([self.cut[:, 0], *(tab.flap[:, 0] for tab in self.tabs)])
        return float(u.min()), float(u.max())

    @property
    def depth(self) -> float:
        """How far the cut goes in from the metal's outermost point, inches."""
        low, high = self.reach
        return high - low


def step(verb: Verb, text: str, line: object = (), **lengths: float) -> Step:
    """Return a step; lengths whose name begins with ``at_`` are places along the run."""
    points = tuple((float(u), float(v)) for u, v in np.asarray(line, dtype=float).reshape(-1, 2))
    return Step(verb, text, {name: float(value) for name, value in lengths.items()}, points)


def from_low_end(steps: tuple[Step, ...], low: float) -> tuple[Step, ...]:
    """Return ``steps`` with the places along the run measured from a piece's low end at ``low``."""
    return tuple(
        Step(
            s.verb,
            s.text,
            {name: value - low if name.startswith("at_") else value for name, value in s.lengths.items()},
            s.line,
        )
        for s in steps
    )
