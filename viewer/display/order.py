"""The order of install, step by step: a piece of trim at a time, the panels of a face at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout, Part

from .metal import RANK, install_order

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """One step of the work.

    Attributes:
        number: Its place in the order, from 1.
        kind: What it sets.
        names: Marks of the pieces, or names of the panels, that it sets.
        title: The mark, or which panels.
        says: What a foreman would say of it, in a few words.
        over: Marks of the pieces set before it that it lies over.
        away: ``(3,)`` unit vector: the way from which it comes to its place.
    """

    number: int
    kind: Literal["trim", "panels"]
    names: frozenset[str]
    title: str
    says: str
    over: tuple[str, ...]
    away: Array


def steps_of(layout: Layout) -> tuple[Step, ...]:
    """Return the steps: edges, then panels face by face, then the caps over them."""
    order = install_order(layout)
    parts = sorted(layout.parts, key=lambda part: order[part.mark])
    early = [part for part in parts if RANK[part.run.trim] < RANK["panels"]]
    late = parts[len(early) :]
    steps = [_trim(layout, part, number, order) for number, part in enumerate(early, 1)]
    for index, face in enumerate(layout.roof.faces):
        names = frozenset(panel.name for panel in layout.panels if panel.face == index)
        if names:
            says = f"{len(names)} panel{'s' if len(names) > 1 else ''}, hooked round the nose"
            title = f"{face.name} panels"
            steps.append(Step(len(steps) + 1, "panels", names, title, says, (), face.normal))
    last = len(steps)
    return (*steps, *(_trim(layout, part, number, order) for number, part in enumerate(late, last + 1)))


def _trim(layout: Layout, part: Part, number: int, order: Mapping[str, int]) -> Step:
    short = ", the short piece" if part.piece.short else ""
    says = f"{part.run.name}, {layout.scene.tape(part.length)}{short}"
    over = tuple(mark for mark in under_of(part) if order[mark] < order[part.mark])
    return Step(number, "trim", frozenset({part.mark}), part.mark, says, over, away_of(part))


def under_of(part: Part) -> tuple[str, ...]:
    """Return the marks of the pieces that a piece lies over."""
    ends = [*part.ends.laps, *part.ends.corners]
    return tuple(dict.fromkeys(other for end in ends if end.lies == "over" for other in end.others))


def away_of(part: Part) -> Array:
    """Return the way from which a piece comes to its place: caps from above, edges from above and outside."""
    out, up = part.run.frame[:3, 1], part.run.frame[:3, 2]
    way = up if len(part.run.edge.faces) == 2 else up + 0.55 * out
    return np.asarray(way / np.linalg.norm(way))
