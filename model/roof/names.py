"""What a roofer calls the faces and edges of a roof: by the way they look, or by the side they belong to."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from ..geometry.arrays import Array
from ..tolerances import TAPE
from .record import Edge, Face

SIDES = ("back", "right", "front", "left")
"""Names by azimuth, a quarter turn each, clockwise from +y."""


class Names(Protocol):
    """What gives faces and edges their names; those that several share are numbered afterwards."""

    def face(self, index: int, face: Face) -> str:
        """Return the name of the face that is ``index`` in the list."""

    def edge(self, edge: Edge, faces: Sequence[Face]) -> str:
        """Return the name of an edge, from all that is known of it but its name."""

    def parted(self, outlines: Sequence[Array]) -> Names:
        """Return the same for faces of which the last one was a part of another."""


@dataclass(frozen=True, slots=True)
class ByLook:
    """Names by the way a face falls or an edge looks: ``front``, ``front eave``, ``right-end left rake``."""

    def face(self, index: int, face: Face) -> str:  # noqa: ARG002
        """Return the way a face falls."""
        return side_name(face.normal)

    def edge(self, edge: Edge, faces: Sequence[Face]) -> str:
        """Return where an edge is; an edge between two faces is named after them."""
        if edge.kind == "ridge":
            return "ridge"
        if edge.kind == "break":
            return f"{faces[edge.faces[1]].name.split(' ')[0]} break"
        if len(edge.faces) == 2:
            order = ("front", "back", "left", "right").index
            one, two = sorted((side_name(faces[face].normal) for face in edge.faces), key=order)
            return f"{one}-{two} {edge.kind}"
        if edge.kind == "eave":
            return f"{faces[edge.faces[0]].name} eave"
        if edge.kind == "high":
            return f"{side_name(edge.outward)} high edge"
        return f"{side_name(edge.outward)}-end {edge.hand} {edge.kind}"

    def parted(self, outlines: Sequence[Array]) -> ByLook:  # noqa: ARG002
        """Return the same names: they are given by look."""
        return self


@dataclass(frozen=True, slots=True, eq=False)
class BySide:
    """Names by the numbered sides of an outline: ``side 3``, ``eave 3``, ``left rake 2``, ``valley 3-4``.

    Attributes:
        faces: For each face the number of its side.
        starts: ``(n, 2) float, inches``; where each side of the deck begins.
        ends: ``(n, 2) float, inches``; where it ends.
        numbers: ``(n,)`` its number.
        porches: ``(4, 2) float, inches`` each: a porch in plan, from where it begins on the eave out and back to it.
    """

    faces: Sequence[int]
    starts: Array
    ends: Array
    numbers: Sequence[int]
    porches: Sequence[Array] = ()

    def face(self, index: int, face: Face) -> str:  # noqa: ARG002
        """Return the side that a face rises from."""
        return f"side {self.faces[index]}"

    def edge(self, edge: Edge, faces: Sequence[Face]) -> str:  # noqa: ARG002
        """Return the kind of edge and the side that it lies over, or the sides that it is between."""
        if len(edge.faces) == 2:
            one, two = sorted(self.faces[face] for face in edge.faces)
            return f"{edge.kind} {one}-{two}"
        middle = (edge.start + edge.end)[:2] / 2
        for number, plan in enumerate(self.porches, 1):
            if _reaches(plan, middle):
                return (
                    f"porch {number} {edge.kind}" if edge.hand is None else f"porch {number} {edge.hand} rake"
                )
        what = (
            f"{edge.hand} rake" if edge.kind == "rake" else "high edge" if edge.kind == "high" else edge.kind
        )
        return f"{what} {self._under(middle)}"

    def parted(self, outlines: Sequence[Array]) -> BySide:
        """Return names that give each part the least number of the sides that it rises from.

        Args:
            outlines: ``(n, 3) float, inches`` of each face; the last one was a part of another, from the one end of
                the neck between them round to the other.
        """
        new, kept = outlines[-1], list(self.faces)
        neck = new[[0, -1]]
        parent = next(
            k for k, other in enumerate(outlines) if (neck[:, None] == other).all(axis=2).any(axis=1).all()
        )
        kept[parent] = self._from(outlines[parent])
        return replace(self, faces=[*kept, self._from(new)])

    def _from(self, outline: Array) -> int:
        """Return the least number of the sides that a face rises from."""
        low = outline[:, 2] <= outline[:, 2].min() + TAPE
        middles = (outline + np.roll(outline, -1, axis=0))[low & np.roll(low, -1)] / 2
        return min(self._under(middle[:2]) for middle in middles)

    def _under(self, place: Array) -> int:
        """Return the number of the side nearest to a place in plan."""
        way = self.ends - self.starts
        share = ((place - self.starts) * way).sum(axis=1) / (way**2).sum(axis=1)
        nearest = self.starts + np.clip(share, 0.0, 1.0)[:, None] * way
        return self.numbers[int(np.linalg.norm(place - nearest, axis=1).argmin())]


def _reaches(plan: Array, place: Array) -> bool:
    """Return whether a place lies at the rim of a porch, past the eave that it is carried down from."""
    out, across = plan[1] - plan[0], plan[3] - plan[0]
    beyond = float((place - plan[0]) @ out / (out @ out))
    beside = float((place - plan[0]) @ across / (across @ across))
    return 1e-6 < beyond < 1 + 1e-6 and -1e-6 < beside < 1 + 1e-6


def side_name(toward: Array) -> str:
    """Return ``front``, ``back``, ``left`` or ``right`` for a direction in plan."""
    quarter = math.atan2(toward[0], toward[1]) / (math.pi / 2)
    return SIDES[round(quarter) % 4]


def numbered(names: Sequence[str]) -> list[str]:
    """Return the names, those that several share numbered in order."""
    times = Counter(names)
    seen: Counter[str] = Counter()
    unique = []
    for name in names:
        seen[name] += 1
        unique.append(f"{name} {seen[name]}" if times[name] > 1 else name)
    return unique
