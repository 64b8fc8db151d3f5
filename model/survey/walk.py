"""What to tape on a roof, in walking order: face by face to the next one beside it, and round each from its eave."""

from __future__ import annotations

import string
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..roof.record import Roof
from ..scene.survey import SurveySpec
from .assumed import assumed
from .doubts import twins
from .fit import fitted
from .quantities import Quantity, measurable, outlines, under_the_roof
from .record import CHECKED
from .survey import standard_errors

MANY = 200
"""Of a roof of more measures than this nobody works out which of them no other checks: it would take long."""


@dataclass(frozen=True, slots=True)
class Stop:
    """One measure on the way.

    Attributes:
        number: From 1.
        quantity: What to measure.
        value: What the form has, inches or radians.
        twice: No other measure checks it, or a mistake in it looks like one in another: it is read twice on the spot.
    """

    number: int
    quantity: Quantity
    value: float
    twice: bool


@dataclass(frozen=True, slots=True)
class Visit:
    """All that is measured on one face before going on, or under the roof at the end.

    Attributes:
        face: Index of it; None for what is measured under the roof.
        ring: Its corners as indices of vertices, from the left corner of its eave on, seen from outside.
        stops: In the order in which one walks.
    """

    face: int | None
    ring: tuple[int, ...]
    stops: tuple[Stop, ...]


def walk(roof: Roof, spec: SurveySpec) -> tuple[Visit, ...]:
    """Return what to tape on a roof, each measure once.

    Of a face of more than four corners only the diagonals from both ends of its eave are taken: they fix its shape,
    and check each other.

    Args:
        roof: As the form has it.
        spec: How well it is going to be measured.
    """
    rings, known = outlines(roof), {one.name: one for one in measurable(roof)}
    asked: dict[int | None, list[Quantity]] = {}
    seen: set[str] = set()
    for face in _order(roof):
        own = [known[name] for name in _names(roof, face, rings[face], known) if name not in seen]
        seen.update(one.name for one in own)
        asked[face] = own
    if under := under_the_roof(roof):
        asked[None] = list(under)
    every = [one for own in asked.values() for one in own]
    twice = _twice(roof, every, spec)
    number = {one.name: k for k, one in enumerate(every)}
    return tuple(
        Visit(
            face,
            () if face is None else tuple(rings[face]),
            tuple(
                Stop(number[one.name] + 1, one, one.value(roof.vertices), twice[number[one.name]])
                for one in own
            ),
        )
        for face, own in asked.items()
    )


def _twice(roof: Roof, every: Sequence[Quantity], spec: SurveySpec) -> list[bool]:
    """Return which measures are to be read twice, for no other tells a mistake in them."""
    if len(every) > MANY:
        return [False] * len(every)
    read = np.array([one.value(roof.vertices) for one in every])
    fit = fitted(every, read, standard_errors(every, spec), assumed(roof))
    return [bool(one) for one in (fit.sure < CHECKED) | twins(fit.leaning).any(axis=1)]


def letters(visits: Sequence[Visit]) -> dict[int, str]:
    """Return a letter for each corner, in the order in which one comes by: A to Z, then AA and on."""
    corners = dict.fromkeys(corner for visit in visits for corner in visit.ring)
    one = string.ascii_uppercase
    names = [*one, *(a + b for a in one for b in one), *(a + b + c for a in one for b in one for c in one)]
    return dict(zip(corners, names, strict=False))


def _order(roof: Roof) -> list[int]:
    """Return the faces so that each is beside one before it where that can be; the first has the first edge."""
    beside = [set(edge.faces) for edge in roof.edges if len(edge.faces) == 2]
    left = [*dict.fromkeys(face for edge in roof.edges for face in edge.faces)]
    order = [left.pop(0)]
    while left:
        ahead = (
            face for last in reversed(order) for face in left if any({face, last} == pair for pair in beside)
        )
        face = next(ahead, left[0])
        left.remove(face)
        order.append(face)
    return order


def _names(roof: Roof, face: int, ring: Sequence[int], known: dict[str, Quantity]) -> list[str]:
    """Return what is measured on a face: round its edges, across its corners, its pitch."""
    between = {frozenset(edge.vertices): edge.name for edge in roof.edges}
    around = [between[frozenset(pair)] for pair in zip(ring, [*ring[1:], ring[0]], strict=True)]
    name = roof.faces[face].name
    across = [
        one.name
        for one in known.values()
        if one.kind == "diagonal" and one.name.startswith(f"{name} diagonal ")
        if len(ring) == 4 or one.corners[0] in ring[:2] or one.corners[1] in ring[:2]
    ]
    pitch = f"{name} pitch"
    return [*around, *across, *((pitch,) if pitch in known else ())]
