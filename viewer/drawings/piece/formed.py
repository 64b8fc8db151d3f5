"""The formed piece in an axonometric view, hidden lines removed, with lines of the work on it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.profiles.section import Section
from trimwright.model.sheet.sheet import Tab

from ..ink.drawing import Area, Item, Point, Stroke
from .hidden_lines import SPECK, LineOfSight, SeenFacet, facets_of, seen, sorted_by_sight

LIGHT = np.array([-0.35, 0.85, 0.4]) / math.hypot(0.35, 0.85, 0.4)
"""Where light comes from in a view: right, up and toward; from the left, above and a little in front."""

OFF = "#f2b8ae"
"""Tint of metal that comes off."""

INK, SOFT, PAPER = "#111111", "#666666", "#ffffff"

EDGE, SILHOUETTE, BEND, BREAK = (0.011, INK), (0.009, INK), (0.005, SOFT), (0.005, SOFT)
"""Width, inches, and color of the strokes that draw the metal."""

SHORTEST = 1e-3
"""What is shorter than this is no line, inches."""

HIDDEN = (0.02, 0.03)
"""Dashes of the part of a line that metal hides, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class WorkLine:
    """A line of the work that a picture shows on the metal.

    Attributes:
        points: ``(n, 2) float, inches``, in ``(u, v)``.
        width: Of its stroke on the paper, inches.
        color: Of its stroke.
        dash: Of its stroke, inches.
        name: What it is.
    """

    points: Array
    width: float
    color: str
    dash: tuple[float, ...]
    name: str


@dataclass(frozen=True, slots=True, eq=False)
class FormedView:
    """What is seen of a piece, in its own inches on the plane of the picture.

    Attributes:
        items: Areas and strokes; widths of strokes are those on the paper.
        box: Left, low, right and top of the metal.
        shown: How much of the lines asked for is in sight, from 0 to 1; 1 when there are none.
    """

    items: tuple[Item, ...]
    box: tuple[float, float, float, float]
    shown: float


def eye(mirrored: bool, aside: float, height: float) -> LineOfSight:
    """Return a view from outside the roof's edge, so that a level or left-hand piece has its low end at the left.

    Args:
        mirrored: The piece is right-hand: its low end is at the right.
        aside: How far the eye goes round toward the left of the picture, radians.
        height: How far it goes up, radians; negative looks from below.
    """
    along = -1.0 if mirrored else 1.0
    sa, ca, sh, ch = math.sin(aside), math.cos(aside), math.sin(height), math.cos(height)
    return LineOfSight(
        right=np.array([along * ca, sa, 0.0]),
        up=np.array([along * sh * sa, -sh * ca, ch]),
        toward=np.array([-along * sa * ch, ca * ch, sh]),
    )


@dataclass(frozen=True, slots=True, eq=False)
class FormedMetal:
    """A folded sheet looked at from one side: what any view of it from there shows.

    Attributes:
        facets: Its facets.
        sights: What is seen of each.
        strokes: Its edges, breaks and bends, as far as they are seen.
    """

    facets: tuple[SeenFacet, ...]
    sights: tuple[shapely.Geometry, ...]
    strokes: tuple[Stroke, ...]


def form(
    section: Section,
    metal: shapely.Geometry,
    folded: Sequence[Tab],
    seen_from: LineOfSight,
    edge: shapely.Geometry | None = None,
) -> FormedMetal:
    """Fold a sheet and look at it.

    Args:
        section: Its section.
        metal: The flat sheet in ``(u, v)``, without its folded tabs; in parts where a length is left out.
        folded: Tabs that are folded.
        seen_from: Where the eye is.
        edge: The sheet's own edges, when it was clipped for the picture: other ends of it are drawn as breaks.
    """
    facets = facets_of(section, metal, folded, seen_from)
    own = list(_own_lines(facets, section, shapely.boundary(metal) if edge is None else edge))
    ends = np.array([line for line, _, _ in own])
    strokes = tuple(
        Stroke(_points(part), width, color, name=name)
        for (_, (width, color), name), (plain, _) in zip(own, sorted_by_sight(ends, facets), strict=True)
        for part in plain
    )
    return FormedMetal(tuple(facets), tuple(seen(facets)), strokes)


def look(
    formed: FormedMetal, lines: Iterable[WorkLine] = (), waste: shapely.Geometry | None = None
) -> FormedView:
    """Return what is seen of a folded sheet.

    Args:
        formed: The sheet, folded and looked at.
        lines: Lines drawn on it; where metal hides them they are drawn fine.
        waste: A part of it, in ``(u, v)``, that is tinted, since it comes off.
    """
    items: list[Item] = []
    for facet, sight in zip(formed.facets, formed.sights, strict=True):
        items += [Area(_rings(part), _shade(facet), "metal") for part in _polygons(sight)]
        if waste is not None and not waste.is_empty:
            off = facet.pictured(facet.metal.intersection(waste)).intersection(sight)
            items += [Area(_rings(part), OFF, "waste") for part in _polygons(off)]
    items += formed.strokes
    shown = length = 0.0
    for line in lines:
        for plain, hidden in sorted_by_sight(_on_metal(line.points, formed.facets), formed.facets):
            shown += sum(_length(part) for part in plain)
            length += sum(_length(part) for part in (*plain, *hidden))
            items += [Stroke(_points(p), line.width / 3, line.color, HIDDEN, name=line.name) for p in hidden]
            items += [Stroke(_points(p), line.width, PAPER, name="casing") for p in plain]
            items += [Stroke(_points(p), line.width, line.color, line.dash, name=line.name) for p in plain]
    return FormedView(tuple(items), _box(formed.facets), shown / length if length > 1e-9 else 1.0)


def placed(view: FormedView, scale: float, shift: Point) -> tuple[Item, ...]:
    """Return what a view shows, drawn to ``scale`` and moved by ``shift`` inches on the paper."""

    def there(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((x * scale + shift[0], y * scale + shift[1]) for x, y in points)

    items: list[Item] = []
    for item in view.items:
        if isinstance(item, Area):
            items.append(Area(tuple(there(ring) for ring in item.rings), item.color, item.name))
        elif isinstance(item, Stroke):
            points = there(item.points)
            items.append(Stroke(points, item.width, item.color, item.dash, item.closed, item.name))
    return tuple(items)


def _own_lines(
    facets: Sequence[SeenFacet], section: Section, edge: shapely.Geometry
) -> Iterator[tuple[Array, tuple[float, str], str]]:
    """Yield the lines that draw the metal itself: its edges, breaks, and the bends that show."""
    strips = {facet.strip: facet for facet in facets if not facet.tab}
    begins = {bend.first for bend in section.bends}
    shapely.prepare(edge)
    for facet in facets:
        flat = np.concatenate(
            [
                np.stack([ring[:-1], ring[1:]], axis=1)
                for part in _polygons(facet.metal)
                for ring in map(shapely.get_coordinates, (part.exterior, *part.interiors))
            ]
            or [np.empty((0, 2, 2))]
        )
        middles = flat.mean(axis=1)
        on_edge = shapely.distance(edge, shapely.points(middles)) < 1e-6
        first, last = section.v[facet.strip], section.v[facet.strip + 1]
        space = flat @ facet.space[:, :2].T + facet.space[:, 2]
        for line, (_, v), cut in zip(space, middles, on_edge, strict=True):
            if _length(line[:, :2]) < 1e-6:
                continue
            if cut or facet.tab:
                yield line, EDGE, "edge"
            elif abs(v - first) < 1e-9:
                before = strips.get(facet.strip - 1)
                if before is not None and before.painted != facet.painted:
                    yield line, SILHOUETTE, "silhouette"
                elif before is not None and facet.strip in begins:
                    yield line, BEND, "bend"
            elif abs(v - last) > 1e-9:
                yield line, BREAK, "break"


def _on_metal(points: Array, facets: Sequence[SeenFacet]) -> Array:
    """Return ``(n, 2, 3)`` straight parts of a sheet line where it runs over the facets, in space."""
    line = shapely.LineString(points)
    parts: list[Array] = []
    for facet in facets:
        if facet.tab:
            continue
        common = shapely.intersection(line, facet.metal.buffer(1e-6))
        for piece in shapely.get_parts(common):
            if piece.geom_type == "LineString" and piece.length > SHORTEST:
                flat = shapely.get_coordinates(piece)
                space = flat @ facet.space[:, :2].T + facet.space[:, 2]
                parts += [
                    pair
                    for pair in np.stack([space[:-1], space[1:]], axis=1)
                    if _length(pair[:, :2]) > SHORTEST
                ]
    return np.array(parts).reshape(-1, 2, 3)


def _shade(facet: SeenFacet) -> str:
    light = max(float((facet.normal if facet.painted else -facet.normal) @ LIGHT), 0.0)
    level = 226 + 29 * light if facet.painted else 158 + 30 * light
    return "#{0:02x}{0:02x}{0:02x}".format(round(level))


def _polygons(shape: shapely.Geometry) -> list[shapely.Polygon]:
    return [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon" and part.area > SPECK]


def _rings(part: shapely.Polygon) -> tuple[tuple[Point, ...], ...]:
    return tuple(_points(shapely.get_coordinates(ring)[:-1]) for ring in (part.exterior, *part.interiors))


def _points(points: Array) -> tuple[Point, ...]:
    return tuple((x, y) for x, y in points[:, :2].tolist())


def _length(part: Array) -> float:
    return float(math.hypot(*(part[-1] - part[0])[:2]))


def _box(facets: Sequence[SeenFacet]) -> tuple[float, float, float, float]:
    points = np.concatenate(
        [shapely.get_coordinates(f.metal) @ f.space[:2, :2].T + f.space[:2, 2] for f in facets]
    )
    return (*points.min(axis=0).tolist(), *points.max(axis=0).tolist())
