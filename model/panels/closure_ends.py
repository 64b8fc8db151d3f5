"""Where a line of closures ends: at the next one, inside the turned-down end of the trim over them, or at a valley.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..edge_kinds import KINDS
from ..fitting import Fitted
from ..geometry.arrays import Array
from ..geometry.vectors import level_square
from ..joints import sealed_end
from ..joints.short_edge import IN_LINE
from ..roof.build import is_bridged
from ..sheet.fold import in_scene
from ..sheet.sheet import Tab
from ..tolerances import CLEARANCE, POINT
from .caps import FOOT, wing_of
from .flat import Border, Flat

Plane = tuple[Array, Array]
"""A point and the unit normal of a plane, scene frame."""


def end_planes(
    flat: Flat,
    ring: Sequence[Border],
    backs: Sequence[float | None],
    k: int,
    step: int,
    pieces: Sequence[Fitted],
    index: int,
) -> list[Plane]:
    """Return the planes that bound the closures of border ``k`` at the border before (-1) or after (1) it.

    Past a border too short for trim the closures meet those of the next one, unless it cuts the face off before they
    do: there they end short of the panels' turned-up end, as the trim over them is cut along it. Where trim is only
    sealed to its neighbor they end under their own, on the line that halves the corner. What stands so near to the edge
    of the deck that its foot reaches past that, as under an apron, ends at the next border.
    """
    other = next_with_trim(ring, k, step)
    short = [ring[(k + step * n) % len(ring)] for n in range(1, (other - k) * step % len(ring))]
    into = ring[k].along if step < 0 else -ring[k].along
    bounds = [_before(flat, one, pieces) for one in short if one.normal @ into < -POINT]
    corner = _corner(ring, k, step)
    if _is_sealed(pieces, flat.raised(corner[None], 0.0)[0]):
        way = into + (-ring[other].along if step < 0 else ring[other].along)
        if np.linalg.norm(way) > POINT:
            bounds.append(_cut_on(flat, corner, way, into, pieces))
    if not short and (backs[k] or 0.0) < FOOT:
        bounds.append(_cut_on(flat, corner, ring[other].along, into, pieces))
    return [_meeting(flat, ring, backs, k, (other, step), pieces, index), *bounds]


def next_with_trim(ring: Sequence[Border], k: int, step: int) -> int:
    """Return which border of a ring is the next one before (-1) or after (1) border ``k`` that is not too short."""
    other = (k + step) % len(ring)
    while other != k and is_bridged(ring[other].edge):
        other = (other + step) % len(ring)
    return other


def is_valley(border: Border) -> bool:
    """Return whether panels end over a valley's pan at a border."""
    kind = KINDS.get(border.edge.kind)
    return kind is not None and kind.cleated


def _before(flat: Flat, border: Border, pieces: Sequence[Fitted]) -> Plane:
    """Return the plane before the panels' turned-up end at a border, square to the deck as that is."""
    room = pieces[0].run.section.thickness / 2 + CLEARANCE
    return flat.raised((border.normal * (border.pan - room))[None], 0.0)[0], border.normal @ flat.axes[:2]


def _meeting(
    flat: Flat,
    ring: Sequence[Border],
    backs: Sequence[float | None],
    k: int,
    beyond: tuple[int, int],
    pieces: Sequence[Fitted],
    index: int,
) -> Plane:
    """Return the plane that bounds the closures of border ``k`` at the next border that takes trim.

    Args:
        flat: The plane of the face.
        ring: Its borders.
        backs: How far inside the deck's edge the webs of the closures of each stand, inches.
        k: Which border.
        beyond: Which the next one is, and whether it comes before (-1) or after (1).
        pieces: What stands on the closures.
        index: Of the face.
    """
    other, step = beyond
    border, neighbor = ring[k], ring[other]
    own, next_back, bridges = backs[k], backs[other], other != (k + step) % len(ring)
    assert own is not None
    corner = _corner(ring, k, step)
    turn = border.normal[0] * neighbor.normal[1] - border.normal[1] * neighbor.normal[0]
    into = border.along if step < 0 else -border.along
    if abs(turn) <= (IN_LINE if bridges else 1e-9):
        middle = (corner + _corner(ring, other, -step)) / 2
        return flat.raised((middle + into * CLEARANCE / 2)[None], 0.0)[0], border.along @ flat.axes[:2]
    if bridges:
        corner = np.linalg.solve(np.array([border.normal, neighbor.normal]), [border.deck, neighbor.deck])
    if next_back is not None:
        return _mitered(flat, border, neighbor, (corner, into), (own, next_back), pieces)
    return _inside(flat, border, neighbor, corner, pieces, index)


def _mitered(
    flat: Flat,
    border: Border,
    neighbor: Border,
    end: tuple[Array, Array],
    backs: tuple[float, float],
    pieces: Sequence[Fitted],
) -> Plane:
    """Return the plane on which closures meet those of the next border.

    Args:
        flat: The plane of the face.
        border: Their own.
        neighbor: The next.
        end: Where the two borders meet, and the way from there along their own, ``(2,) float, inches``.
        backs: How far inside the deck's edge the webs stand on the two, inches.
        pieces: What stands on them.
    """
    corner, into = end
    offsets = [border.deck - backs[0], neighbor.deck - backs[1]]
    inner = np.linalg.solve(np.array([border.normal, neighbor.normal]), offsets)
    return _cut_on(flat, inner, inner - corner, into, pieces)


def _cut_on(flat: Flat, point: Array, way: Array, into: Array, pieces: Sequence[Fitted]) -> Plane:
    """Return the plane square to the deck on which closures end short of a line through a point.

    Args:
        flat: The plane of the face.
        point: The point, ``(2,) float, inches``.
        way: Along the line.
        into: From there along their border.
        pieces: What stands on them.
    """
    across = np.array([-way[1], way[0]]) / np.linalg.norm(way)
    lean, slant = abs(float(into @ way)), abs(float(into[0] * way[1] - into[1] * way[0]))
    half = pieces[0].run.section.thickness / 2
    room = (CLEARANCE / 2 * float(np.linalg.norm(way)) + half * lean) / max(slant, POINT)
    return flat.raised((point + into * room)[None], 0.0)[0], across @ flat.axes[:2]


def _is_sealed(pieces: Sequence[Fitted], corner: Array) -> bool:
    """Return whether a run ends at a corner with an end that is only sealed to what it meets."""
    return (pieces[0].ends.low if _is_low(pieces, corner) else pieces[-1].ends.high).kind is sealed_end.KIND


def _is_low(pieces: Sequence[Fitted], corner: Array) -> bool:
    """Return whether the low end of a run is the one at a corner."""
    edge = pieces[0].run.edge
    return bool(np.linalg.norm(edge.start - corner) < np.linalg.norm(edge.end - corner))


def _inside(
    flat: Flat, border: Border, neighbor: Border, corner: Array, pieces: Sequence[Fitted], index: int
) -> Plane:
    """Return the plumb plane on which closures end inside the turned-down end of the trim, or short of a valley.

    The turned-down end follows the gable, which need not be square to this slope's own rake: the plane is its own.
    """
    beside, side = neighbor.normal @ flat.axes[:2], neighbor.along @ flat.axes[:2]
    away = level_square(side, beside)
    vertex = flat.raised(corner[None], 0.0)[0]
    strip = wing_of(pieces[0].run, index)[0]
    first, last = pieces[0], pieces[-1]
    one, cut = (first, first.sheet.low) if _is_low(pieces, vertex) else (last, last.sheet.high)
    folds = [_hinge(one, tab) for tab in cut.tabs if tab.strip == strip]
    if not folds:
        if neighbor.ending == "turned up":
            return _before(flat, neighbor, pieces)
        if is_valley(neighbor):
            return flat.raised((neighbor.normal * neighbor.pan)[None], 0.0)[0], beside
        return vertex + away * ((neighbor.pan - neighbor.deck) * float(beside @ away)), away
    fold = max(folds, key=lambda fold: float(((fold - vertex) @ away).mean()))
    away = level_square(fold[1] - fold[0], beside)
    half = pieces[0].run.section.thickness / 2
    bevel = half * abs(float(border.normal @ flat.axes[:2] @ away))
    return fold.mean(axis=0) - away * (half + bevel + CLEARANCE), away


def _corner(ring: Sequence[Border], k: int, step: int) -> Array:
    """Return the corner of the face where border ``k`` begins (-1) or ends (1)."""
    return ring[k].start if step < 0 else ring[(k + 1) % len(ring)].start


def _hinge(one: Fitted, tab: Tab) -> Array:
    """Return the two ends of a tab's fold line, ``(2, 3) float, inches, scene frame``."""
    return in_scene(one.run.section, tab.strip, one.placement, tab.hinge)
