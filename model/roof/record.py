"""A roof: planar faces of deck and the edges between them. Everything later is derived from these alone."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from ..edge_kinds import EdgeKind
from ..geometry.arrays import Array
from ..message import Message
from ..tolerances import LEVEL
from .name_words import name_words

Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """One plane of deck, out to the edges of its overhangs.

    Attributes:
        name: ``front``, ``back``, ``left`` or ``right`` by the way it falls, numbered when several share one; over
            an outline the side it rises from, ``side 3``.
        outline: ``(n, 3) float, inches, scene frame``; counter-clockwise seen from above; the deck's top.
        holes: ``(n, 3) float, inches`` each, clockwise seen from above; what is left out of the outline.
        normal: ``(3,)`` unit vector, upward.
        area: True area in the plane, square inches, without the holes.
        slope: Angle from level, radians.
        azimuth: Direction of the fall in plan, radians clockwise from +y.
    """

    name: str
    outline: Array
    holes: tuple[Array, ...]
    normal: Array
    area: float
    slope: float
    azimuth: float

    @property
    def words(self) -> Message | str:
        """What it is called in words."""
        return name_words(self.name)


@dataclass(frozen=True, eq=False)
class Edge:
    """One straight edge of the roof, directed as trim runs along it.

    The direction is from the low end to the high end; a level edge of one face goes counter-clockwise round
    the roof seen from above, a level break so that its upper face is on the left; a level ridge goes toward +x (or +y
    when it runs along y).

    Attributes:
        name: What a roofer calls it: ``front eave``, ``right-end left rake``, ``ridge``, ``front-left hip``; over
            an outline by its sides, ``eave 3``, ``left rake 2``, ``valley 3-4``.
        kind: Found from the geometry alone.
        faces: Indices of its faces; of two, the one left of the direction comes first, of a break the upper one.
        start: ``(3,) float, inches, scene frame``.
        end: The same, at the high end.
        vertices: Indices of start and end among the roof's vertices.
        outward: ``(3,)`` unit vector. One face: in its plane, square to the edge, away from the face.
            Two faces: level, square to the edge, from the first face toward the second.
        hand: Of a rake, as seen from outside looking at the edge; else None.
        dihedral: Inner angle between its two faces, radians; of one face, pi.
        slope: Angle from level, radians.
    """

    name: str
    kind: EdgeKind
    faces: tuple[int, ...]
    start: Array
    end: Array
    vertices: tuple[int, int]
    outward: Array
    hand: Hand | None
    dihedral: float
    slope: float

    @property
    def words(self) -> Message | str:
        """What it is called in words."""
        return name_words(self.name)

    @property
    def is_neck(self) -> bool:
        """Whether it only parts a slope that is all but cut off there: its faces lie in one plane."""
        return len(self.faces) == 2 and abs(self.dihedral - math.pi) < LEVEL

    @cached_property
    def length(self) -> float:
        """True length, inches."""
        return float(np.linalg.norm(self.end - self.start))

    @cached_property
    def direction(self) -> Array:
        """``(3,)`` unit vector from start to end, read-only."""
        along = np.asarray((self.end - self.start) / self.length)
        along.flags.writeable = False
        return along


@dataclass(frozen=True, slots=True, eq=False)
class Roof:
    """Faces and edges of a deck, and the walls under it.

    Attributes:
        faces: The planes.
        edges: The edges, in the order their trim is set, round the roof from the front.
        vertices: ``(n, 3) float, inches, scene frame``; the corners where edges meet.
        deck: Thickness of the deck, inches.
        walls: Polygons, each ``(n, 3) float, inches, scene frame``, seen counter-clockwise from outside.
    """

    faces: tuple[Face, ...]
    edges: tuple[Edge, ...]
    vertices: Array
    deck: float
    walls: tuple[Array, ...]
