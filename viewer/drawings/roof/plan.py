"""The roof plan and its key: faces, edges and piece marks, seen from above with the front below."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
import shapely.affinity

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Expanse
from trimwright.model.runs import Run
from trimwright.model.units import Tape

from ...report.words import lengths_of
from ...words.roof_names import named
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.lines_under_words import cleared
from ..ink.shapes import arrow
from ..ink.style import BODY, FAINT, INK, SOFT, WASH
from ..paper.flow import Block, TableColumn, heading, kept, space, table
from ..paper.page import Room
from ..paper.phrases import HANDS
from ..paper.pins import FindingPin, pins_of
from .plan_labels import Chart, edge_labels, ends_of_part, face_labels, outward, pinned, point_of

LOWEST, TALLEST = 3.3, 4.9
"""Height of the plan on the paper, inches: what its key leaves, within these."""

MANY, EACH, WHOLE = 9, 0.48, 7.2
"""A roof of more than so many edges takes so much height for each of them, inches, up to a whole page: its key follows
on the next."""

AROUND = 0.55
"""Room around the roof for names and marks, inches on the paper."""


def plan(layout: Layout, findings: Sequence[Finding], box: Room, say: Speaker) -> Iterator[Block]:
    """Yield the roof plan and its key; together they fill the page ``box``, or the plan has it and the key follows."""
    key = [*_edges(layout, box, say), space(0.12), *_faces(layout, box, say)]
    left, edges = box.height - sum(block.height for block in key) - 0.1, len(layout.roof.edges)
    tall = min(TALLEST, max(LOWEST, left)) if edges <= MANY else min(WHOLE, EACH * edges)
    yield _drawn(layout, pins_of(findings), box, tall, say)
    yield from key


def _edges(layout: Layout, box: Room, say: Speaker) -> Iterator[Block]:
    """Yield the key of edges: each with its trim and the pieces on it."""
    yield heading(say("Edges and their pieces"))
    columns = [
        TableColumn(say("Edge"), 2.2),
        TableColumn(say("Length"), 1.1, right=True),
        TableColumn(say("Trim"), 1.2),
        TableColumn(say("Hand"), 0.6),
        TableColumn(say("Pieces, low end first"), 3.0, bold=True),
        TableColumn(say("Lengths"), 2.6),
    ]
    rows = [_edge(run, layout, say) for run in layout.runs]
    rows += [(named(name, say), "", say("none"), "", "", "") for name in layout.untrimmed]
    yield from table(columns, rows, box.width)


def _edge(run: Run, layout: Layout, say: Speaker) -> tuple[str, ...]:
    """Return what the key says of one edge."""
    parts = layout.parts_of(run.name)
    marks = (say("{mark} (short)", mark=part.mark) if part.piece.short else part.mark for part in parts)
    return (
        named(run.name, say),
        say.tape(run.length),
        run.section.profile,
        say(HANDS[run.hand]) if run.hand else "",
        ", ".join(marks),
        lengths_of([part.length for part in parts], say.tape),
    )


def _faces(layout: Layout, box: Room, say: Speaker) -> list[Block]:
    """Return the key of faces."""
    columns = [
        TableColumn(say("Face"), 2),
        TableColumn(say("Pitch"), 1),
        TableColumn(say("Slope"), 1),
        TableColumn(say("Area"), 1.4),
        TableColumn(say("Panels"), 1),
    ]
    rows = [
        (
            named(face.name, say),
            say.tape.pitch(face.slope),
            _other(face.slope, say.tape),
            say("{area}", area=Expanse(face.area)),
            str(sum(panel.face == index for panel in layout.panels)),
        )
        for index, face in enumerate(layout.roof.faces)
    ]
    return [heading(say("Faces")), *kept(table(columns, rows, box.width * 0.7))]


def _other(slope: float, show: Tape) -> str:
    """Return a slope in the measure that its pitch is not written in: an angle, or a share."""
    return f"{math.degrees(slope):.1f}°" if show.style == "feet" else f"{100 * math.tan(slope):.1f} %"


def _drawn(layout: Layout, pins: Sequence[FindingPin], box: Room, tall: float, say: Speaker) -> Block:
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
            items.append(Stroke((point_of(a), point_of(b)), 0.004, FAINT, name="seam"))
    for face in layout.roof.faces:
        ring = tuple(point_of(chart.place(point)) for point in face.outline)
        items.append(Stroke(ring, 0.016, INK, closed=True, name="face"))
    items += _pieces(layout, chart)
    chart.taken.extend(shapely.LinearRing(item.rings[0]) for item in items if isinstance(item, Area))
    for edge in layout.roof.edges:
        chart.taken.append(shapely.LineString([chart.place(edge.start), chart.place(edge.end)]))
    items += _north(layout, chart, box.width, say)
    for face in layout.roof.faces:
        items += face_labels(face, chart, say)
    items += edge_labels(layout, chart, say)
    items += pinned(pins, chart)
    return Block(height + 0.1, tuple(cleared(items, ("seam", "pin line"))))


def _pieces(layout: Layout, chart: Chart) -> list[Item]:
    """Return a bar along each edge for every piece, the short ones dark."""
    items: list[Item] = []
    for part in layout.parts:
        a, b = ends_of_part(part, chart)
        side = outward(part) * 0.05
        if len(part.run.edge.faces) == 2:
            ring = (
                point_of(a - side / 2),
                point_of(b - side / 2),
                point_of(b + side / 2),
                point_of(a + side / 2),
            )
        else:
            ring = (point_of(a), point_of(b), point_of(b + side), point_of(a + side))
        items += [
            Area((ring,), SOFT if part.piece.short else WASH, "piece"),
            Stroke(ring, 0.007, INK, closed=True, name="piece"),
        ]
    return items


def _north(layout: Layout, chart: Chart, width: float, say: Speaker) -> list[Item]:
    if layout.scene.north is None:
        return []
    turn = math.radians(layout.scene.north)
    way = np.array([math.sin(turn), math.cos(turn)])
    middle = np.array([width - 0.3, -0.35])
    tip, tail = middle + way * 0.22, middle - way * 0.22
    chart.taken.append(shapely.Point(*middle).buffer(0.4))
    letter = middle + way * 0.33 - np.array([0.0, BODY * 0.36])
    return [
        *arrow(point_of(tail), point_of(tip), 0.018, INK, 0.14),
        Words(say("N"), point_of(letter), BODY, "middle", bold=True, color=INK, name="north"),
    ]
