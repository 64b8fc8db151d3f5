"""Where the viewer can be looked from: the view points of the stage."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..display.notes import Label, Line
from ..display.stage import Stage
from ..display.view import PANELS, ViewPoint
from .shapes import METRES, to_metres, turned

Array = NDArray[np.float64]
Values = dict[str, Any]

GROUPS = (("short piece", "Short pieces"), ("corner lap", "Laps"), ("corner", "Corners"))
LEFT_OUT = "findings"
"""Views for paper: a page has its own list of findings."""


def whole_places(stage: Stage) -> list[Values]:
    """Return the view points of the whole roof."""
    return [place_of(view) for view in stage.whole if not view.name.startswith(LEFT_OUT)]


def close_places(stage: Stage) -> list[Values]:
    """Return the view points close to the roof; tape marks are on every card, and need none."""
    order = [name for _, name in GROUPS]
    return [place_of(view) for view in sorted(stage.close, key=lambda view: order.index(_group(view.name)))]


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
        "points": _plain(to_metres(label.points)),
        "normals": _plain(turned(label.normals)),
        "kind": label.kind,
        "priority": label.priority,
        "mark": label.mark,
    }


def _line(line: Line) -> Values:
    return {
        "points": _plain(to_metres(line.points)),
        "kind": line.kind,
        "text": line.text,
    }


def _group(name: str) -> str:
    return next((group for begin, group in GROUPS if name.startswith(begin)), "Whole roof")


def _plain(points: Array) -> list[Any]:
    values: list[Any] = np.round(points, 5).tolist()
    return values
