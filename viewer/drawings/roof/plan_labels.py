"""Labels of the roof plan: names, marks, arrows and pins, each where nothing else stands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Expanse
from trimwright.model.roof.record import Face

from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Item, Point, Stroke, Words
from ..ink.letters import ASCENT, DESCENT, width_of
from ..ink.shapes import arrow
from ..ink.style import BODY, INK, SMALL, SOFT
from ..paper.pins import HEIGHT, FindingPin, draw_pin, numbers, pin_width, worst

STEP = 0.15
"""From one place that is tried for a face's label to the next, inches on the paper."""

ARROW = 0.34
"""Length of the arrow down a slope, inches on the paper."""


@dataclass(frozen=True, slots=True, eq=False)
class Chart:
    """Where the roof lies on the paper, and what is taken there.

    Attributes:
        ratio: Inches on the paper for an inch of roof.
        shift: ``(2,)``: where the scene's origin lies, inches.
        room: What labels must stay inside.
        taken: Shapes that no label may touch; grows as labels are set.
    """

    ratio: float
    shift: Array
    room: shapely.Polygon
    taken: list[shapely.Geometry]

    def place(self, point: Array) -> Array:
        """Return where a ``(3,)`` scene point lies on the paper, inches."""
        return np.asarray(point[:2] * self.ratio + self.shift)

    def free(self, shape: shapely.Geometry) -> bool:
        """Return whether a label may stand in ``shape``."""
        return bool(self.room.contains(shape)) and not any(shape.intersects(other) for other in self.taken)


def point_of(point: Array) -> Point:
    """Return a ``(2,)`` array as a point of a drawing."""
    return float(point[0]), float(point[1])


def ends_of_part(part: Part, chart: Chart) -> tuple[Array, Array]:
    """Return where a piece begins and ends on the paper, kept on its edge."""
    edge = part.run.edge
    low, high = max(part.low, 0.0), min(part.high, edge.length)
    return chart.place(edge.start + low * edge.direction), chart.place(edge.start + high * edge.direction)


def outward(part: Part) -> Array:
    """Return the ``(2,)`` unit vector on the paper that points away from the face, or from the first face."""
    out = part.run.edge.outward[:2]
    return np.asarray(out / np.linalg.norm(out))


def face_labels(face: Face, chart: Chart, say: Speaker) -> list[Item]:
    """Return the name, pitch and area of a face, and an arrow that points down its slope, where they fit it."""
    shape = shapely.Polygon([chart.place(point) for point in face.outline])
    down = np.array([math.sin(face.azimuth), math.cos(face.azimuth)])
    texts = (named(face.name, say), say.tape.pitch(face.slope), say("{area}", area=Expanse(face.area)))
    places = _places(shape)
    for count, size in ((3, BODY), (3, SMALL), (2, SMALL), (1, SMALL)):
        for at in places:
            label = _label(texts[:count], at, size)
            if not shape.contains(label):
                continue
            for tail, tip in _arrows(label, at, down):
                whole = shapely.union_all([label, shapely.LineString([tail, tip]).buffer(0.05)])
                if shape.contains(whole) and chart.free(whole):
                    chart.taken.append(whole)
                    return [*arrow(tail, tip, 0.016, INK, 0.11), *_written(texts[:count], at, size)]
    return []


def _places(shape: shapely.Polygon) -> list[Array]:
    """Return places in a face, those by its middle first."""
    middle = np.array(shape.centroid.coords[0])
    left, low, right, high = shape.bounds
    xs, ys = np.meshgrid(np.arange(left, right, STEP), np.arange(low, high, STEP))
    grid = np.stack([xs.ravel(), ys.ravel()], axis=1)
    inside = grid[shapely.contains_xy(shape, grid[:, 0], grid[:, 1])]
    nearest = np.argsort(np.linalg.norm(inside - middle, axis=1), kind="stable")
    return [middle, *inside[nearest]]


def _arrows(label: shapely.Polygon, at: Array, down: Array) -> Iterator[tuple[Point, Point]]:
    """Yield arrows down the slope that stand clear of a label: below it, above it, and on either side."""
    half = (np.array(label.bounds[2:]) - label.bounds[:2]) / 2 + 0.07
    across = np.array([-down[1], down[0]])
    for way in (down, -down, across, -across):
        reach = float(min(half / np.maximum(np.abs(way), 1e-9)))
        along = way @ down
        middle = at + way * (reach + abs(along) * ARROW / 2)
        yield point_of(middle - down * ARROW / 2), point_of(middle + down * ARROW / 2)


def _label(texts: Sequence[str], at: Array, size: float) -> shapely.Polygon:
    wide = max(width_of(text, size, bold=True) for text in texts) / 2 + 0.03
    tall = size * 1.3 * len(texts) / 2
    return shapely.box(at[0] - wide, at[1] - tall, at[0] + wide, at[1] + tall)


def _written(texts: Sequence[str], at: Array, size: float) -> list[Item]:
    top = at[1] + size * 1.3 * len(texts) / 2
    return [
        Words(
            text,
            (float(at[0]), float(top - size * (1.0 + 1.3 * k))),
            size,
            "middle",
            bold=k == 0,
            color=INK,
            name="face" if k == 0 else "face size",
        )
        for k, text in enumerate(texts)
    ]


def edge_labels(layout: Layout, chart: Chart, say: Speaker) -> list[Item]:
    """Return piece marks beside their pieces and the edge's name beside its middle, along the edge."""
    items: list[Item] = []
    for part in layout.parts:
        a, b = ends_of_part(part, chart)
        items += _beside((a + b) / 2, b - a, outward(part), part.mark, SMALL, True, "mark", chart)
    for edge in layout.roof.edges:
        a, b = chart.place(edge.start), chart.place(edge.end)
        out = edge.outward[:2] / np.linalg.norm(edge.outward[:2])
        items += _beside((a + b) / 2, b - a, -out, named(edge.name, say), SMALL, False, "edge", chart)
    return items


def _beside(
    middle: Array, along: Array, out: Array, text: str, size: float, bold: bool, name: str, chart: Chart
) -> list[Item]:
    """Return a label along a line, on its outer side if it is free there, else wherever it is free nearby."""
    angle = math.degrees(math.atan2(along[1], along[0]))
    angle = angle - 180 if angle > 90.5 else angle + 180 if angle <= -89.5 else angle
    way = along / np.linalg.norm(along)
    wide = width_of(text, size, bold)
    for side in (out, -out):
        for away in (0.13, 0.26, 0.39):
            for shift in (0.0, 0.15, -0.15, 0.3, -0.3, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0):
                center = middle + side * away + way * shift
                shape = _turned(center, angle, wide, size)
                if chart.free(shape):
                    chart.taken.append(shape)
                    turn = math.radians(angle)
                    drop = np.array([math.sin(turn), -math.cos(turn)]) * size * ASCENT / 2
                    at = point_of(center + drop)
                    return [Words(text, at, size, "middle", angle, bold, INK if bold else SOFT, name)]
    return []


def _turned(center: Array, angle: float, wide: float, size: float) -> shapely.Polygon:
    low, high = -(ASCENT / 2 + DESCENT) * size, ASCENT / 2 * size + 0.02
    box = shapely.box(-wide / 2 - 0.02, low, wide / 2 + 0.02, high)
    turned = shapely.affinity.rotate(box, angle, origin=(0, 0))
    return shapely.affinity.translate(turned, *center.tolist())


def pinned(pins: Iterable[FindingPin], chart: Chart) -> list[Item]:
    """Return the findings where they are, those of one place together, beside it with a line to it."""
    groups: list[tuple[Array, list[FindingPin]]] = []
    for pin in pins:
        at = chart.place(pin.finding.point)
        near = next((group for where, group in groups if np.linalg.norm(where - at) < 0.3), None)
        if near is None:
            groups.append((at, [pin]))
        else:
            near.append(pin)
    items: list[Item] = []
    labels = [shape for shape in chart.taken if shape.geom_type in ("Polygon", "MultiPolygon")]
    for at, group in groups:
        text = numbers(group)
        spot = _spot(at, pin_width(text) / 2 + 0.02, chart)
        if spot is not None:
            if not any(shapely.Point(at).within(shape) for shape in labels):
                half = pin_width(text) / 2
                disc = shapely.box(spot[0] - half, spot[1] - HEIGHT / 2, spot[0] + half, spot[1] + HEIGHT / 2)
                way = shapely.LineString([at, spot]).difference(disc)
                if not way.is_empty:
                    items.append(
                        Stroke(
                            tuple(point_of(end) for end in np.array(way.coords)), 0.007, INK, name="pin line"
                        )
                    )
            items += draw_pin(text, point_of(spot), worst(group))
    return items


def _spot(at: Array, half: float, chart: Chart) -> Array | None:
    """Take and return a free place for a pin near ``at``, its line clear of labels if it can be."""
    turns = np.linspace(0.4, 0.4 + 2 * math.pi, 16, endpoint=False)
    ways = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    second: tuple[Array, shapely.Geometry] | None = None
    labels = [shape for shape in chart.taken if shape.geom_type in ("Polygon", "MultiPolygon")]
    for reach in (0.3, 0.45, 0.6, 0.8, 1.0, 1.3):
        for spot in at + reach * ways:
            x, y = spot
            shape = shapely.box(x - half, y - HEIGHT / 2, x + half, y + HEIGHT / 2)
            if not chart.free(shape):
                continue
            line = shapely.LineString([at, spot])
            if not any(line.intersects(label) for label in labels):
                chart.taken.append(shape)
                return np.asarray(spot)
            second = second or (np.asarray(spot), shape)
    if second is not None:
        chart.taken.append(second[1])
        return second[0]
    return None
