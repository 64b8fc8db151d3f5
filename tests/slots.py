"""Open slots: where something thicker than 1/8 in could get in between panels, closures and trim.

Solids are cut by planes with manifold3d. In the plane of the webs of a line of closures, in that of the flaps that
panels hook a lip with, and square to each edge at stations along it, metal leaves some of the plane free: what of that
a disk of 1/8 in fits into is open.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import manifold3d
import numpy as np
import shapely
from solids import manifold

from trimwright.model.edge_kinds import KINDS
from trimwright.model.geometry.arrays import Array
from trimwright.model.geometry.vectors import level_square
from trimwright.model.layout import Layout
from trimwright.model.panels.caps import hang_of
from trimwright.model.panels.closures import Closure
from trimwright.model.panels.flat import ROUND
from trimwright.model.panels.lay import stuff_of
from trimwright.model.panels.lips import lip_of
from trimwright.model.panels.sealed import Sealed
from trimwright.model.panels.stuff import UNDER_LIP
from trimwright.model.runs import Run, pan_height

WIDEST = 1 / 8
"""A slot is open from this width on, inches."""

FILLED = 9 / 16
"""Sealant fills no wider one, inches: a closure of 1/2 in is made, a shorter one and the room beside it are filled."""

BRIDGED = 12.0
"""So far from a valley's head a cap may end that is bridged to it, inches."""

BESIDE = 1 / 4
"""How far a slot may reach past the place that is listed, inches: a web's end is cut on the skew."""


@dataclass(frozen=True, slots=True, eq=False)
class Slot:
    """Where a slot is open.

    Attributes:
        at: Name of the run.
        face: Index of the face.
        along: From where to where along the run, inches.
        up: From where to where off the deck, inches.
        width: Of the widest disk that fits, inches.
        point: ``(3,) float, inches, scene frame``.
    """

    at: str
    face: int
    along: tuple[float, float]
    up: tuple[float, float]
    width: float
    point: Array


class Cutter:
    """All metal of a layout, to be cut by planes."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self.solids = [one.solid for one in (*layout.parts, *layout.panels, *layout.closures, *layout.cleats)]
        self.low = np.array([solid.vertices.min(axis=0) for solid in self.solids])
        self.high = np.array([solid.vertices.max(axis=0) for solid in self.solids])

    @cached_property
    def bodies(self) -> list[manifold3d.Manifold]:
        return [manifold(solid) for solid in self.solids]

    def cut(self, frame: Array, reach: Array) -> shapely.Geometry:
        """Return the metal in a plane.

        Args:
            frame: ``(4, 4)``: the plane's x and y, its normal, its origin, scene frame.
            reach: ``(n, 3) float, inches, scene frame``: points about which the metal is cut.
        """
        low, high = reach.min(axis=0), reach.max(axis=0)
        near = np.flatnonzero(((self.low <= high) & (self.high >= low)).all(axis=1))
        inward = np.linalg.inv(frame)[:3]
        found = []
        for number in near.tolist():
            heights = self.solids[number].vertices @ inward[2, :3] + inward[2, 3]
            if heights.min() < 0 < heights.max():
                section = self.bodies[number].transform(inward).slice(0.0)
                rings = [shapely.Polygon(ring) for ring in section.to_polygons() if len(ring) > 2]
                whole = shapely.Polygon()
                for ring in sorted(rings, key=lambda one: -one.area):
                    whole = whole.symmetric_difference(ring.buffer(0))
                found.append(whole)
        return shapely.union_all(found) if found else shapely.Polygon()


def holes(region: shapely.Geometry, metal: shapely.Geometry) -> list[tuple[shapely.Polygon, float]]:
    """Return the parts of a region that a disk as wide as an open slot fits into, and the widest that does."""
    free = region.difference(metal)
    inner = free.buffer(-WIDEST / 2 - 1e-4)
    found = []
    for part in shapely.get_parts(inner):
        if part.area > 0:
            blob = part.buffer(WIDEST / 2)
            circle = shapely.maximum_inscribed_circle(blob.intersection(free).buffer(1e-6), 0.01)
            found.append((blob, 2 * float(shapely.length(circle))))
    return found


def closure_slots(layout: Layout, cutter: Cutter) -> Iterator[Slot]:
    """Yield the slots in the plane of the webs under each cap."""
    lines: dict[tuple[str, int], list[Closure]] = {}
    for closure in layout.closures:
        lines.setdefault((closure.at, closure.face), []).append(closure)
    t = layout.scene.metal.thickness
    webs = {key: _web_frame(layout, own[0]) for key, own in lines.items()}
    for (name, face), own in lines.items():
        run, frame = layout.run(name), webs[name, face]
        inward = np.linalg.inv(frame)
        standing = [one.line @ inward[:2, :3].T + inward[:2, 3] for one in own]
        floor = max(
            float(line[:, 1].max()) for line, one in zip(standing, own, strict=True) if one.pan is None
        )
        roof = hang_of(run, face)
        ends = np.array([(run.edge.start - frame[:3, 3]), (run.edge.end - frame[:3, 3])]) @ frame[:3, 0]
        corners = [(x, y, 0.0, 1.0) for x in (ends.min() - 40, ends.max() + 40) for y in (0.0, roof + 1)]
        metal = cutter.cut(frame, np.array(corners) @ frame[:3].T)
        # The wing over them says how far the line goes; where it meets that of another cap, only as far as there.
        strip = shapely.box(-1e4, roof + 1e-3, 1e4, roof + 1.5 * t).intersection(metal)
        if strip.is_empty:
            continue
        wing = np.concatenate([part.solid.vertices for part in layout.parts_of(name)])
        reach = (wing - frame[:3, 3]) @ frame[:3, 0]
        left, right = max(strip.bounds[0], reach.min()), min(strip.bounds[2], reach.max())
        for other, another in webs.items():
            if other[1] == face and other[0] != name:
                corner, inner = _miter(layout, frame, another, own, lines[other])
                if corner is not None:
                    left, right = (max(left, corner), right) if inner > 0 else (left, min(right, corner))
        spaces = [shapely.box(left, floor, right, roof)]
        for line, one in zip(standing, own, strict=True):
            if one.pan is not None:
                spaces.append(shapely.box(line[:, 0].min(), line[:, 1].max(), line[:, 0].max(), roof))
        region = shapely.union_all(spaces)
        region = _before_valleys(layout, run, face, frame, region)
        for blob, width in holes(region, metal):
            x0, y0, x1, y1 = blob.bounds
            point = (frame @ [(x0 + x1) / 2, (y0 + y1) / 2, 0.0, 1.0])[:3]
            u = (
                np.array([frame[:3, 3] + frame[:3, 0] * x for x in (x0, x1)]) - run.edge.start
            ) @ run.edge.direction
            yield Slot(name, face, (float(u.min()), float(u.max())), (y0, y1), width, point)


def _before_valleys(
    layout: Layout, run: Run, face: int, frame: Array, region: shapely.Geometry
) -> shapely.Geometry:
    """Return of a region under a cap what lies before the middles of the valleys that it ends at, and over their pans.

    Past the middle lies the wing of another cap; there is no way in under a rib.
    """
    _, low, _, high = region.bounds
    inward = np.linalg.inv(frame)
    for valley in layout.runs:
        ends = (run.edge.start, run.edge.end)
        head = min(float(np.linalg.norm(valley.edge.end - end)) for end in ends)
        if valley.trim != "valley" or face not in valley.edge.faces or head > BRIDGED:
            continue
        over = layout.roof.faces[face].outline.mean(axis=0) - valley.edge.start
        own = level_square(valley.edge.direction, over)
        x, y = frame[:3, :2].T @ own
        off = float((frame[:3, 3] - valley.edge.start) @ own)
        corners = [(-(off + y * at) / x, at) for at in (low - 1, high + 1)]
        far = np.sign(x) * 1e4
        region = region.intersection(shapely.Polygon([*corners, (far, high + 1), (far, low - 1)]))
        for part in layout.parts_of(valley.name):
            for ring in manifold(part.solid).transform(inward[:3]).slice(0.0).to_polygons():
                for (x0, y0), (x1, y1) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
                    under = shapely.Polygon([(x0, y0), (x1, y1), (x1, low - 9), (x0, low - 9)])
                    region = region.difference(under.buffer(0))
    return region


def _miter(
    layout: Layout, frame: Array, other: Array, own: list[Closure], others: list[Closure]
) -> tuple[float | None, float]:
    """Return where along a line of closures it meets another one, and on which side of that it lies.

    Both are cut along the line that halves the angle between them, which may be sharp: 1/32 in off that line counts as
    met, measured square to it.
    """
    way = float(frame[:3, 0] @ other[:3, 2])
    if abs(way) < 1e-6:
        return None, 0.0
    x = float((other[:3, 3] - frame[:3, 3]) @ other[:3, 2] / way)
    corner = frame[:3, 3] + frame[:3, 0] * x
    ways = []
    for lot, along in ((own, frame[:3, 0]), (others, other[:3, 0])):
        ways.append(along * np.sign((np.mean([one.line for one in lot], axis=(0, 1)) - corner) @ along))
    half = np.arccos(np.clip(ways[0] @ ways[1], -1, 1)) / 2
    inner = float(np.sign(ways[0] @ frame[:3, 0]))
    return x + inner / 32 / max(float(np.sin(half)), 1e-3), inner


def _web_frame(layout: Layout, closure: Closure) -> Array:
    """Return the plane of the webs of a closure's line: x along it, y off the deck."""
    place, section = closure.placement, closure.sheet.section
    web = float(section.points[section.strip_of("web"), 0])
    frame = np.eye(4)
    frame[:3, :3] = np.column_stack([place[:3, 0], place[:3, 2], np.cross(place[:3, 0], place[:3, 2])])
    frame[:3, 3] = place[:3, 3] + place[:3, 1] * web
    return frame


def hook_slots(layout: Layout, cutter: Cutter) -> Iterator[Slot]:
    """Yield the slots in the plane of the flaps by which panels hook each lip."""
    for run in layout.runs:
        lip = lip_of(run, layout.scene)
        if lip is None or KINDS[run.trim].panels != "hook":
            continue
        face = run.edge.faces[0]
        out = lip[0] + ROUND
        pan = stuff_of(layout.scene, pan_height(layout.roof, layout.scene)).pan
        frame = np.eye(4)
        frame[:3, :3] = np.column_stack(
            [run.frame[:3, 0], run.frame[:3, 2], np.cross(run.frame[:3, 0], run.frame[:3, 2])]
        )
        frame[:3, 3] = run.frame[:3, 3] + run.frame[:3, 1] * out
        corners = [(x, y, 0.0, 1.0) for x in (-4.0, run.length + 4.0) for y in (lip[1] - 1, pan + 1)]
        metal = cutter.cut(frame, np.array(corners) @ frame[:3].T)
        # Beside that the ends of caps stand over it: there the line of their closures closes it.
        over = [panel for panel in layout.panels_of(face) if run.name in panel.borders]
        u = np.concatenate([(panel.outline - run.edge.start) @ run.edge.direction for panel in over])
        off = np.concatenate([(panel.outline - run.edge.start) @ run.frame[:3, 1] for panel in over])
        at = u[off > out - 1 / 8]
        region = shapely.box(max(0.0, at.min()), lip[1] - UNDER_LIP, min(run.length, at.max()), pan)
        for blob, width in holes(region, metal):
            x0, y0, x1, y1 = blob.bounds
            point = (frame @ [(x0 + x1) / 2, (y0 + y1) / 2, 0.0, 1.0])[:3]
            yield Slot(run.name, face, (x0, x1), (y0, y1), width, point)


def unsealed(layout: Layout) -> list[Slot]:
    """Return the open slots of a layout that its own list of sealed places does not have."""
    cutter = Cutter(layout)
    slots = [*closure_slots(layout, cutter), *hook_slots(layout, cutter)]
    return [slot for slot in slots if not any(_has(sealed, slot) for sealed in layout.sealed)]


def _has(sealed: Sealed, slot: Slot) -> bool:
    """Return whether a place that sealant closes is a slot's: no wider than what sealant fills, and all of it."""
    low, high = sealed.along
    inside = low - BESIDE <= slot.along[0] and slot.along[1] <= high + BESIDE
    return (sealed.at, sealed.face) == (slot.at, slot.face) and inside and slot.width <= FILLED
