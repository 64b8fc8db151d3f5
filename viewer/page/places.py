"""Where the viewer can be looked from: the view points of the stage, and one from the ladder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout

from ..display.camera import UP, Shot
from ..display.notes import Label, Line
from ..display.stage import Stage
from ..display.view import PANELS, ViewPoint
from .model_file import METRES, to_metres, turned

Array = NDArray[np.float64]
Values = dict[str, Any]

GROUPS = (("short piece", "Short pieces"), ("corner lap", "Laps"), ("corner", "Corners"))
LEFT_OUT = ("findings", "screws")
"""Views for paper: a page has its own list of findings, and tape marks on every card."""

LADDER = {"out": 40.0, "above": 44.0, "aside": 30.0}
"""Where the eye of a person on a ladder at the eave is: out from the edge, over it, along it, inches."""


def places_of(stage: Stage, layout: Layout) -> list[Values]:
    """Return every view point, the whole roof first."""
    views = [view for view in stage.viewpoints.values() if not view.name.startswith(LEFT_OUT)]
    whole = [view for view in views if _group(view.name) == "Whole roof"]
    rest = [view for view in views if view not in whole]
    order = [name for _, name in GROUPS]
    rest.sort(key=lambda view: order.index(_group(view.name)))
    return [place_of(view) for view in (*whole, *_from_the_ladder(layout), *rest)]


def place_of(view: ViewPoint) -> Values:
    """Return one view point as the viewer takes it: its first camera and what is seen from there."""
    shot = view.shots[0]
    return {
        "name": view.name,
        "title": view.title,
        "group": _group(view.name),
        "note": view.note,
        "eye": _plain(to_metres(shot.eye)),
        "target": _plain(to_metres(shot.target)),
        "up": _plain(turned(shot.up)),
        "width": round(shot.width * METRES, 4),
        "height": round(shot.height * METRES, 4),
        "panels": bool(view.shows & PANELS),
        "coloring": view.coloring,
        "marks": view.name.startswith("bare"),
        "focus": sorted(view.focus),
        "hidden": sorted(view.hidden),
        "highlight": [] if _group(view.name) == "Whole roof" else sorted(view.highlight),
        "apart": {mark: _plain(to_metres(shift)) for mark, shift in view.apart.items()},
        "labels": [] if _group(view.name) == "Whole roof" else [label_of(label) for label in view.labels],
        "lines": [_line(line) for line in view.lines],
    }


def label_of(label: Label) -> Values:
    """Return a label as the viewer takes it."""
    return {
        "text": label.text,
        "points": [_plain(point) for point in to_metres(label.points)],
        "normals": [_plain(normal) for normal in turned(label.normals)],
        "kind": label.kind,
        "priority": label.priority,
        "mark": label.mark,
    }


def _line(line: Line) -> Values:
    return {
        "points": [_plain(point) for point in to_metres(line.points)],
        "kind": line.kind,
        "text": line.text,
    }


def _group(name: str) -> str:
    return next((group for begin, group in GROUPS if name.startswith(begin)), "Whole roof")


def _from_the_ladder(layout: Layout) -> Iterator[ViewPoint]:
    """Yield the view of a person on a ladder at the lowest eave, near its end."""
    eaves = [edge for edge in layout.roof.edges if edge.kind == "eave"]
    if not eaves:
        return
    edge = min(eaves, key=lambda one: (round(float(one.start[2]), 3), one.outward[1]))
    out = edge.outward * [1, 1, 0]
    out = out / np.linalg.norm(out)
    foot = edge.end - edge.direction * min(LADDER["aside"], edge.length / 3)
    eye = foot + out * LADDER["out"] + UP * LADDER["above"]
    target = edge.end - edge.direction * min(72.0, edge.length / 2) - edge.outward * 30
    shows = frozenset({"deck", "fascia", "wall", "trim", *(PANELS if layout.scene.panels.show else ())})
    shot = Shot(eye, target, UP, 110.0, 110.0)
    yield ViewPoint("from the ladder", "From the ladder", (shot,), shows, "finish")


def _plain(point: Array | Sequence[float]) -> list[float]:
    return [round(float(value), 5) for value in point]
