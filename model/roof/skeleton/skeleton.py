"""The weighted straight skeleton of an outline: what each side's slope covers, once all sides have risen.

Every side moves in, level, as the roof rises: by 1 / pitch for each inch, and not at all under a gable. A
side's face is what it sweeps; hips, valleys and ridges are what the corners draw. All that happens at one height
is worked out together, so that roofs of which much comes together at once (a T, a plus, an H) are no special case.

Source: O. Aichholzer, F. Aurenhammer, D. Alberts, B. Gärtner, *A novel type of skeleton for polygons* (1995);
weights: T. Biedl, M. Held, S. Huber, D. Kaaser, P. Palfrader, *Weighted straight skeletons in the plane*
(2015), which also shows that parallel sides of unequal weight are ambiguous. From memory.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ...geometry.arrays import Array
from ...geometry.ring import turned_area
from .front import carry_on, corner_at, first_clockwise, loops, next_change
from .record import OpenRoof, PlanCorner, Sides, Trace

EXACT = 1e-9
"""How far the faces' areas may be from the plan's, as a share of it."""


@dataclass(frozen=True, slots=True, eq=False)
class SideFace:
    """What one side's slope covers.

    Attributes:
        sides: The sides whose face this is, the least first; more than one where they lie in one plane.
        outline: ``(n, 3) float, inches``: plan, and height over the eaves; counter-clockwise from above.
        holes: The same for what is left out of it, clockwise: a courtyard that a gentle slope goes round.
    """

    sides: tuple[int, ...]
    outline: Array
    holes: tuple[Array, ...]


def skeleton(rings: Sequence[Array], speeds: Array) -> tuple[SideFace, ...]:
    """Return the face of every side that rises, in the order of the sides.

    Args:
        rings: The outline, ``(n, 2) float, inches``, counter-clockwise, and its holes, clockwise. No two
            neighboring sides in one line; rings do not touch.
        speeds: ``(n,)`` for each side, numbered on through the rings: 1 / pitch, or 0 for a gable.

    Raises:
        OpenRoof: Sides that make no roof.
    """
    middle = rings[0].mean(axis=0)
    rings = [ring - middle for ring in rings]
    try:
        faces = _faces(rings, speeds)
    except OpenRoof as error:
        raise OpenRoof(error.why, error.sides, error.at + middle) from None
    back = np.array([*middle, 0.0])
    return tuple(
        SideFace(face.sides, face.outline + back, tuple(hole + back for hole in face.holes)) for face in faces
    )


def _faces(rings: Sequence[Array], speeds: Array) -> list[SideFace]:
    """Return the faces over rings that lie about the origin."""
    sides = sides_of(rings, speeds)
    trace = _risen(rings, sides)
    found = []
    for face in sorted({trace.face(side) for side in range(len(speeds))}):
        members = tuple(side for side in range(len(speeds)) if trace.face(side) == face)
        if sides.speeds[face] > 0:
            outline, *holes = _rings(trace, face, members)
            found.append(SideFace(members, outline, tuple(holes)))
    _check(rings, sides, found)
    return found


def sides_of(rings: Sequence[Array], speeds: Array) -> Sides:
    """Return the lines of the sides of rings with the roof on their left."""
    starts = np.concatenate(list(rings))
    ways = np.concatenate([np.roll(ring, -1, axis=0) - ring for ring in rings])
    ways = ways / np.linalg.norm(ways, axis=1)[:, None]
    normals = np.column_stack([-ways[:, 1], ways[:, 0]])
    return Sides(normals, (starts * normals).sum(axis=1), np.asarray(speeds, dtype=float))


def _risen(rings: Sequence[Array], sides: Sides) -> Trace:
    """Return all arcs, once nothing of the front is left.

    Raises:
        OpenRoof: Part of it never closes.
    """
    trace = Trace(same=list(range(len(sides.speeds))))
    front: list[PlanCorner] = []
    for ring in rings:
        first = len(front)
        for k, place in enumerate(ring):
            before, after = first + (k - 1) % len(ring), first + k
            front.append(corner_at(sides, before, after, trace.node(place, 0.0), place, 0.0))
        nodes = range(first, first + len(ring))
        trace.arcs += [(node, nodes[(k + 1) % len(ring)], first + k) for k, node in enumerate(nodes)]
    following, height = loops(len(ring) for ring in rings), 0.0
    for _ in range(10 * len(front) + 10):
        height = next_change(sides, front, following, height)
        if not math.isfinite(height):
            break
        front, following = carry_on(sides, front, following, height, trace)
        if not front:
            return trace
    left = tuple(sorted({corner.after for corner in front}))
    raise OpenRoof("open", left, np.mean([corner.place for corner in front], axis=0))


def _rings(trace: Trace, face: int, members: tuple[int, ...]) -> list[Array]:
    """Return the rings that the arcs of a face make, the outer one first.

    Raises:
        OpenRoof: They make no rings, or not one that goes round the others.
    """
    leaving: dict[int, list[int]] = defaultdict(list)
    for start, end, side in trace.arcs:
        if trace.face(side) == face:
            leaving[start].append(end)
    rings = []
    for start in list(leaving):
        while leaving[start]:
            rings.append(_ring(trace, leaving, start, members))
    outer = [ring for ring in rings if turned_area(ring[:, :2]) > 0]
    if len(outer) != 1:
        raise OpenRoof("check", members, trace.nodes[trace.arcs[0][0]][:2])
    return [*outer, *(ring for ring in rings if ring is not outer[0])]


def _ring(trace: Trace, leaving: dict[int, list[int]], start: int, members: tuple[int, ...]) -> Array:
    """Return one ring, and take its arcs out of ``leaving``."""
    here = leaving[start].pop()
    ring = [start]
    while here != start:
        if not leaving[here]:
            raise OpenRoof("check", members, trace.nodes[start][:2])
        ways = np.array([trace.nodes[end][:2] - trace.nodes[here][:2] for end in leaving[here]])
        back = trace.nodes[ring[-1]][:2] - trace.nodes[here][:2]
        chosen = first_clockwise(back, leaving[here], ways)
        leaving[here].remove(chosen)
        ring.append(here)
        here = chosen
    return np.array([trace.nodes[node] for node in ring])


def _check(rings: Sequence[Array], sides: Sides, faces: Sequence[SideFace]) -> None:
    """See that every face is simple and in its own plane, and that together they are the plan.

    Arcs are passed once in each direction, so faces that are simple cover every point once.

    Raises:
        OpenRoof: They are not.
    """
    plan = shapely.Polygon(rings[0], rings[1:]).area
    covered = 0.0
    for face in faces:
        side = face.sides[0]
        flat = shapely.Polygon(face.outline[:, :2], [hole[:, :2] for hole in face.holes])
        points = np.concatenate([face.outline, *face.holes])
        rise = (points[:, :2] @ sides.normals[side] - sides.offsets[side]) / sides.speeds[side]
        size = max(1.0, math.sqrt(plan))
        off = np.abs(rise - points[:, 2]).max() * min(1.0, sides.speeds[side])
        if not flat.is_valid or off > EXACT * size * 10:
            raise OpenRoof("check", face.sides, face.outline[0, :2])
        covered += flat.area
    if abs(covered - plan) > EXACT * plan:
        raise OpenRoof("check", (), rings[0].mean(axis=0))
