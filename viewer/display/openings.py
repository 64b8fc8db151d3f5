"""Windows and doors: those that a scene places, or those that a house of its size would have."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Roof
from trimwright.model.scene.house import HouseSpec, OpeningSpec

HEAD = 84.0
"""From the ground to the upper edge of windows and doors that nobody placed, inches: common practice, no source."""

APART = 108.0
"""About how far their middles stand apart, inches."""

MARGIN = 30.0
"""How far the middle of one stays from the ends of its wall at least, inches."""

BESIDE = 12.0
"""Room between two openings at least, inches."""

ROOM = 6.0
"""How far it stays below the top of its wall, inches."""

LOWEST = 66.0
"""No window or door is put into a wall lower than this, inches."""

WINDOW, DOOR = (34.0, 46.0), (38.0, 80.0)
"""Width and height of those that nobody placed, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class WallFrame:
    """A wall laid flat: along from its left end seen from outside, and up from the ground, inches.

    Attributes:
        outline: ``(n, 2)``: its corners.
        start: ``(3,)``: its left end on the ground.
        along: ``(3,)`` level unit vector along it.
        out: ``(3,)`` level unit vector out of it.
    """

    outline: Array
    start: Array
    along: Array
    out: Array

    @property
    def length(self) -> float:
        """Inches."""
        return float(self.outline[:, 0].max())

    def top_at(self, x: float) -> float:
        """Return how high the wall is at ``x``, inches: the highest of its outline there."""
        heights = [
            float(a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]))
            for a, b in zip(self.outline, np.roll(self.outline, -1, axis=0), strict=True)
            if min(a[0], b[0]) <= x <= max(a[0], b[0]) and abs(b[0] - a[0]) > 1e-6
        ]
        return max(heights, default=0.0)

    def lift(self, flat: Array, off: float = 0.0) -> Array:
        """Return ``(n, 2)`` points as ``(n, 3)``, ``off`` inches out of the wall."""
        up = np.array([0.0, 0.0, 1.0])
        return np.asarray(self.start + flat[:, :1] * self.along + flat[:, 1:] * up + off * self.out)


def frames_of(roof: Roof) -> tuple[WallFrame, ...]:
    """Return the walls that stand on level ground, each laid flat."""
    ground = min((float(wall[:, 2].min()) for wall in roof.walls), default=0.0)
    return tuple(frame for wall in roof.walls if (frame := _frame(wall, ground)) is not None)


def _frame(wall: Array, ground: float) -> WallFrame | None:
    """Return a plumb wall laid flat; None for one that has no foot on the ground."""
    feet = np.flatnonzero(wall[:, 2] < ground + 0.5)
    if len(feet) < 2:
        return None
    normal = np.cross(wall, np.roll(wall, -1, axis=0)).sum(axis=0) * [1.0, 1.0, 0.0]
    size = float(np.linalg.norm(normal))
    if size < 1.0:
        return None
    out = normal / size
    along = np.array([-out[1], out[0], 0.0])
    reach = wall @ along
    start = wall[int(reach.argmin())] * [1.0, 1.0, 0.0] + [0.0, 0.0, ground]
    outline = np.column_stack([(wall - start) @ along, wall[:, 2] - ground])
    return WallFrame(outline, start, along, out)


@dataclass(frozen=True, slots=True)
class Opening:
    """A window or a door in a wall: its box, inches from the wall's left end and from the ground."""

    door: bool
    left: float
    low: float
    right: float
    high: float


def openings_of(frames: Sequence[WallFrame], spec: HouseSpec) -> list[tuple[Opening, ...]]:
    """Return the windows and doors of each wall; the longest wall at the front has the door."""
    fronts = [frame for frame in frames if side_of(frame) == "front"]
    front = max(fronts, key=lambda frame: frame.length, default=None)
    return [tuple(openings_in(frame, spec, frame is front)) for frame in frames]


def openings_in(frame: WallFrame, spec: HouseSpec, front: bool) -> Iterator[Opening]:
    """Yield the windows and doors of a wall; those that would reach out of it are left away.

    Args:
        frame: The wall.
        spec: What the scene says.
        front: It is the wall that has the door where no other has one.
    """
    own = [_placed(one, spec.foundation) for one in spec.opening if one.wall == side_of(frame)]
    given = {one.kind for one in spec.opening}
    usual = _usual(frame, spec.foundation, front and "door" not in given)
    found = (
        [one for one in usual if one.door or "window" not in given] if spec.openings == "automatic" else []
    )
    for one in (*own, *(one for one in found if not _near(one, own))):
        tops = [frame.top_at(one.left), frame.top_at(one.right)]
        if one.left > 4 and one.right < frame.length - 4 and one.high + ROOM <= min(tops):
            yield one


def side_of(frame: WallFrame) -> str:
    """Return the side of the house that a wall is on: the one that it faces most."""
    x, y = frame.out[:2]
    if abs(y) >= abs(x):
        return "front" if y < 0 else "back"
    return "left" if x < 0 else "right"


def _placed(spec: OpeningSpec, foundation: float) -> Opening:
    door = spec.kind == "door"
    low = foundation if door else HEAD + foundation - spec.height if spec.sill is None else spec.sill
    return Opening(door, spec.at - spec.width / 2, low, spec.at + spec.width / 2, low + spec.height)


def _near(one: Opening, others: Sequence[Opening]) -> bool:
    """Return whether an opening is so near to others that the boards round them would touch."""
    return any(one.left < other.right + BESIDE and other.left < one.right + BESIDE for other in others)


def _usual(frame: WallFrame, foundation: float, front: bool) -> Iterator[Opening]:
    """Yield openings a few paces apart, the middle one of the front a door; none in a wall that is low all over."""
    count = math.floor((frame.length - 2 * MARGIN) / APART) + 1
    if frame.length < 2 * MARGIN or float(frame.outline[:, 1].max()) < LOWEST:
        return
    if front and count % 2 == 0:
        count += 1 if (frame.length - 2 * MARGIN) / count > 62 else -1
    step = (frame.length - 2 * MARGIN) / count
    for number in range(count):
        x = MARGIN + step * (number + 0.5)
        door = front and number == count // 2
        wide, tall = DOOR if door else WINDOW
        low = foundation if door else max(HEAD + foundation - tall - 4, foundation + 12)
        yield Opening(door, x - wide / 2, low, x + wide / 2, low + tall)
