"""The roof plan and its key: faces, edges and piece marks, seen from above with the front below."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout, Part
from trimwright.model.roof.record import Face

from ..report.words import lengths_of
from .clear import cleared
from .drawing import Area, Drawing, Item, Point, Stroke, Words
from .flow import Block, Column, flow, heading, kept, space, table
from .leaf import BODY, FAINT, INK, SMALL, SOFT, WASH, Box, Imprint, Paper, arrow, body_of, framed
from .letters import ASCENT, width_of
from .pins import HEIGHT, Pin, draw_pin, numbers, pin_width, pins_of, worst

Array = NDArray[np.float64]

LOWEST, TALLEST = 3.3, 4.9
"""Height of the plan on the paper, inches: what its key leaves, within these."""

AROUND = 0.55
"""Room around the roof for names and marks, inches on the paper."""


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


def plan(layout: Layout, findings: Sequence[Finding], paper: Paper, imprint: Imprint) -> tuple[Drawing, ...]:
    """Return the roof plan with its key, on as many leaves as the key takes."""
    box = body_of(paper)
    pages = flow(_blocks(layout, findings, box), box)
    title = "Roof plan and key"
    area = sum(face.area for face in layout.roof.faces)
    aside = f"{area_of(area, layout)} of deck"
    return tuple(
        framed(title if number == 1 else f"{title}, continued", items, paper, imprint, aside)
        for number, items in enumerate(pages, 1)
    )


def _blocks(layout: Layout, findings: Sequence[Finding], box: Box) -> Iterator[Block]:
    key = list(_key(layout, box))
    tall = min(TALLEST, max(LOWEST, box.height - sum(block.height for block in key) - 0.1))
    yield _drawn(layout, pins_of(findings), box, tall)
    yield from key


def _key(layout: Layout, box: Box) -> Iterator[Block]:
    show = layout.scene.tape
    yield heading("Edges and their pieces")
    columns = [
        Column("Edge", 2.2),
        Column("Length", 1.1, right=True),
        Column("Trim", 1.2),
        Column("Hand", 0.6),
        Column("Pieces, low end first", 3.0, bold=True),
        Column("Lengths", 2.6),
    ]
    rows = []
    for run in layout.runs:
        parts = [part for part in layout.parts if part.run is run]
        marks = ", ".join(f"{part.mark}{' (short)' if part.piece.short else ''}" for part in parts)
        rows.append(
            (
                run.name,
                show(run.length),
                run.section.profile,
                run.hand or "",
                marks,
                lengths_of([part.length for part in parts], show),
            )
        )
    rows += [(name, "", "none", "", "", "") for name in layout.untrimmed]
    yield from table(columns, rows, box.width)
    yield space(0.12)
    yield heading("Faces")
    faces = [
        Column("Face", 2),
        Column("Pitch", 1),
        Column("Slope", 1),
        Column("Area", 1.4),
        Column("Panels", 1),
    ]
    yield from kept(
        table(
            faces,
            [
                (
                    face.name,
                    pitch_of(face.slope),
                    f"{math.degrees(face.slope):.1f}°",
                    area_of(face.area, layout),
                    str(sum(panel.face == index for panel in layout.panels)),
                )
                for index, face in enumerate(layout.roof.faces)
            ],
            box.width * 0.7,
        )
    )


def pitch_of(slope: float) -> str:
    """Return a slope as its rise in 12: ``6/12``, ``7 1/2 /12`` is written ``7.5/12``."""
    return f"{round(12 * math.tan(slope), 2):g}/12"


def area_of(square_inches: float, layout: Layout) -> str:
    """Return an area the way the scene writes its lengths."""
    if layout.scene.show == "mm":
        return f"{square_inches * 25.4**2 / 1e6:.1f} m²"
    return f"{square_inches / 144:.0f} sq ft"


def _drawn(layout: Layout, pins: Sequence[Pin], box: Box, tall: float) -> Block:
    """Return the plan as a block at most ``tall`` inches high."""
    corners = np.concatenate([face.outline for face in layout.roof.faces])[:, :2]
    size = np.ptp(corners, axis=0)
    ratio = min((box.width - 2 * AROUND) / size[0], (tall - 2 * AROUND) / size[1])
    height = float(size[1] * ratio) + 2 * AROUND
    low = corners.min(axis=0)
    shift = np.array([(box.width - size[0] * ratio) / 2, AROUND - height]) - low * ratio
    chart = Chart(ratio, shift, shapely.box(0, -height, box.width, 0), [])
    items: list[Item] = []
    for panel in layout.panels:
        for seam in panel.seams:
            a, b = (chart.place(end) for end in seam)
            items.append(Stroke((_p(a), _p(b)), 0.004, FAINT, name="seam"))
    for face in layout.roof.faces:
        ring = tuple(_p(chart.place(point)) for point in face.outline)
        items.append(Stroke(ring, 0.016, INK, closed=True, name="face"))
    items += _pieces(layout, chart)
    chart.taken.extend(shapely.LinearRing(item.rings[0]) for item in items if isinstance(item, Area))
    for edge in layout.roof.edges:
        chart.taken.append(shapely.LineString([chart.place(edge.start), chart.place(edge.end)]))
    items += _north(layout, chart, box.width)
    for face in layout.roof.faces:
        items += _face(face, layout, chart)
    items += _edge_labels(layout, chart)
    items += _pinned(pins, chart)
    return Block(height + 0.1, tuple(cleared(items, ("seam", "pin line"))))


def _p(point: Array) -> Point:
    return float(point[0]), float(point[1])


def _pieces(layout: Layout, chart: Chart) -> list[Item]:
    """Return a bar along each edge for every piece, the short ones dark."""
    items: list[Item] = []
    for part in layout.parts:
        a, b = _ends(part, chart)
        side = _outward(part) * 0.05
        if len(part.run.edge.faces) == 2:
            ring = (_p(a - side / 2), _p(b - side / 2), _p(b + side / 2), _p(a + side / 2))
        else:
            ring = (_p(a), _p(b), _p(b + side), _p(a + side))
        items += [
            Area((ring,), SOFT if part.piece.short else WASH, "piece"),
            Stroke(ring, 0.007, INK, closed=True, name="piece"),
        ]
    return items


def _ends(part: Part, chart: Chart) -> tuple[Array, Array]:
    edge = part.run.edge
    low, high = max(part.low, 0.0), min(part.high, edge.length)
    return chart.place(edge.start + low * edge.direction), chart.place(edge.start + high * edge.direction)


def _outward(part: Part) -> Array:
    """Return the ``(2,)`` unit vector on the paper that points away from the face, or from the first face."""
    out = part.run.edge.outward[:2]
    return np.asarray(out / np.linalg.norm(out))


def _north(layout: Layout, chart: Chart, width: float) -> list[Item]:
    if layout.scene.north is None:
        return []
    turn = math.radians(layout.scene.north)
    way = np.array([math.sin(turn), math.cos(turn)])
    middle = np.array([width - 0.3, -0.35])
    tip, tail = middle + way * 0.22, middle - way * 0.22
    chart.taken.append(shapely.Point(*middle).buffer(0.4))
    letter = middle + way * 0.33 - np.array([0.0, BODY * 0.36])
    return [
        *arrow(_p(tail), _p(tip), 0.018, INK, 0.14),
        Words("N", _p(letter), BODY, "middle", bold=True, color=INK, name="north"),
    ]


def _face(face: Face, layout: Layout, chart: Chart) -> list[Item]:
    """Return the name, pitch and area of a face, and an arrow that points down its slope."""
    shape = shapely.Polygon([chart.place(point) for point in face.outline])
    down = np.array([math.sin(face.azimuth), math.cos(face.azimuth)])
    texts = (face.name, pitch_of(face.slope), area_of(face.area, layout))
    for size in (BODY, SMALL):
        for at in _inside(shape, down):
            label = _label(texts, at, size)
            tail, tip = _arrow_beside(at, down, texts, size)
            whole = shapely.union_all([label, shapely.LineString([tail, tip]).buffer(0.05)])
            if shape.contains(whole) and chart.free(whole):
                chart.taken.append(whole)
                return [*arrow(tail, tip, 0.016, INK, 0.11), *_written(texts, at, size)]
    return []


def _inside(shape: shapely.Polygon, down: Array) -> Iterator[Array]:
    """Yield places in a face, from its middle outward."""
    middle = shapely.maximum_inscribed_circle(shape, 0.02).coords[0]
    center = np.array(shape.centroid.coords[0])
    across = np.array([-down[1], down[0]])
    for start in (center, np.array(middle)):
        for step in (0.0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6):
            for aside in (0.0, 0.4, -0.4):
                yield start + step * down + aside * across


def _arrow_beside(at: Array, down: Array, texts: Sequence[str], size: float) -> tuple[Point, Point]:
    """Return an arrow down the slope that stands clear of a label in the middle of ``at``."""
    wide = max(width_of(text, size, bold=True) for text in texts) / 2 + 0.1
    tall = size * 1.3 * len(texts) / 2 + 0.06
    reach = min(wide / max(abs(down[0]), 1e-9), tall / max(abs(down[1]), 1e-9))
    return _p(at + down * reach), _p(at + down * (reach + 0.34))


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


def _edge_labels(layout: Layout, chart: Chart) -> list[Item]:
    """Return piece marks beside their pieces and the edge's name beside its middle, along the edge."""
    items: list[Item] = []
    for part in layout.parts:
        a, b = _ends(part, chart)
        items += _beside((a + b) / 2, b - a, _outward(part), part.mark, SMALL, True, "mark", chart)
    for edge in layout.roof.edges:
        a, b = chart.place(edge.start), chart.place(edge.end)
        out = edge.outward[:2] / np.linalg.norm(edge.outward[:2])
        items += _beside((a + b) / 2, b - a, -out, edge.name, SMALL, False, "edge", chart)
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
                    at = _p(center + drop)
                    return [Words(text, at, size, "middle", angle, bold, INK if bold else SOFT, name)]
    return []


def _turned(center: Array, angle: float, wide: float, size: float) -> shapely.Polygon:
    tall = size * 0.95
    box = shapely.box(-wide / 2 - 0.02, -tall / 2, wide / 2 + 0.02, tall / 2)
    turned = shapely.affinity.rotate(box, angle, origin=(0, 0))
    return shapely.affinity.translate(turned, *center.tolist())


def _pinned(pins: Iterable[Pin], chart: Chart) -> list[Item]:
    """Return the findings where they are, those of one place together, beside it with a line to it."""
    groups: list[tuple[Array, list[Pin]]] = []
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
                        Stroke(tuple(_p(end) for end in np.array(way.coords)), 0.007, INK, name="pin line")
                    )
            items += draw_pin(text, _p(spot), worst(group))
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
