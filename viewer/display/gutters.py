"""Gutters: where they hang, and where their downspouts stand. For pictures and offers; no trim depends on them.

Sizes and rules are common practice, no source; how much water a roof sheds, and what carries it off, is for the local
code and the gutter's maker.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge, Roof
from trimwright.model.scene.house import HouseSpec

from .eaves import level_out, wall_under
from .openings import Opening, openings_of
from .wall_frames import WallFrame, frames_of

WIDE, DEEP = 5.0, 4.0
"""Of a gutter, inches."""

FEEDS = 40 * 12.0
"""The longest gutter that one downspout empties, inches; a longer one has one at each end."""

SHORT = 6 * 12.0
"""A gutter no longer than this that goes on round a corner has none of its own, inches."""

PIPE = 3.0
"""Width of a downspout, inches."""

FROM_END, STEP, CLEAR = 8.0, 6.0, 9.0
"""How far a downspout's middle stands from the end of its wall, by how much it moves on where an opening is in its way,
and how far it stays from one, inches."""

OFF_WALL = 1.4
"""How far its back stands out of the wall, over siding and corner boards, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Gutter:
    """A straight gutter under one eave.

    Attributes:
        edge: The eave.
        before: The eave that it goes on to, mitered, at the edge's start; None where it is closed.
        after: The same at the edge's end.
        out: ``(3,)`` level unit vector away from the roof.
        rim: How far its rim hangs below the deck's edge, inches.
    """

    edge: Edge
    before: Edge | None
    after: Edge | None
    out: Array
    rim: float


@dataclass(frozen=True, slots=True, eq=False)
class Downspout:
    """A downspout, from the gutter's floor back to the wall, down it, and out at the foot.

    Attributes:
        path: ``(n, 3) float, inches, scene frame``: its middle line.
        along: ``(3,)`` level unit vector along its gutter.
    """

    path: Array
    along: Array

    @property
    def length(self) -> float:
        """Inches."""
        return float(np.linalg.norm(np.diff(self.path, axis=0), axis=1).sum())


def gutters_of(roof: Roof, spec: HouseSpec) -> tuple[Gutter, ...]:
    """Return a gutter for each level eave, where a house has gutters."""
    if spec.gutters == "none":
        return ()
    eaves = [edge for edge in roof.edges if edge.kind == "eave" and edge.slope < 1e-3]
    gutters = []
    for edge in eaves:
        before, after = (_next(edge, vertex, eaves) for vertex in edge.vertices)
        fall = math.tan(roof.faces[edge.faces[0]].slope)
        gutters.append(Gutter(edge, before, after, level_out(edge), max(1.0, WIDE * fall + 0.25)))
    return tuple(gutters)


def downspouts_of(roof: Roof, spec: HouseSpec) -> tuple[Downspout, ...]:
    """Return the downspouts of a house with gutters: near the ends of its walls, beside no door or window."""
    frames = frames_of(roof)
    openings = dict(zip(map(id, frames), openings_of(roof, frames, spec), strict=True))
    ground = min((float(wall[:, 2].min()) for wall in roof.walls), default=0.0)
    return tuple(
        _downspout(gutter, at, frames, openings, ground)
        for gutter in gutters_of(roof, spec)
        for at in _outlets(gutter)
    )


def _next(edge: Edge, vertex: int, eaves: Sequence[Edge]) -> Edge | None:
    """Return the eave that goes on where one ends."""
    return next((one for one in eaves if one is not edge and vertex in one.vertices), None)


def _outlets(gutter: Gutter) -> Iterator[float]:
    """Yield where water leaves a gutter: inches along its edge."""
    length = gutter.edge.length
    if length <= SHORT and (gutter.before or gutter.after):
        return
    yield length
    if length > FEEDS:
        yield 0.0


def _downspout(
    gutter: Gutter,
    at: float,
    frames: Sequence[WallFrame],
    openings: dict[int, tuple[Opening, ...]],
    ground: float,
) -> Downspout:
    """Return the downspout of an outlet near one end of a gutter."""
    edge, along, out = gutter.edge, gutter.edge.direction, gutter.out
    floor = float(edge.start[2]) - gutter.rim - DEEP
    wall = wall_under(edge, at, frames)
    if wall is None:
        inward = 1.0 if at == 0 else -1.0
        place = edge.start + (at + inward * min(FROM_END, edge.length / 2)) * along
        back = 0.0
    else:
        x = _free(wall, at, gutter, openings[id(wall)])
        place = edge.start + float((wall.start + x * wall.along - edge.start) @ along) * along
        back = float((wall.start - edge.start) @ out) + OFF_WALL + PIPE / 2
    top = WIDE / 2 - 0.4
    drop = max(3.0, 0.6 * abs(top - back))
    ways = [(top, floor + 0.5), (top, floor - 2.0)]
    if top - back > 1.0:
        ways.append((back, floor - 2.0 - drop))
    ways += [(ways[-1][0], ground + 7.0), (ways[-1][0] + 9.0, ground + 2.5)]
    path = [place + far * out + [0.0, 0.0, height - place[2]] for far, height in ways]
    return Downspout(np.array(path), along)


def _free(wall: WallFrame, at: float, gutter: Gutter, openings: Sequence[Opening]) -> float:
    """Return the place along a wall, from the end that an outlet is nearer to, where no opening is in the way."""
    end = float((gutter.edge.start + at * gutter.edge.direction - wall.start) @ wall.along)
    left = end < wall.length / 2
    for number in range(math.floor(max(wall.length - 2 * FROM_END, 0.0) / STEP) + 1):
        off = FROM_END + number * STEP
        x = off if left else wall.length - off
        if all(not one.left - CLEAR < x < one.right + CLEAR for one in openings):
            return x
    return FROM_END if left else wall.length - FROM_END
