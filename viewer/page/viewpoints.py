"""Where the viewer can be looked from: the view points of the stage."""

from __future__ import annotations

from typing import Any

import numpy as np

from trimwright.model.geometry.arrays import Array

from ..display.notes import Label, NoteLine
from ..display.stage import Stage
from ..display.view import PANELS, Subject, ViewPoint
from ..words.speaker import Speaker, told
from .shapes import METERS, to_meters, turned

Values = dict[str, Any]

SUBJECTS: tuple[Subject, ...] = ("short piece", "lap", "corner")
"""What views close to the roof are of, in the order of their groups; a piece's card has its tape marks."""


def whole_viewpoints(stage: Stage, say: Speaker) -> list[Values]:
    """Return the view points of the whole roof; those of findings are for paper, a page pins them itself."""
    return [viewpoint_of(view, say) for view in stage.whole if not view.pins]


def close_viewpoints(stage: Stage, say: Speaker) -> list[Values]:
    """Return the view points close to the roof."""
    close = [view for view in stage.close if view.subject in SUBJECTS]
    return [viewpoint_of(view, say) for view in sorted(close, key=lambda view: SUBJECTS.index(view.subject))]


def viewpoint_of(view: ViewPoint, say: Speaker) -> Values:
    """Return one view point as the viewer takes it: its first camera and what is seen from there."""
    shot = view.shots[0]
    close = view.subject != "roof"
    return {
        "name": view.name,
        "title": say(view.title),
        "group": view.subject,
        "note": ", ".join(say(note) for note in view.notes),
        "eye": _plain(to_meters(shot.eye)),
        "target": _plain(to_meters(shot.target)),
        "up": _plain(turned(shot.up)),
        "width": round(shot.width * METERS, 4),
        "height": round(shot.height * METERS, 4),
        "panels": bool(view.shows & PANELS),
        "coloring": view.coloring,
        "marks": view.coloring == "pieces" and not close,
        "focus": sorted(view.focus),
        "hidden": sorted(view.hidden),
        "highlight": sorted(view.highlight) if close else [],
        "apart": {mark: _plain(to_meters(shift)) for mark, shift in view.apart.items()},
        "labels": [label_of(label, say) for label in view.labels] if close else [],
        "lines": [_line(line, say) for line in view.lines],
    }


def label_of(label: Label, say: Speaker) -> Values:
    """Return a label as the viewer takes it."""
    return {
        "text": told(say, label.text),
        "points": _plain(to_meters(label.points)),
        "normals": _plain(turned(label.normals)),
        "kind": label.kind,
        "priority": label.priority,
        "mark": label.mark,
    }


def _line(line: NoteLine, say: Speaker) -> Values:
    return {
        "points": _plain(to_meters(line.points)),
        "kind": line.kind,
        "text": told(say, line.text),
    }


def _plain(points: Array) -> list[Any]:
    values: list[Any] = np.round(points, 5).tolist()
    return values
