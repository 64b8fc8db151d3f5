"""The flat pattern of a piece, painted side up and true to scale: each end enlarged.

Every mark is measured from the same two edges that a tape hooks on to: along the piece from its low end, across
it from its inboard edge. Nothing is added up from one mark to the next.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.profiles.section import Bend
from trimwright.model.screws import Screw
from trimwright.model.units import Tape

from ...data.traces import is_mirrored, lines_of
from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.letters import DESCENT
from ..ink.shapes import circle, lines
from ..ink.style import BODY, INK, LINE, SMALL, SOFT
from ..paper.flow import Block
from .placement import LEADER, Mark, Plate, column, longest, merged, room_for, row, strokes

Array = NDArray[np.float64]

SCALES = (
    1.0,
    1 / 2,
    1 / 2.5,
    1 / 3,
    1 / 4,
    1 / 5,
    1 / 6,
    1 / 8,
    1 / 10,
    1 / 12,
    1 / 16,
    1 / 20,
    1 / 24,
    1 / 30,
    1 / 40,
)
"""Scales that are easily said."""

FINE = 1 / 32
"""Corners that stand out less than this are drawn but not dimensioned, inches."""

UP, DOWN, FOLD, MARK = (0.11, 0.04), (0.16, 0.03, 0.03, 0.03), (0.05, 0.03), (0.03, 0.03)
"""Dashes of bends up, bends down, folds of tabs, and lines that are only drawn on the metal, inches."""

METAL = "#f4f4f2"
BLUE, GREEN = "#1f4fa3", "#0a6b2d"

SAMPLES = (
    ("edge", (0.016, INK, ())),
    ("bend down", (0.007, INK, DOWN)),
    ("bend up", (0.007, INK, UP)),
    ("fold of a tab", (0.012, GREEN, FOLD)),
)
"""What a reader has to know of the pattern: name; width, color and dashes."""


def scale_words(scale: float) -> str:
    """Return a scale as a drawing says it: ``1:4``."""
    return f"1:{1 / scale:g}"


def bend_words(bend: Bend) -> str:
    """Return how far a bend bends and which way, seen with the painted side up: ``45° down``."""
    return f"{math.degrees(abs(bend.angle)):.0f}° {'down' if bend.angle > 0 else 'up'}"


def bend_lines(part: Part) -> list[tuple[Bend, float]]:
    """Return the bends that a brake makes, each with ``v`` of the middle of its metal, inches."""
    v = part.run.section.v
    return [
        (bend, float(v[bend.first] + v[bend.last]) / 2)
        for bend in part.run.section.bends
        if bend.last > bend.first
    ]


def end_block(
    part: Part, end: End, width: float, height: float, show: Tape, screws: Sequence[Screw] = ()
) -> Block:
    """Return one end of the flat pattern, enlarged, with every mark that it takes to cut and fold it.

    Args:
        part: The piece.
        end: The end.
        width: Room for it, inches.
        height: The same; a larger scale is not chosen than fits both.
        show: Writes lengths.
        screws: Of the piece; those in the part that is shown are drawn.
    """
    mirrored = is_mirrored(part)
    window, inner = _window(part, end)
    plain = Plate(0.0, (0.0, 0.0), 1.0, mirrored)
    over, under, across, bends = _marks(part, end, plain, show)
    below, above = longest(under), longest(over)
    outer_room = longest(across) + LEADER + 0.05
    inner_room = longest(bends) + LEADER + 0.05
    u0, u1 = max(window.bounds[0], part.low), min(window.bounds[2], part.high)
    v0, v1 = min(0.0, float(part.sheet.outline[:, 1].min())), float(part.sheet.outline[:, 1].max())
    high_room = above + LEADER + 0.1 if over else 0.1
    low_room = below + LEADER + 0.1 if under else 0.1
    wide = width - outer_room - inner_room
    tall = height - high_room - low_room - 0.36 - SMALL * LINE * len(_tab_words(end))
    scale = _fitting(wide / (u1 - u0), tall / (v1 - v0))
    long, deep = (u1 - u0) * scale, (v1 - v0) * scale
    outer_left = (end.at == "low") != mirrored
    left = outer_room if outer_left else inner_room
    left += max(0.0, (wide - long)) * (0.0 if outer_left else 1.0)
    right = left + long
    tabs = _tab_words(end)
    top = -0.22 - SMALL * LINE * len(tabs) - high_room
    plate = Plate(u0, (right if mirrored else left, top + v0 * scale), scale, mirrored)
    bottom = top - deep
    over, under, across, bends = _marks(part, end, plate, show)
    items: list[Item] = [
        *metal_items(part, plate, window),
        *_break(part, plate, window, inner),
        *bend_items(part, plate, window, 0.007),
        *_tab_folds(end, plate),
        *_drawn(end, plate),
        *row(over, top + 0.05, left - 0.3, right + 0.3, up=True),
        *row(under, bottom - 0.05, left - 0.3, right + 0.3, up=False),
    ]
    room = max(room_for(across), room_for(bends), deep)
    middle = (top + bottom) / 2
    outer_x, inner_x = (left - 0.04, right + 0.04) if outer_left else (right + 0.04, left - 0.04)
    items += column(across, outer_x, middle - room / 2, middle + room / 2, right=not outer_left)
    items += column(bends, inner_x, middle - room / 2, middle + room / 2, right=outer_left)
    for screw in screws:
        if u0 <= part.low + screw.at <= u1 and window.contains(
            shapely.Point(part.low + screw.at, screw.across)
        ):
            items += screw_items((plate.x(part.low + screw.at), plate.y(screw.across)))
    foot = min(bottom - low_room, middle - room / 2) - 0.05
    says = f"{'Low' if end.at == 'low' else 'High'} end, painted side up, {scale_words(scale)}"
    items.append(Words(says, (0.0, -0.13), BODY, bold=True, color=INK, name="caption"))
    items += lines(tabs, (0.0, -0.17), SMALL, color=GREEN)
    return Block(-foot + SMALL * DESCENT, tuple(items))


def _marks(
    part: Part, end: End, plate: Plate, show: Tape
) -> tuple[list[Mark], list[Mark], list[Mark], list[Mark]]:
    """Return the tape marks of one end: over the pattern, under it, at its end and at its inner side."""
    low = part.low
    edge = shapely.get_coordinates(shapely.LineString(end.cut.edge).simplify(FINE))
    width = part.run.section.width
    points = [
        *map(tuple, edge.tolist()),
        *(p for tab in end.cut.tabs for p in map(tuple, tab.hinge)),
    ]
    over = [Mark(_at(plate, u, v), show(u - low)) for u, v in points if v <= width / 2]
    under = [Mark(_at(plate, u, v), show(u - low)) for u, v in points if v > width / 2]
    across = [Mark(_at(plate, u, v), show(v)) for u, v in points]
    end_of = {v: _end_at(part, end, v) for _, v in bend_lines(part)}
    inner = plate.x(_window(part, end)[1])
    bends = [
        Mark((inner, plate.y(v)), f"{show(v)}  {bend_words(bend)}", True)
        for bend, v in bend_lines(part)
        if end_of[v] is not None
    ]
    read = {mark.text for mark in over}
    rest = [mark for mark in under if mark.text not in read]
    return merged(over, 0), merged(rest, 0), merged(across, 1), merged(bends, 1)


def _at(plate: Plate, u: float, v: float) -> tuple[float, float]:
    return plate.x(float(u)), plate.y(float(v))


def _end_at(part: Part, end: End, v: float) -> float | None:
    """Return where a line across the width leaves the metal at one end, ``u`` in inches."""
    low, high = part.sheet.extent
    line = shapely.LineString([(low - 1, v), (high + 1, v)]).intersection(shapely.Polygon(part.sheet.outline))
    if line.is_empty:
        return None
    left, _, right, _ = line.bounds
    return float(left if end.at == "low" else right)


def _window(part: Part, end: End) -> tuple[shapely.Polygon, float]:
    """Return the part of the sheet that an end's picture shows, up to a break, and ``u`` of that break."""
    near, far = end.reach
    lines = [u for step in end.steps for line in lines_of(step) for u in line[:, 0].tolist()]
    near, far = min([near, *lines]), max([far, *lines])
    low, high = part.sheet.extent
    room = max(1.5, (far - near) * 0.3)
    inner = min(far + room, high + 9) if end.at == "low" else max(near - room, low - 9)
    _, inboard, _, outboard = part.sheet.pattern.bounds
    teeth = break_line(inner, inboard - 1, outboard + 1, 0.12)
    outer = low - 9 if end.at == "low" else high + 9
    return shapely.Polygon([*teeth, (outer, outboard + 1), (outer, inboard - 1)]), inner


def break_line(u: float, first: float, last: float, size: float) -> list[tuple[float, float]]:
    """Return a toothed line across the sheet from ``first`` to ``last``, its teeth ``size`` inches high."""
    count = max(2, round((last - first) / (6 * size)))
    steps = np.linspace(first, last, 2 * count + 1)
    return [(u + (0.0, size, 0.0, -size)[k % 4], float(v)) for k, v in enumerate(steps)]


def metal_items(part: Part, plate: Plate, window: shapely.Polygon) -> list[Item]:
    """Return the metal within ``window``: its area, and its edges."""
    pattern = part.sheet.pattern
    shown = pattern.intersection(window)
    items: list[Item] = []
    for piece in shapely.get_parts(shown):
        if piece.geom_type == "Polygon" and not piece.is_empty:
            rings = [piece.exterior, *piece.interiors]
            items.append(Area(tuple(plate(shapely.get_coordinates(r)[:-1]) for r in rings), METAL, "metal"))
    return [*items, *strokes(pattern.boundary.intersection(window), plate, 0.016, INK, name="outline")]


def _break(part: Part, plate: Plate, window: shapely.Polygon, inner: float) -> list[Item]:
    low, high = part.sheet.extent
    if not low < inner < high:
        return []
    return strokes(window.boundary.intersection(part.sheet.pattern), plate, 0.006, SOFT, name="break")


def bend_items(part: Part, plate: Plate, window: shapely.Polygon, width: float) -> list[Item]:
    """Return the bends within ``window``, each where the middle of its metal is."""
    shown = part.sheet.pattern.intersection(window)
    left, _, right, _ = shown.bounds
    items: list[Item] = []
    for bend, v in bend_lines(part):
        line = shapely.LineString([(left - 1, v), (right + 1, v)]).intersection(shown)
        away = bend.angle > 0
        name = "bend down" if away else "bend up"
        items += strokes(line, plate, width, INK, DOWN if away else UP, name)
    return items


def _tab_folds(end: End, plate: Plate) -> list[Item]:
    return [Stroke(plate(tab.hinge), 0.012, GREEN, FOLD, name="fold") for tab in end.cut.tabs]


def _tab_words(end: End) -> tuple[str, ...]:
    """Return how far the tabs of one end are folded and which way, seen with the painted side up."""
    found = dict.fromkeys(
        f"{math.degrees(abs(tab.angle)):.0f}° {'down' if tab.angle > 0 else 'up'}" for tab in end.cut.tabs
    )
    return (f"Fold of the tab, green dashes: {', '.join(found)}",) if found else ()


def _drawn(end: End, plate: Plate) -> list[Item]:
    """Return the lines that the steps only draw on the metal."""
    return [
        Stroke(plate(line), 0.006, BLUE, MARK, name="mark")
        for step in end.steps
        if step.verb == "mark"
        for line in lines_of(step)
    ]


def between(start: tuple[float, float], finish: tuple[float, float], text: str) -> list[Item]:
    """Return a dimension line between two places, level or upright, with its text beside its middle."""
    (x0, y0), (x1, y1) = start, finish
    level = abs(y1 - y0) < 1e-9
    across, along = (0.0, 0.045) if level else (0.045, 0.0)
    ends: list[Item] = [
        Stroke(((x - across, y - along), (x + across, y + along)), 0.006, SOFT, name="dimension")
        for x, y in (start, finish)
    ]
    line = Stroke((start, finish), 0.004, SOFT, name="dimension")
    if level:
        words = Words(text, ((x0 + x1) / 2, y0 + 0.04), SMALL, "middle", bold=True, name="dimension")
    else:
        words = Words(text, (x0 + 0.07, (y0 + y1) / 2 - SMALL * 0.36), SMALL, bold=True, name="dimension")
    return [line, *ends, words]


def screw_items(at: tuple[float, float], radius: float = 0.035) -> list[Item]:
    """Return the sign for a screw."""
    x, y = at
    return [
        Area((circle(at, radius, 12),), "#ffffff", "screw"),
        Stroke(circle(at, radius, 12), 0.007, INK, closed=True, name="screw"),
        Stroke(((x - radius, y), (x + radius, y)), 0.006, INK, name="screw"),
        Stroke(((x, y - radius), (x, y + radius)), 0.006, INK, name="screw"),
    ]


def _fitting(*most: float) -> float:
    """Return the largest scale of a ruler that is no larger than any of ``most``."""
    limit = min(most)
    return next((scale for scale in SCALES if scale <= limit + 1e-9), limit)
