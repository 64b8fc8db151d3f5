"""What a joint makes of one end of a run: the cut, the tabs and the work that makes them."""

from __future__ import annotations

from dataclasses import dataclass, replace
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


def step(verb: Verb, text: str, *lines: object, **lengths: float) -> Step:
    """Return a step.

    Args:
        verb: What kind of work it is.
        text: A sentence; ``{name}`` stands for the length of that name.
        lines: Each line that the tool follows, ``(k, 2) float, inches``: sheet points.
        lengths: Inches; those whose name begins with ``at_`` are places along the run.
    """
    told = tuple(
        tuple((float(u), float(v)) for u, v in np.asarray(line, dtype=float).reshape(-1, 2)) for line in lines
    )
    return Step(verb, text, {name: float(value) for name, value in lengths.items()}, told)


def trace(cut: Array, first: float, last: float) -> Array:
    """Return the part of a cut from ``v`` = ``first`` to ``last``, outboard edge first: the way snips go in."""
    inside = (cut[:, 1] >= first - 1e-9) & (cut[:, 1] <= last + 1e-9)
    return np.asarray(cut[inside][::-1])


def from_low_end(steps: tuple[Step, ...], low: float) -> tuple[Step, ...]:
    """Return ``steps`` with the places along the run measured from a piece's low end at ``low``."""
    return tuple(
        replace(
            one,
            lengths={
                name: value - low if name.startswith("at_") else value for name, value in one.lengths.items()
            },
        )
        for one in steps
    )
