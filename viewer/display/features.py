"""What can be pointed at on a cut piece: its tabs, the lines of its cuts, its ends."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.message import Length, Message, message
from trimwright.model.sheet.sheet import Tab

from .notes import OFF, Label, NoteLine, label_at
from .trim_bodies import on_strip, on_tab
from .view import Entry

SEEN_STEPS = ("cut", "fold")
"""Steps whose line is drawn on the metal."""

SHOWN = 1 / 32
"""A shorter line is a point; it is not drawn, inches."""


def tab_label(part: Part, end: End, tab: Tab) -> Label:
    """Return the label of a tab that is folded round a corner, or of an end that is turned up or down."""
    middle = np.concatenate([tab.hinge, tab.flap, tab.flap]).mean(axis=0)
    point, normal = on_tab(part, tab, middle[None], OFF)
    width = Length(tab.width)
    if tab is end.tab:
        text = message("tab {width}\nfolded round the corner", width=width)
    elif tab.angle < 0:
        text = message("turned up {width}", width=width)
    else:
        text = message("turned down {width}", width=width)
    return Label(text, point, normal[None], "note", 7, part.mark)


def end_points(part: Part, end: End, reach: float) -> Array:
    """Return ``(n, 3)`` points of a piece's section at its end and ``reach`` inches in from there."""
    inward = min(reach, part.length)
    places = []
    for away in (end.outermost, end.inward(inward)):
        local = np.column_stack([np.full(len(part.sheet.section.points), away), part.sheet.section.points])
        places.append(local @ part.placement[:3, :3].T + part.placement[:3, 3])
    return np.concatenate(places)


def end_label(part: Part, end: End, text: Message | str, reach: float, priority: int = 6) -> Label:
    """Return a label for a piece that points at its broad legs within ``reach`` inches of one end."""
    stops = [end.inward(min(reach, part.length) * share) for share in (0.75, 0.5, 0.95, 0.3)]
    return label_at(part, stops, text, "piece", priority)


def traced(part: Part, line: Sequence[tuple[float, float]]) -> tuple[Array, Array]:
    """Return where a line on the flat sheet lies on the folded piece: ``(k, 3)`` points and their normals."""
    flat = np.array(line, dtype=float)
    for tab in part.sheet.tabs:
        flap = shapely.Polygon(np.concatenate([tab.hinge, tab.flap])).buffer(0.01)
        hinge = shapely.LineString(tab.hinge).buffer(0.01)
        drawn = shapely.LineString(flat)
        if flap.covers(drawn) and not hinge.covers(drawn):
            points, normal = on_tab(part, tab, flat, OFF / 4)
            return points, np.tile(normal, (len(points), 1))
    v = part.sheet.section.v
    places, normals = [], []
    for first, last in pairwise(flat):
        between = np.sort([first[1], last[1]])
        shares = [0.0, 1.0]
        if between[1] - between[0] > 1e-9:
            inner = v[(v > between[0] + 1e-9) & (v < between[1] - 1e-9)]
            shares += [float((at - first[1]) / (last[1] - first[1])) for at in inner]
        stops = np.array([first + share * (last - first) for share in sorted(shares)])
        for start, end in pairwise(stops):
            strip = int(np.clip(np.searchsorted(v, (start[1] + end[1]) / 2, side="right") - 1, 0, len(v) - 2))
            points, normal = on_strip(part, strip, np.array([start, end]), OFF / 4)
            places.append(points)
            normals += [normal, normal]
    return np.concatenate(places), np.array(normals)


def work_at(part: Part, end: End) -> tuple[list[Label], list[NoteLine], list[Entry]]:
    """Return the work at one end of a piece: numbers and lines on the metal where it is cut and folded, and all steps.

    The numbers are those of the cut sheet.
    """
    labels, lines = [], []
    told = [Entry(number, step.says) for number, step in enumerate(end.steps, 1)]
    for number, step in enumerate(end.steps, 1):
        if step.verb not in SEEN_STEPS:
            continue
        drawn = [traced(part, line) for line in step.lines if len(line) > 1 and _length(line) > SHOWN]
        lines += [NoteLine(points, "cut", mark=part.mark) for points, _ in drawn]
        if drawn:
            points, normals = max(drawn, key=lambda one: _length(one[0]))
            middle = len(points) // 2
            places = np.array([(points[middle] + points[middle - 1]) / 2, *points])
            facing = np.array([normals[middle], *normals])
            labels.append(Label(str(number), places + facing * OFF, facing, "step", 4, part.mark))
    return labels, lines, told


def _length(line: Sequence[Sequence[float]] | Array) -> float:
    """Return the length of a line through points, inches."""
    return float(np.linalg.norm(np.diff(np.asarray(line, dtype=float), axis=0), axis=1).sum())
