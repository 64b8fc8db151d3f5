"""The lines of a flat pattern, painted side up and true to scale: metal, bends, folds of tabs, and breaks."""

from __future__ import annotations

import numpy as np
import shapely

from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.message import Angle, Message, message
from trimwright.model.profiles.section import Bend

from ..ink.drawing import Area, Item
from ..ink.style import INK
from .placement import Place, strokes

UP, DOWN, FOLD, MARK = (0.11, 0.04), (0.16, 0.03, 0.03, 0.03), (0.05, 0.03), (0.03, 0.03)
"""Dashes of bends up, bends down, folds of tabs, and lines that are only drawn on the metal, inches."""

METAL = "#f4f4f2"
BLUE, GREEN = "#1f4fa3", "#0a6b2d"

SAMPLES = (
    (message("edge"), (0.016, INK, ())),
    (message("bend down"), (0.007, INK, DOWN)),
    (message("bend up"), (0.007, INK, UP)),
    (message("fold of a tab"), (0.012, GREEN, FOLD)),
)
"""What a reader has to know of the pattern: name; width, color and dashes."""


def bend_words(bend: Bend) -> Message:
    """Return how far a bend bends and which way, seen with the painted side up: ``45° down``."""
    return turn_words(bend.angle)


def turn_words(angle: float) -> Message:
    """Return how far metal is bent or folded and which way, seen with the painted side up."""
    degrees = Angle(abs(angle))
    return message("{angle}° down", angle=degrees) if angle > 0 else message("{angle}° up", angle=degrees)


def bend_lines(part: Part) -> list[tuple[Bend, float]]:
    """Return the bends that a brake makes, each with ``v`` of the middle of its metal, inches."""
    v = part.run.section.v
    return [
        (bend, float(v[bend.first] + v[bend.last]) / 2)
        for bend in part.run.section.bends
        if bend.last > bend.first
    ]


def break_line(u: float, first: float, last: float, size: float) -> list[tuple[float, float]]:
    """Return a toothed line across the sheet from ``first`` to ``last``, its teeth ``size`` inches high."""
    count = max(2, round((last - first) / (6 * size)))
    steps = np.linspace(first, last, 2 * count + 1)
    return [(u + (0.0, size, 0.0, -size)[k % 4], float(v)) for k, v in enumerate(steps)]


def metal_items(part: Part, place: Place, window: shapely.Polygon, weight: float = 0.016) -> list[Item]:
    """Return the metal within ``window``: its area, and its edges."""
    pattern = part.sheet.pattern
    shown = pattern.intersection(window)
    items: list[Item] = []
    for piece in shapely.get_parts(shown):
        if piece.geom_type == "Polygon" and not piece.is_empty:
            rings = [piece.exterior, *piece.interiors]
            items.append(Area(tuple(place(shapely.get_coordinates(r)[:-1]) for r in rings), METAL, "metal"))
    return [*items, *strokes(pattern.boundary.intersection(window), place, weight, INK, name="outline")]


def bend_items(part: Part, place: Place, window: shapely.Polygon, width: float) -> list[Item]:
    """Return the bends within ``window``, each where the middle of its metal is."""
    shown = part.sheet.pattern.intersection(window)
    if shown.is_empty:
        return []
    left, _, right, _ = shown.bounds
    items: list[Item] = []
    for bend, v in bend_lines(part):
        line = shapely.LineString([(left - 1, v), (right + 1, v)]).intersection(shown)
        away = bend.angle > 0
        name = "bend down" if away else "bend up"
        items += strokes(line, place, width, INK, DOWN if away else UP, name)
    return items


def tab_folds(end: End, place: Place, window: shapely.Polygon | None = None) -> list[Item]:
    """Return the folds of an end's tabs, or what of them is within ``window``."""
    folds = [shapely.LineString(tab.hinge) for tab in end.cut.tabs]
    shown = folds if window is None else [fold.intersection(window) for fold in folds]
    return [item for fold in shown for item in strokes(fold, place, 0.012, GREEN, FOLD, "fold")]
