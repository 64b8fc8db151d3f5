"""The flat pattern of a piece, painted side up and true to scale: each end enlarged.

Every mark is measured from the same two edges that a tape hooks on to: along the piece from its low end, across
it from its inboard edge. Nothing is added up from one mark to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.message import Angle, Listed, Message, message
from trimwright.model.profiles.section import Bend
from trimwright.model.screws import Screw

from ...data.pattern_lines import is_mirrored, lines_of
from ...words.speaker import Speaker
from ..ink.drawing import Area, Item, Stroke, Words
from ..ink.letters import DESCENT, wrapped
from ..ink.shapes import circle, lines
from ..ink.style import BODY, INK, LINE, SMALL, SOFT
from ..paper.flow import Block
from .placement import LEADER, Dimension, Placement, column, longest, merged, room_for, row, strokes

SCALES = tuple(1 / one for one in (1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 30, 40))
"""Scales that are easily said."""

FINE = 1 / 32
"""Corners that stand out less than this are drawn but not dimensioned, inches."""

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


def scale_words(scale: float) -> str:
    """Return a scale as a drawing says it: ``1:4``."""
    return f"1:{1 / scale:g}"


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


@dataclass(frozen=True, slots=True, eq=False)
class Enlarged:
    """One end of a flat pattern as it lies on the paper, with room for its tape marks.

    Attributes:
        part: The piece.
        end: The end.
        place: Where the sheet lies.
        window: What of it is shown, up to a break.
        inner: ``u`` of that break.
        left: Left side of the metal that is shown, inches on the paper.
        right: Its right side.
        top: Its top.
        bottom: Its bottom.
        over: Tape marks over it.
        under: Those under it.
        across: Those at its end.
        bends: Those at its inner side, with the words of bends.
    """

    part: Part
    end: End
    place: Placement
    window: shapely.Polygon
    inner: float
    left: float
    right: float
    top: float
    bottom: float
    over: list[Dimension]
    under: list[Dimension]
    across: list[Dimension]
    bends: list[Dimension]

    @property
    def outward_left(self) -> bool:
        """Whether the end itself is at the left."""
        return (self.end.at == "low") != self.place.mirrored


def end_block(
    part: Part, end: End, width: float, height: float, say: Speaker, screws: Sequence[Screw] = ()
) -> Block:
    """Return one end of the flat pattern, enlarged, with every mark that it takes to cut and fold it.

    Args:
        part: The piece.
        end: The end.
        width: Room for it, inches.
        height: The same; a larger scale is not chosen than fits both.
        say: Puts its marks and bends into words.
        screws: Of the piece; those in the part that is shown are drawn.
    """
    tabs = [one for text in _tab_words(end, say) for one in wrapped(text, SMALL, width)]
    view = _enlarged(part, end, width, height, 0.22 + SMALL * LINE * len(tabs), say)
    beside, foot = _dimensions(view)
    items: list[Item] = [
        *metal_items(part, view.place, view.window),
        *_break(part, view.place, view.window, view.inner),
        *bend_items(part, view.place, view.window, 0.007),
        *tab_folds(end, view.place),
        *_drawn(end, view.place),
        *beside,
        *_screws(view, screws),
        Words(_caption(end, view.place.scale, say), (0.0, -0.13), BODY, bold=True, color=INK, name="caption"),
        *lines(tabs, (0.0, -0.17), SMALL, color=GREEN),
    ]
    return Block(-foot + SMALL * DESCENT, tuple(items))


def _enlarged(part: Part, end: End, width: float, height: float, head: float, say: Speaker) -> Enlarged:
    """Return where an end lies on the paper at the largest scale that fits, its tape marks beside it."""
    mirrored = is_mirrored(part)
    window, inner = _window(part, end)
    over, under, across, bends = _marks(part, end, Placement(0.0, (0.0, 0.0), 1.0, mirrored), say)
    outer_room = longest(across) + LEADER + 0.05
    inner_room = longest(bends) + LEADER + 0.05
    high_room = longest(over) + LEADER + 0.1 if over else 0.1
    low_room = longest(under) + LEADER + 0.1 if under else 0.1
    u0, u1 = max(window.bounds[0], part.low), min(window.bounds[2], part.high)
    v0, v1 = min(0.0, float(part.sheet.outline[:, 1].min())), float(part.sheet.outline[:, 1].max())
    wide = width - outer_room - inner_room
    tall = height - high_room - low_room - 0.14 - head
    scale = _fitting(wide / (u1 - u0), tall / (v1 - v0))
    long, deep = (u1 - u0) * scale, (v1 - v0) * scale
    outer_left = (end.at == "low") != mirrored
    left = outer_room if outer_left else inner_room + max(0.0, wide - long)
    top = -head - high_room
    place = Placement(u0, (left + long if mirrored else left, top + v0 * scale), scale, mirrored)
    marks = _marks(part, end, place, say)
    return Enlarged(part, end, place, window, inner, left, left + long, top, top - deep, *marks)


def _dimensions(view: Enlarged) -> tuple[list[Item], float]:
    """Return the tape marks on all four sides, and how far down they reach on the paper, inches."""
    left, right, top, bottom = view.left, view.right, view.top, view.bottom
    items = [
        *row(view.over, top + 0.05, left - 0.3, right + 0.3, up=True),
        *row(view.under, bottom - 0.05, left - 0.3, right + 0.3, up=False),
    ]
    room = max(room_for(view.across), room_for(view.bends), top - bottom)
    middle, outer_left = (top + bottom) / 2, view.outward_left
    outer_x, inner_x = (left - 0.04, right + 0.04) if outer_left else (right + 0.04, left - 0.04)
    items += column(view.across, outer_x, middle - room / 2, middle + room / 2, right=not outer_left)
    items += column(view.bends, inner_x, middle - room / 2, middle + room / 2, right=outer_left)
    low_room = longest(view.under) + LEADER + 0.1 if view.under else 0.1
    return items, min(bottom - low_room, middle - room / 2) - 0.05


def _screws(view: Enlarged, screws: Sequence[Screw]) -> list[Item]:
    """Return the screws in the part of the sheet that is shown."""
    items: list[Item] = []
    u0, u1 = sorted((view.place.u(view.left), view.place.u(view.right)))
    for screw in screws:
        u = view.part.low + screw.at
        if u0 - 1e-9 <= u <= u1 + 1e-9 and view.window.contains(shapely.Point(u, screw.across)):
            items += screw_items((view.place.x(u), view.place.y(screw.across)))
    return items


def _caption(end: End, scale: float, say: Speaker) -> str:
    if end.at == "low":
        return say("Low end, painted side up, {scale}", scale=scale_words(scale))
    return say("High end, painted side up, {scale}", scale=scale_words(scale))


def _marks(
    part: Part, end: End, place: Placement, say: Speaker
) -> tuple[list[Dimension], list[Dimension], list[Dimension], list[Dimension]]:
    """Return the tape marks of one end: over the pattern, under it, at its end and at its inner side."""
    low, show = part.low, say.tape
    edge = shapely.get_coordinates(shapely.LineString(end.cut.edge).simplify(FINE))
    width = part.run.section.width
    points = [
        *map(tuple, edge.tolist()),
        *(p for tab in end.cut.tabs for p in map(tuple, tab.hinge)),
    ]
    over = [Dimension(_at(place, u, v), show(u - low)) for u, v in points if v <= width / 2]
    under = [Dimension(_at(place, u, v), show(u - low)) for u, v in points if v > width / 2]
    across = [Dimension(_at(place, u, v), show(v)) for u, v in points]
    end_of = {v: _end_at(part, end, v) for _, v in bend_lines(part)}
    inner = place.x(_window(part, end)[1])
    bends = [
        Dimension((inner, place.y(v)), f"{show(v)}  {say(bend_words(bend))}", True)
        for bend, v in bend_lines(part)
        if end_of[v] is not None
    ]
    read = {mark.text for mark in over}
    rest = [mark for mark in under if mark.text not in read]
    return merged(over, 0), merged(rest, 0), merged(across, 1), merged(bends, 1)


def _at(place: Placement, u: float, v: float) -> tuple[float, float]:
    return place.x(float(u)), place.y(float(v))


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


def metal_items(part: Part, place: Placement, window: shapely.Polygon, weight: float = 0.016) -> list[Item]:
    """Return the metal within ``window``: its area, and its edges."""
    pattern = part.sheet.pattern
    shown = pattern.intersection(window)
    items: list[Item] = []
    for piece in shapely.get_parts(shown):
        if piece.geom_type == "Polygon" and not piece.is_empty:
            rings = [piece.exterior, *piece.interiors]
            items.append(Area(tuple(place(shapely.get_coordinates(r)[:-1]) for r in rings), METAL, "metal"))
    return [*items, *strokes(pattern.boundary.intersection(window), place, weight, INK, name="outline")]


def _break(part: Part, place: Placement, window: shapely.Polygon, inner: float) -> list[Item]:
    low, high = part.sheet.extent
    if not low < inner < high:
        return []
    return strokes(window.boundary.intersection(part.sheet.pattern), place, 0.006, SOFT, name="break")


def bend_items(part: Part, place: Placement, window: shapely.Polygon, width: float) -> list[Item]:
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


def tab_folds(end: End, place: Placement, window: shapely.Polygon | None = None) -> list[Item]:
    """Return the folds of an end's tabs, or what of them is within ``window``."""
    folds = [shapely.LineString(tab.hinge) for tab in end.cut.tabs]
    shown = folds if window is None else [fold.intersection(window) for fold in folds]
    return [item for fold in shown for item in strokes(fold, place, 0.012, GREEN, FOLD, "fold")]


def _tab_words(end: End, say: Speaker) -> tuple[str, ...]:
    """Return how far the tabs of one end are folded and which way, seen with the painted side up."""
    found = dict.fromkeys(say(turn_words(tab.angle)) for tab in end.cut.tabs)
    return (
        (say("Fold of the tab, green dashes: {turns}", turns=Listed(tuple(found), "comma")),) if found else ()
    )


def _drawn(end: End, place: Placement) -> list[Item]:
    """Return the lines that the steps only draw on the metal."""
    return [
        Stroke(place(line), 0.006, BLUE, MARK, name="mark")
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
