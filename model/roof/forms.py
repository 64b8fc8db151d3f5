"""Roof forms: each says only which planes shed the water, and over which plan; faces and walls follow.

The outer corner of the front wall with the left wall, at the ground, is the origin; the front slope falls
toward -y and the ridge of a gable or hip lies along x.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..geometry.plane import Plane, falling
from ..geometry.polygon import clip

FRONT, BACK, LEFT, RIGHT = np.array([[0.0, -1.0], [0.0, 1.0], [-1.0, 0.0], [1.0, 0.0]])


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """Planes over a rectangle; the lowest one at each point is the roof.

    Attributes:
        deck: ``(4, 2) float, inches``; plan of the deck, counter-clockwise from its front left corner.
        walls: The same for the outside of the walls.
        planes: The top of the deck on each slope.
    """

    deck: Array
    walls: Array
    planes: tuple[Plane, ...]


@dataclass(frozen=True, slots=True)
class Break:
    """Where the pitch of the slopes over the eave walls changes.

    Attributes:
        at: How far in from the outside of the eave walls, level, inches.
        pitch: Of the slopes from there up, radians.
    """

    at: float
    pitch: float


def broken(form: Form, change: Break) -> tuple[Form, ...]:
    """Return what a gable or a shed is made of whose pitch changes, from its front: each of its strips a form.

    Args:
        form: It as it would be without, its slopes falling to the front, and to the back if there are two.
        change: Where, and to which pitch, the same on both sides.
    """
    (left, front), (right, back) = form.deck[0], form.deck[2]
    far = float(form.walls[:, 1].max())
    lines = [change.at, far - change.at][: len(form.planes)]
    upper = [
        falling(plane.lift(np.array([[left, line]]))[0], way, change.pitch)
        for plane, line, way in zip(form.planes, lines, (FRONT, BACK), strict=False)
    ]
    stops = [front, *lines, back]
    planes = [(form.planes[0],), tuple(upper), *((plane,) for plane in form.planes[1:])]
    return tuple(
        Form(rectangle(left, low, right, high), form.walls, own)
        for low, high, own in zip(stops[:-1], stops[1:], planes, strict=True)
    )


def gable(
    length: float,
    width: float,
    pitches: tuple[float, float],
    wall_height: float,
    eave: float,
    rake: float,
    far_height: float | None = None,
) -> Form:
    """Return two slopes, with their eaves at one height unless the back wall has a height of its own.

    Args:
        length: Along the ridge over the walls, inches.
        width: From eave wall to eave wall, inches.
        pitches: Slopes of front and back, radians; unequal ones put the ridge off center.
        wall_height: Top outer corner of the front wall, which the front slope passes through, inches.
        eave: Overhang at the eaves, level, inches.
        rake: Overhang at both ends, level, inches.
        far_height: Top outer corner of the back wall, which the back slope passes through, inches.
    """
    deck = rectangle(-rake, -eave, length + rake, width + eave)
    low = wall_height - eave * math.tan(pitches[0])
    far_low = low if far_height is None else far_height - eave * math.tan(pitches[1])
    planes = (
        falling(np.array([0, -eave, low]), FRONT, pitches[0]),
        falling(np.array([0, width + eave, far_low]), BACK, pitches[1]),
    )
    return Form(deck, rectangle(0, 0, length, width), planes)


def hip(length: float, width: float, pitches: tuple[float, float], wall_height: float, eave: float) -> Form:
    """Return four slopes with all eaves at one height and one overhang.

    Args:
        length: Left wall to right wall, inches.
        width: Front wall to back wall, inches.
        pitches: Slopes of front and back, and of the two ends, radians.
        wall_height: Top outer corner of the front wall, which the front slope passes through, inches.
        eave: Overhang all round, level, inches.
    """
    deck = rectangle(-eave, -eave, length + eave, width + eave)
    low = wall_height - eave * math.tan(pitches[0])
    near = np.array([-eave, -eave, low])
    far = np.array([length + eave, width + eave, low])
    planes = (
        falling(near, FRONT, pitches[0]),
        falling(far, RIGHT, pitches[1]),
        falling(far, BACK, pitches[0]),
        falling(near, LEFT, pitches[1]),
    )
    return Form(deck, rectangle(0, 0, length, width), planes)


def shed(
    length: float, width: float, pitch: float, wall_height: float, eave: float, rake: float, high: float
) -> Form:
    """Return one slope that falls to the front.

    Args:
        length: Along the eave over the walls, inches.
        width: Low wall to high wall, inches.
        pitch: Slope, radians.
        wall_height: Top outer corner of the low wall, which the slope passes through, inches.
        eave: Overhang at the low side, level, inches.
        rake: Overhang at both ends, level, inches.
        high: Overhang at the high side, level, inches.
    """
    deck = rectangle(-rake, -eave, length + rake, width + high)
    planes = (falling(np.array([0, 0, wall_height]), FRONT, pitch),)
    return Form(deck, rectangle(0, 0, length, width), planes)


def rectangle(left: float, front: float, right: float, back: float) -> Array:
    """Return ``(4, 2)`` corners, counter-clockwise from the front left one."""
    return np.array([[left, front], [right, front], [right, back], [left, back]], dtype=float)


def faces(form: Form) -> tuple[Array, ...]:
    """Return what each plane covers: outlines ``(n, 3)``, counter-clockwise seen from above."""
    outlines = []
    for plane in form.planes:
        outline = plane.lift(form.deck)
        for other in form.planes:
            if other is not plane:
                outline = clip(outline, other.normal, other.offset)
        outlines.append(outline)
    return tuple(outlines)


def walls(form: Form, deck: float) -> tuple[Array, ...]:
    """Return walls, ground to underside of the deck: ``(n, 3)``, counter-clockwise from outside."""
    under = [plane.moved(-deck) for plane in form.planes]
    top = max(float(plane.lift(form.walls)[:, 2].max()) for plane in under)
    polygons = []
    for start, end in zip(form.walls, np.roll(form.walls, -1, axis=0), strict=True):
        wall = np.array([[*start, 0], [*end, 0], [*end, top], [*start, top]])
        for plane in under:
            wall = clip(wall, plane.normal, plane.offset)
        polygons.append(wall)
    return tuple(polygons)
