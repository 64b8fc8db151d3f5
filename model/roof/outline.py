"""The roof over any outline: each side moved out by its overhang, and a slope over every side but the gables."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import GeometryError, Problem
from ..geometry.arrays import Array
from ..geometry.plane import Plane, falling
from ..geometry.ring import crossing, directions, moved_out, stretches
from ..message import Length, Listed, message
from ..scene.outline import OutlineSpec
from ..tolerances import TAPE
from .edges import roof_from_faces
from .names import BySide
from .porch import DeckSide, with_porches
from .record import Roof
from .skeleton.record import OpenRoof
from .skeleton.skeleton import SideFace, skeleton
from .walls import walls_under


@dataclass(frozen=True, slots=True, eq=False)
class _Plan:
    """An outline without corners at which it does not turn.

    Attributes:
        numbers: The number of each side, the least of those in one line; from 1, on through the rings.
        walls: ``(n, 2) float, inches`` each: the outside of the walls.
        deck: The same for the deck.
    """

    numbers: list[int]
    walls: list[Array]
    deck: list[Array]


def outline_roof(spec: OutlineSpec) -> Roof:
    """Return the roof over an outline.

    Raises:
        GeometryError: Sides that make no roof, or an eave in the ground; says which side and where.
    """
    plan = _plan(spec)
    speeds = [
        0.0 if spec.is_gable(number) else 1 / math.tan(spec.pitch_of(number)) for number in plan.numbers
    ]
    try:
        found = skeleton(plan.deck, np.array(speeds))
    except OpenRoof as error:
        raise GeometryError(_told(error, plan.numbers)) from None
    first = next(number for number in sorted(plan.numbers) if not spec.is_gable(number))
    eaves = spec.wall_height - spec.overhang_of(first) * math.tan(spec.pitch_of(first))
    steepest = max(spec.pitch_of(plan.numbers[face.sides[0]]) for face in found)
    under = eaves - spec.deck / math.cos(steepest)
    if under <= 0:
        told = message(
            "the eaves come out {depth} below the ground. "
            "Give more roof.wall_height, or less overhang or pitch at side {side}.",
            depth=Length(-under),
            side=first,
        )
        raise GeometryError(Problem(told, ("roof",)))
    up = np.array([0.0, 0.0, eaves])
    grown, porches = with_porches(spec, [face.outline for face in found], _sides(spec, plan), eaves)
    faces = [face + up for face in grown]
    holes = [tuple(hole + up for hole in face.holes) for face in found]
    starts = np.concatenate(plan.deck)
    names = BySide(
        faces=[plan.numbers[face.sides[0]] for face in found],
        starts=starts,
        ends=np.concatenate([np.roll(ring, -1, axis=0) for ring in plan.deck]),
        numbers=plan.numbers,
        porches=porches,
    )
    planes = _planes(spec, plan, found, eaves)
    walls = walls_under(plan.walls, faces, holes, [plane.moved(-spec.deck) for plane in planes])
    return roof_from_faces(faces, spec.deck, walls, holes=holes, names=names)


def _sides(spec: OutlineSpec, plan: _Plan) -> dict[int, DeckSide]:
    """Return the sides of the deck by number."""
    found = {}
    first = 0
    for walls, deck in zip(plan.walls, plan.deck, strict=True):
        count = len(deck)
        for k in range(count):
            beside = tuple(spec.is_gable(plan.numbers[first + (k + step) % count]) for step in (-1, 1))
            found[plan.numbers[first + k]] = DeckSide(
                walls[k], deck[k], deck[(k + 1) % count], (beside[0], beside[1])
            )
        first += count
    return found


def _plan(spec: OutlineSpec) -> _Plan:
    """Return the outline without corners at which it does not turn, and the deck's.

    Raises:
        GeometryError: Overhangs of walls that face each other meet, or eat a side up.
    """
    numbers: list[int] = []
    walls, deck = [], []
    first = 1
    for ring in spec.rings:
        groups = stretches(ring, TAPE)
        here = [min(group) + first for group in groups]
        corners = ring[[group[0] for group in groups]]
        out = moved_out(corners, np.array([spec.overhang_of(number) for number in here]))
        lost = (directions(corners) * (np.roll(out, -1, axis=0) - out)).sum(axis=1) <= 0
        if lost.any():
            told = message(
                "nothing is left of the deck's edge at side {side}. Give it, or the sides beside it, less overhang.",
                side=here[int(lost.argmax())],
            )
            raise GeometryError(Problem(told, ("roof", "overhang")))
        numbers += here
        walls.append(corners)
        deck.append(out)
        first += len(ring)
    crossed = crossing(deck)
    if crossed is not None:
        told = message(
            "overhangs of walls that face each other meet at ({x}, {y}). Give these sides less overhang.",
            x=Length(crossed[0]),
            y=Length(crossed[1]),
        )
        raise GeometryError(Problem(told, ("roof", "overhang")))
    return _Plan(numbers, walls, deck)


def _planes(spec: OutlineSpec, plan: _Plan, found: tuple[SideFace, ...], eaves: float) -> list[Plane]:
    """Return the top of the deck on each face, as a plane."""
    starts = np.concatenate(plan.deck)
    along = np.concatenate([directions(ring) for ring in plan.deck])
    outward = np.column_stack([along[:, 1], -along[:, 0]])
    return [
        falling(np.array([*starts[side], eaves]), outward[side], spec.pitch_of(plan.numbers[side]))
        for side in (face.sides[0] for face in found)
    ]


def _told(error: OpenRoof, numbers: list[int]) -> Problem:
    """Return what keeps sides from making a roof, and the way out."""
    sides = Listed(tuple(message("side {number}", number=numbers[side]) for side in error.sides))
    x, y = (Length(float(value)) for value in error.at)
    match error.why:
        case "jog":
            told = message(
                "{sides} come into one line at ({x}, {y}), with unequal pitches, and which of the two slopes goes on "
                "from there cannot be told. Give both one pitch, or move one of them.",
                sides=sides,
                x=x,
                y=y,
            )
            return Problem(told, ("roof", "sides"))
        case "open":
            told = message(
                "what lies between {sides} never closes near ({x}, {y}). "
                "Make a gable of them an eave, or give it eaves beside it that rise toward each other.",
                sides=sides,
                x=x,
                y=y,
            )
            return Problem(told, ("roof", "sides"))
        case _:
            told = message(
                "the slopes do not make up the plan near ({x}, {y}). "
                "Move a corner there by 1/16 in, or leave out sides that are too short to matter.",
                x=x,
                y=y,
            )
            return Problem(told, ("roof", "outline"))
