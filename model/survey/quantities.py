"""What can be measured of a deck: edges, diagonals and pitches on it, heights and plumb marks under it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..geometry.polygon import area_vector
from ..roof.record import Face, Roof
from ..tolerances import LEVEL, POINT

Kind = Literal["length", "diagonal", "pitch", "tilt", "height", "plan"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A size of a deck that follows from its corners.

    Attributes:
        name: ``front eave``, ``front diagonal 1``, ``front pitch``, ``ridge height 1``, ``span 1``.
        kind: An edge's length, a diagonal, a face's slope, how much higher an edge ends than it begins, how high a
            corner is over an eave, or how far two corners are apart in plan.
        corners: Indices of vertices: both ends, or the face's outline.
    """

    name: str
    kind: Kind
    corners: tuple[int, ...]

    def value(self, points: Array) -> float:
        """Return its size where the corners are at ``points``, ``(n, 3)``: inches, or radians of a pitch."""
        own = points[list(self.corners)]
        if self.kind == "pitch":
            x, y, z = area_vector(own)
            return math.atan2(math.hypot(x, y), z)
        way = own[1] - own[0]
        if self.kind in ("tilt", "height"):
            return float(way[2])
        return float(np.linalg.norm(way[:2] if self.kind == "plan" else way))

    def gradient(self, points: Array) -> Array:
        """Return how it changes as each corner moves, ``(n, 3)``: inches or radians per inch."""
        change = np.zeros_like(points)
        own = points[list(self.corners)]
        if self.kind == "pitch":
            change[list(self.corners)] = _pitch_gradient(own)
            return change
        way = own[1] - own[0]
        if self.kind in ("tilt", "height"):
            way = np.array([0.0, 0.0, 1.0])
        elif self.kind == "plan":
            way = way * [1.0, 1.0, 0.0]
        unit = way / np.linalg.norm(way)
        change[self.corners[0]], change[self.corners[1]] = -unit, unit
        return change


def _pitch_gradient(ring: Array) -> Array:
    """Return how the slope of a ring changes as its corners move, ``(n, 3)`` radians per inch.

    A corner's move turns the area vector by half its product with the way past the corner; what of that is square
    to the vector, in the plumb plane of its fall, tilts the face.
    """
    area = area_vector(ring)
    size, level = float(np.linalg.norm(area)), math.hypot(area[0], area[1])
    if level <= math.sin(LEVEL) * size:  # it falls no way, so there is none to tilt it
        return np.zeros_like(ring)
    tilting = np.array([area[0] / level * area[2], area[1] / level * area[2], -level]) / size
    past = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    return np.asarray(np.cross(past, tilting) / (2 * size))


def outlines(roof: Roof) -> list[list[int]]:
    """Return each face's outline as indices of vertices, from the left corner of its eave on, seen from outside."""
    return [_ring(roof, number, face) for number, face in enumerate(roof.faces)]


def _ring(roof: Roof, number: int, face: Face) -> list[int]:
    ring = [_index(roof, corner) for corner in face.outline]
    own = [edge for edge in roof.edges if number in edge.faces]
    eaves = [edge for edge in own if edge.kind == "eave"] or own
    lowest = min(eaves, key=lambda edge: edge.start[2] + edge.end[2])
    a, b = lowest.vertices
    first = ring.index(a if ring[(ring.index(a) + 1) % len(ring)] == b else b)
    return ring[first:] + ring[:first]


def _index(roof: Roof, corner: Array) -> int:
    return int(np.abs(roof.vertices - corner).sum(axis=1).argmin())


def measurable(roof: Roof) -> tuple[Quantity, ...]:
    """Return all that a person can measure on a deck, face by face and round each from its eave."""
    found: dict[str, Quantity] = {}
    between = {frozenset(edge.vertices): edge.name for edge in roof.edges}
    for face, ring in zip(roof.faces, outlines(roof), strict=True):
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            name = between[frozenset((a, b))]
            found.setdefault(name, Quantity(name, "length", (a, b)))
        for number, corners in enumerate(_diagonals(ring), 1):
            name = f"{face.name} diagonal {number}"
            found[name] = Quantity(name, "diagonal", corners)
        if face.slope > LEVEL:
            name = f"{face.name} pitch"
            found[name] = Quantity(name, "pitch", tuple(ring))
    return tuple(found.values())


def _diagonals(ring: list[int]) -> Iterator[tuple[int, int]]:
    """Yield the corners that are not neighbors, from the eave's left corner on."""
    for one in range(len(ring)):
        for two in range(one + 2, len(ring)):
            if two - one < len(ring) - 1:
                yield ring[one], ring[two]


def every_size(roof: Roof) -> dict[str, Quantity]:
    """Return all that can be taped, by name: on the deck, and under it."""
    return {one.name: one for one in (*measurable(roof), *under_the_roof(roof))}


def under_the_roof(roof: Roof) -> tuple[Quantity, ...]:
    """Return what is measured under a deck: heights of ridges, and ways between plumb marks of its outer corners.

    On a gable a mistake in an eave looks like one in a diagonal as long as only the deck is taped; these tell them
    apart. Outer corners that make another figure than four have no such ways: valleys tie such roofs together.
    """
    found = []
    for edge in roof.edges:
        eaves = [one for one in roof.edges if one.kind == "eave" and set(one.faces) & set(edge.faces)]
        if edge.kind in ("ridge", "high") and eaves:
            found += [
                Quantity(f"{edge.name} height {number}", "height", (eaves[0].vertices[0], top))
                for number, top in enumerate(edge.vertices, 1)
            ]
    return (*found, *_between_plumb_marks(roof))


def _between_plumb_marks(roof: Roof) -> Iterator[Quantity]:
    """Yield the ways across the ends of a roof with four outer corners, and those from corner to corner."""
    level = [edge for edge in roof.edges if edge.kind in ("eave", "high")]
    corners = sorted({vertex for edge in level for vertex in edge.vertices})
    hull = shapely.MultiPoint(roof.vertices[corners, :2]).convex_hull.simplify(POINT)
    if hull.geom_type != "Polygon" or len(hull.exterior.coords) != 5:
        return
    away = np.linalg.norm(roof.vertices[corners, None, :2] - np.array(hull.exterior.coords)[None, :4], axis=2)
    ring = [corners[k] for k in away.argmin(axis=0)]
    edges = {frozenset(edge.vertices) for edge in roof.edges}
    ends = [pair for pair in zip(ring, [*ring[1:], ring[0]], strict=True) if frozenset(pair) not in edges]
    for number, pair in enumerate(ends, 1):
        yield Quantity(f"span {number}", "plan", pair)
    for number, pair in enumerate(((ring[0], ring[2]), (ring[1], ring[3])), 1):
        yield Quantity(f"plan diagonal {number}", "plan", pair)


def tilts(roof: Roof) -> tuple[Quantity, ...]:
    """Return how far out of level each level edge is, those between two faces first."""
    level = [edge for edge in roof.edges if edge.slope <= LEVEL]
    ordered = sorted(level, key=lambda edge: -len(edge.faces))
    return tuple(Quantity(edge.name, "tilt", edge.vertices) for edge in ordered)
