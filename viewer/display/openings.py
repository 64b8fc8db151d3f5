"""Windows and doors: those that a scene places, or those that a house of its size would have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor

from trimwright.model.roof.record import Roof
from trimwright.model.scene.house import HouseSpec, OpeningSpec

from .eaves import line_under
from .wall_frames import WallFrame, side_of

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

SMALLEST = (24.0, 76.0)
"""How low a window and a door become at the least, so that an eave before them leaves their heads in sight, inches."""

CASING, HEAD_BOARD = 4.5, 5.25
"""Width of the boards beside an opening, and height of the one over it, inches."""

SILL = 12.0
"""How far above the foundation a window that was moved down begins at the lowest, inches."""


@dataclass(frozen=True, slots=True)
class Opening:
    """A window or a door in a wall: its box, inches from the wall's left end and from the ground."""

    door: bool
    left: float
    low: float
    right: float
    high: float


LEFT_TO_RIGHT = {"front": (1, 0), "right": (0, 1), "back": (-1, 0), "left": (0, -1)}
"""Which way, in plan, each side of the house goes to the right, seen from outside."""


def openings_of(roof: Roof, frames: Sequence[WallFrame], spec: HouseSpec) -> list[tuple[Opening, ...]]:
    """Return the windows and doors of each wall; those that would reach out of it are left away.

    Where the scene has no door of its own, the longest wall at the front gets one; a wall without a window of its own
    gets windows.
    """
    own: list[list[OpeningSpec]] = [[] for _ in frames]
    for one in spec.opening:
        for number, at in _wall_of(one, frames):
            own[number].append(one.model_copy(update={"at": at}))
    fronts = [frame for frame in frames if side_of(frame) == "front"]
    front = max(fronts, key=lambda frame: frame.length, default=None)
    door = all(one.kind != "door" for one in spec.opening)
    return [
        tuple(_openings_in(frame, some, spec, door and frame is front, line_under(frame, roof)))
        for frame, some in zip(frames, own, strict=True)
    ]


def _wall_of(spec: OpeningSpec, frames: Sequence[WallFrame]) -> list[tuple[int, float]]:
    """Return the number of the wall that an opening is in, and how far from its left end; nothing where no wall is.

    A side of the house has several walls where a wing stands out; they are measured from the left end of all of them,
    and the foremost counts.
    """
    way = LEFT_TO_RIGHT[spec.wall]
    walls = [(k, frame) for k, frame in enumerate(frames) if side_of(frame) == spec.wall]
    lefts = {k: float(frame.start[:2] @ way) for k, frame in walls}
    at = spec.at + min(lefts.values(), default=0.0)
    under = [(k, (at - lefts[k]) / float(frame.along[:2] @ way)) for k, frame in walls]
    met = [(k, x) for k, x in under if 0.0 <= x <= frames[k].length]
    out = (way[1], -way[0])
    return sorted(met, key=lambda one: -float(frames[one[0]].start[:2] @ out))[:1]


def _openings_in(
    frame: WallFrame, own: Sequence[OpeningSpec], spec: HouseSpec, door: bool, line: float
) -> Iterator[Opening]:
    """Yield the windows and doors of a wall.

    Args:
        frame: The wall.
        own: Those that the scene places in it, measured from its left end.
        spec: What the scene says.
        door: It is the wall that gets a door.
        line: How high of the wall is seen under its eaves, inches from the ground; what has no sill of its own, and
            the board over it, stays below.
    """
    placed = [_placed(one, spec.foundation, line) for one in own]
    windows = all(one.door for one in placed)
    usual = [_under(one, spec.foundation, line) for one in _usual(frame, spec.foundation, door)]
    found = [one for one in usual if one.door or windows] if spec.openings == "automatic" else []
    for one in (*placed, *(one for one in found if not _near(one, placed))):
        tops = [frame.top_at(one.left), frame.top_at(one.right)]
        if one.left > 4 and one.right < frame.length - 4 and one.high + ROOM <= min(tops):
            yield one


def _placed(spec: OpeningSpec, foundation: float, line: float) -> Opening:
    """Return an opening of the scene in its own size; a window without a sill is moved down under the eaves."""
    door, low = spec.kind == "door", spec.sill
    if low is None:
        low = foundation if door else _down(HEAD + foundation - spec.height, spec.height, foundation, line)
    return Opening(door, spec.at - spec.width / 2, low, spec.at + spec.width / 2, low + spec.height)


def _under(one: Opening, foundation: float, line: float) -> Opening:
    """Return an opening moved down, and then made lower, until it and the board over it are seen under the eaves."""
    tall, least = one.high - one.low, SMALLEST[one.door]
    low = one.low if one.door else _down(one.low, tall, foundation, line)
    return replace(one, low=low, high=min(low + tall, max(line - HEAD_BOARD, low + least)))


def _down(low: float, tall: float, foundation: float, line: float) -> float:
    """Return where a window begins that is moved down as far as the eaves ask for, but not onto the foundation."""
    return min(low, max(line - HEAD_BOARD - tall, foundation + SILL))


def _near(one: Opening, others: Sequence[Opening]) -> bool:
    """Return whether an opening is so near to others that the boards round them would touch."""
    return any(one.left < other.right + BESIDE and other.left < one.right + BESIDE for other in others)


def _usual(frame: WallFrame, foundation: float, front: bool) -> Iterator[Opening]:
    """Yield openings a few paces apart, the middle one of the front a door; none in a wall that is low all over."""
    count = floor((frame.length - 2 * MARGIN) / APART) + 1
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
