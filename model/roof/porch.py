"""Porches: a slope carried down past its eave, over a part of its side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ..errors import GeometryError, Problem
from ..geometry.arrays import Array
from ..message import Length, message
from ..scene.outline import SHORTEST_SIDE, OutlineSpec, PorchSpec
from ..tolerances import POINT, TAPE


@dataclass(frozen=True, slots=True, eq=False)
class DeckSide:
    """One side of the deck of an outline.

    Attributes:
        wall: ``(2,) float, inches``; where the side of the walls begins.
        start: ``(2,) float, inches``; where the deck's begins.
        end: Where it ends.
        open: Whether the side before it and the one after it are gables, so that a porch may reach to their rakes.
    """

    wall: Array
    start: Array
    end: Array
    open: tuple[bool, bool]


def with_porches(
    spec: OutlineSpec, faces: Sequence[Array], sides: dict[int, DeckSide], eaves: float
) -> tuple[list[Array], list[Array]]:
    """Return the faces with the porches that are carried down from them, and each porch in plan, ``(4, 2)`` inches.

    Args:
        spec: The roof.
        faces: Outlines ``(n, 3) float, inches``; heights from the eaves.
        sides: The sides of the deck by number.
        eaves: How high these are, inches.

    Raises:
        GeometryError: A porch that its side has no room for, that runs into the house or ends in the ground.
    """
    grown = list(faces)
    plans: list[Array] = []
    deck = shapely.union_all([shapely.Polygon(face[:, :2]) for face in faces])
    for number, porch in enumerate(spec.porch):
        key = ("roof", "porch", number)
        side = sides[porch.side]
        out = _outward(side)
        first, last = _reach(side, porch, number)
        drop = porch.depth * math.tan(spec.pitch_of(porch.side))
        low = eaves - drop - spec.deck / math.cos(spec.pitch_of(porch.side))
        if low <= 0:
            told = message(
                "the porch comes out {depth} below the ground; give it less depth, or more roof.wall_height",
                depth=Length(-low),
            )
            raise GeometryError(Problem(told, (*key, "depth")))
        plan = np.array([first, first + out * porch.depth, last + out * porch.depth, last])
        covered = shapely.Polygon(plan)
        others = shapely.union_all([deck, *(shapely.Polygon(other) for other in plans)])
        if covered.intersection(others).area > POINT * porch.depth:
            told = message("the porch runs into another part of the roof; move it, or give it less depth")
            raise GeometryError(Problem(told, key))
        plans.append(plan)
        ring = np.column_stack([plan, [0.0, -drop, -drop, 0.0]])
        index = next(k for k, face in enumerate(grown) if _edge_of(face, side) is not None)
        at = _edge_of(grown[index], side)
        assert at is not None
        grown[index] = _without_doubles(np.insert(grown[index], at + 1, ring, axis=0))
    return grown, plans


def _outward(side: DeckSide) -> Array:
    along = (side.end - side.start) / np.linalg.norm(side.end - side.start)
    return np.array([along[1], -along[0]])


def _reach(side: DeckSide, porch: PorchSpec, number: int) -> tuple[Array, Array]:
    """Return where a porch begins and ends on the eave, ``(2,)`` each: at a gable it may go on under the rake.

    Raises:
        GeometryError: The side is no longer there, or leaves less eave beside it than trim needs.
    """
    way = side.end - side.start
    long = float(np.linalg.norm(way))
    along = way / long
    before = float((side.wall - side.start) @ along)
    first, last = before + porch.begins, before + porch.ends
    least, most = SHORTEST_SIDE, long - SHORTEST_SIDE
    if side.open[0] and first - before <= TAPE:
        first = least = 0.0
    if side.open[1] and last >= long - before - TAPE:
        last = most = long
    key, room = ("roof", "porch", number), Length(SHORTEST_SIDE)
    if first < least:
        told = message(
            "there is less than {room} of eave before the porch; begin it at {first} or farther along",
            room=room,
            first=Length(least - before),
        )
        raise GeometryError(Problem(told, (*key, "from")))
    if last > most:
        told = message(
            "there is less than {room} of eave beyond the porch; end it at {last} or sooner",
            room=room,
            last=Length(most - before),
        )
        raise GeometryError(Problem(told, (*key, "to")))
    return side.start + first * along, side.start + last * along


def _edge_of(face: Array, side: DeckSide) -> int | None:
    """Return after which corner of a face the rest of a side's eave begins that reaches to its end; None for another.

    Of an eave that has a porch already, that is the part beyond it, so porches are given in their order along a side.
    """
    for k, corner in enumerate(face):
        following = face[(k + 1) % len(face)]
        on_eave = abs(corner[2]) < POINT and abs(following[2]) < POINT
        if on_eave and np.linalg.norm(following[:2] - side.end) < TAPE and _in_line(corner[:2], side):
            return k
    return None


def _in_line(place: Array, side: DeckSide) -> bool:
    return abs(float((place - side.start) @ _outward(side))) < TAPE


def _without_doubles(ring: Array) -> Array:
    """Return a ring without corners that are the same as the one before."""
    return np.asarray(ring[np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) > POINT])
