"""A face laid flat: its plane with x to the right and y up the slope, and how panels end at each of its sides."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..roof.record import Edge, Face, Roof
from ..tolerances import POINT

Lip = tuple[float, float]
"""How far out a lip reaches past the deck's edge, and how low its underside lies under the deck, inches."""

Ending = Literal["hooked", "turned up", "turned down", "plain"]
"""How a panel ends: hooked round a lip, turned up under a cap, turned down over an edge without trim, or just cut."""

ROUND = 1 / 8
"""How far a panel goes past the lip that it hooks, inches: room to move, and for the turn."""

OVER_BARE = 1 / 4
"""How far a panel goes past an edge without trim before it is turned down, inches."""

UP = 1.0
"""Height of the turned-up end, inches. Common practice, no source."""

OFF_CLOSURE = 1 / 8
"""Room between the foot of a closure and the turned-up end behind it, inches."""

APART = 1 / 8
"""How far a turned-up end stays off the middle of a steep ridge, toward which it leans, inches."""

LEAST_UP = 1 / 4
"""A turned-up end lower than this, inches, is not made: snips and tongs cannot hold it."""

CORNER = 12.0
"""Where two lips meet at a sharp corner, a panel reaches at most this far past the face, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Flat:
    """A face's own plane.

    Attributes:
        origin: ``(3,)`` scene point of (0, 0).
        axes: ``(3, 3)`` rows: right, up the slope, and up off the face.
    """

    origin: Array
    axes: Array

    def flatten(self, points: Array) -> Array:
        """Return ``(n, 3)`` scene points as ``(n, 2)``, inches."""
        return np.asarray((points - self.origin) @ self.axes[:2].T)

    def raised(self, points: Array, height: float) -> Array:
        """Return ``(n, 2)`` points as ``(n, 3)`` scene points at a height off the deck, inches."""
        return np.asarray(self.origin + points @ self.axes[:2] + height * self.axes[2])

    def placed(self, corners: Array) -> Array:
        """Return the ``(n, 4, 4)`` placements of panels whose ``(u, out, up)`` go up the slope, right and up there.

        Args:
            corners: ``(n, 2) float, inches``: where their ``(u, out)`` are 0.
        """
        place = np.zeros((len(corners), 4, 4))
        place[:, :3, :3] = self.axes[[1, 0, 2]].T
        place[:, :3, 3] = self.raised(corners, 0.0)
        place[:, 3, 3] = 1.0
        return place


def inside_corners(roof: Roof, index: int) -> Array:
    """Return where a face's eaves end at the feet of its valleys, ``(n, 3) float, inches, scene frame``."""
    own = [edge for edge in roof.edges if index in edge.faces]
    ends = {vertex for edge in own if edge.kind == "eave" for vertex in edge.vertices}
    feet = sorted({edge.vertices[0] for edge in own if edge.kind == "valley"} & ends)
    return np.asarray(roof.vertices[feet])


@dataclass(frozen=True, slots=True, eq=False)
class Border:
    """One side of a face laid flat.

    Attributes:
        edge: The roof's edge.
        start: ``(2,)`` where it begins, the face to its left.
        along: ``(2,)`` unit vector.
        normal: ``(2,)`` unit vector, away from the face.
        deck: Offset of the deck's edge along the normal, inches.
        pan: Offset where the panel is folded.
        ending: How the panel ends there.
        lip: What it hooks.
        up: How high it is turned up, inches.
    """

    edge: Edge
    start: Array
    along: Array
    normal: Array
    deck: float
    pan: float
    ending: Ending
    lip: Lip | None
    up: float = 0.0


def laid_flat(face: Face) -> Flat:
    """Return the face's own plane."""
    up = np.array([0.0, 0.0, 1.0]) - face.normal[2] * face.normal
    up /= np.linalg.norm(up)
    return Flat(face.outline[0], np.array([cross(up, face.normal), up, face.normal]))


def borders_of(
    roof: Roof,
    index: int,
    flat: Flat,
    lips: Mapping[str, Lip],
    feet: Mapping[str, float],
    folds: Mapping[str, float],
    up: float,
) -> list[list[Border]]:
    """Return the sides of a face, ring by ring, the outer one first; the face lies to the left of each.

    Args:
        roof: The roof.
        index: Of the face.
        flat: Its plane.
        lips: What panels hook at eaves and rakes, by name; an edge that is not named has nothing.
        feet: How far inside the deck's edge the feet of the closures under a cap end, by the edge's name.
        folds: How far inside the deck's edge the fold of a break's apron lies, by the edge's name.
        up: The most that an end is turned up, inches.
    """
    sides: dict[int, tuple[int, Border]] = {}
    for edge in roof.edges:
        if index in edge.faces:
            fold = max(folds.get(edge.name, 0.0), 0.0)
            border, backward = _border(flat, edge, index, lips, feet.get(edge.name), fold, up)
            first, last = edge.vertices[::-1] if backward else edge.vertices
            sides[first] = last, border
    rings = []
    while sides:
        at = next(iter(sides))
        ring = []
        while at in sides:
            at, border = sides.pop(at)
            ring.append(border)
        rings.append(ring)
    return sorted(rings, key=lambda ring: -_reach(ring))


def _border(
    flat: Flat, edge: Edge, index: int, lips: Mapping[str, Lip], foot: float | None, fold: float, up: float
) -> tuple[Border, bool]:
    """Return one side of a face, and whether it runs against its edge."""
    start, end = flat.flatten(np.array([edge.start, edge.end]))
    away = edge.outward if edge.faces[0] == index else -edge.outward
    along = (end - start) / np.linalg.norm(end - start)
    backward = bool(np.array([along[1], -along[0]]) @ (flat.axes[:2] @ away) < 0)
    if backward:
        start, along = end, -along
    normal = np.array([along[1], -along[0]])
    deck, lip, kind = float(normal @ start), lips.get(edge.name), KINDS.get(edge.kind)
    ending = None if kind is None else kind.ending(index != edge.faces[0])
    if kind is None:
        return Border(edge, start, along, normal, deck, deck, "plain", None), backward
    if ending == "on" and lip is None:
        return Border(edge, start, along, normal, deck, deck - kind.short - fold, "plain", None), backward
    if ending == "under":
        half = edge.dihedral / 2 if len(edge.faces) == 2 else math.pi / 2
        short = fold + max(kind.short, (up * math.cos(half) + APART) / math.sin(half))
        if foot is not None:
            short = max(min(short, foot - OFF_CLOSURE), OFF_CLOSURE)
        up = min(up, (short * math.sin(half) - APART) / max(math.cos(half), 1e-9))
        up = up if up >= LEAST_UP else 0.0
        return Border(edge, start, along, normal, deck, deck - short, "turned up", None, up), backward
    if lip is not None:
        return Border(edge, start, along, normal, deck, deck + lip[0] + ROUND, "hooked", lip), backward
    return Border(edge, start, along, normal, deck, deck + OVER_BARE, "turned down", None), backward


def pan_area(rings: Sequence[Sequence[Border]]) -> shapely.Geometry:
    """Return what the pans of a face cover between their folds, inches: its sides moved, each by its own distance."""
    outer, *holes = (_moved(ring) for ring in rings)
    if len(outer) < 3:
        return shapely.Polygon()
    area = shapely.Polygon(outer, [hole for hole in holes if len(hole) > 2])
    corners = np.array([border.start for border in rings[0]])
    room = shapely.box(*(corners.min(axis=0) - CORNER), *(corners.max(axis=0) + CORNER))
    if not area.is_valid:
        area = area.buffer(0)
    return shapely.intersection(area, room)


def _moved(ring: Sequence[Border]) -> Array:
    """Return the corners of a ring whose sides are moved to where panels end; sides that shrink to nothing drop out."""
    sides = list(ring)
    while len(sides) > 2:
        corners = [_corners(before, after) for before, after in zip([sides[-1], *sides], sides, strict=False)]
        starts = np.array([corner[-1] for corner in corners])
        ends = np.array([corner[0] for corner in corners[1:] + corners[:1]])
        lengths = np.einsum("ij,ij->i", ends - starts, np.array([side.along for side in sides]))
        worst = int(lengths.argmin())
        if lengths[worst] > -POINT:
            return np.array([point for corner in corners for point in corner])
        del sides[worst]
    return np.empty((0, 2))


def _corners(before: Border, after: Border) -> list[Array]:
    """Return where two sides that follow each other meet once they are moved: two points where they are in line."""
    turn = before.normal[0] * after.normal[1] - before.normal[1] * after.normal[0]
    if abs(turn) < 1e-9:
        points = [
            after.start + side.normal * (side.pan - side.normal @ after.start) for side in (before, after)
        ]
        return points[:1] if np.linalg.norm(points[1] - points[0]) <= POINT else points
    return [np.linalg.solve(np.array([before.normal, after.normal]), [before.pan, after.pan])]


def _reach(ring: Sequence[Border]) -> float:
    corners = np.array([border.start for border in ring])
    return float(np.ptp(corners, axis=0).max())
