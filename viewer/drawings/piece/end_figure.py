"""The flat ends of a kind, enlarged: the one at the left and its mirror image beside it, with every measure.

Along a piece every place is measured from the end of its blank. Across it, from what a rule hooks on to: from the
bends and edges of the formed piece, or from the inboard edge where the piece is cut flat. Nothing is added up from one
mark to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from trimwright.model.joints.end import End
from trimwright.model.message import Listed

from ...data.pattern_lines import is_mirrored, lines_of
from ...words.speaker import Speaker
from ..ink.drawing import Item, Stroke
from ..ink.letters import DESCENT, wrapped
from ..ink.shapes import lines
from ..ink.style import LINE, SMALL, SOFT
from ..paper.flow import Block
from .end_kinds import EndKind, PieceEnd
from .pattern import (
    BLUE,
    MARK,
    bend_items,
    bend_lines,
    bend_words,
    break_line,
    metal_items,
    tab_folds,
    turn_words,
)
from .placement import LEADER, Dimension, Placement, column, longest, merged, room_for, row, strokes
from .sheet_legend import end_forming
from .tape_hooks import from_hook

SCALES = tuple(1 / one for one in (1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 24, 30, 40))
"""Scales that are easily said; where measures in several languages leave less, they are in the first alone."""

FINE = 1 / 32
"""Corners that stand out less than this are drawn but not dimensioned, inches."""

GAP = 0.05
"""White between the metal and the first of its leaders, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """The measures of one end.

    Attributes:
        over: Along the piece, in its inboard half.
        under: In the other half, those left out that ``over`` has.
        across: Across the piece, at its end.
        bends: Its bends, at the break.
    """

    over: list[Dimension]
    under: list[Dimension]
    across: list[Dimension]
    bends: list[Dimension]


@dataclass(frozen=True, slots=True)
class FigureSides:
    """How wide the parts of a figure are, from its outer side to its break, inches on the paper.

    Attributes:
        across: The measures across the piece.
        metal: The metal.
        bends: The words of the bends.
        over: Height of the measures over it.
        under: Of those under it.
        scale: Inches on the paper for one inch of metal.
    """

    across: float
    metal: float
    bends: float
    over: float
    under: float
    scale: float


def figure(kind: EndKind, width: float, tall: float, say: Speaker, flat: bool) -> Block:
    """Return the ends of a kind, one for each hand that it has, the bends named between them.

    Args:
        kind: The kind.
        width: Room for it, inches.
        tall: Height of the metal at most, inches.
        say: Puts measures and bends into words.
        flat: The piece is cut flat: across it is measured from the inboard edge, too.
    """
    left, right = (next(iter(kind.hand(at_left)), None) for at_left in (True, False))
    shown = [one for one in (left, right) if one is not None]
    sides = _sides(shown, width, tall, say, flat)
    voice = say
    if sides.scale < SCALES[-1]:
        voice = say.alone()
        sides = _sides(shown, width, tall, voice, flat)
    told = " ".join(
        [say(end_forming(kind.first.end, flat)), _caption(sides.scale, say), *_tab_words(kind.first.end, say)]
    )
    head = wrapped(told, SMALL, width)
    down = SMALL * LINE * len(head) + 0.04
    items: list[Item] = list(lines(head, (0.0, 0.0), SMALL, color=SOFT))
    foot = -down
    second = sides.across + sides.metal + sides.bends
    for k, one in enumerate(shown):
        start = second if k else sides.across if one.at_left else sides.bends
        drawn, low = _end(one, start, -down, sides, voice, flat, named=k == 0)
        items += drawn
        foot = min(foot, low)
    return Block(-foot + SMALL * DESCENT + 0.06, tuple(items))


def width_for(kind: EndKind, tall: float, most: float, say: Speaker, flat: bool) -> float:
    """Return how wide a figure is whose metal is ``tall`` at most, itself at most ``most``, inches."""
    shown = [one for at_left in (True, False) for one in kind.hand(at_left)[:1]]
    sides = _sides(shown, most, tall, say, flat)
    if sides.scale < SCALES[-1]:
        sides = _sides(shown, most, tall, say.alone(), flat)
    return len(shown) * (sides.across + sides.metal) + sides.bends


def _caption(scale: float, say: Speaker) -> str:
    return say("Drawn flat, painted side up, {scale}.", scale=f"1:{1 / scale:g}")


def _sides(shown: Sequence[PieceEnd], width: float, tall: float, say: Speaker, flat: bool) -> FigureSides:
    """Return the parts of a figure at the largest scale that fits, alike for both hands."""
    marks = [_marks(one, Placement(0.0, (0.0, 0.0), 1.0, is_mirrored(one.part)), say, flat) for one in shown]
    across = max(longest(mark.across) for mark in marks) + LEADER + GAP
    bends = max(longest(mark.bends) for mark in marks) + LEADER * (2 if len(shown) > 1 else 1) + 2 * GAP
    over = max(longest(mark.over) for mark in marks) + LEADER + GAP
    under = max((longest(mark.under) + LEADER + GAP) if mark.under else GAP for mark in marks)
    long = max(_shown(one)[1] - _shown(one)[0] for one in shown)
    deep = max(one.part.sheet.pattern.bounds[3] - one.part.sheet.pattern.bounds[1] for one in shown)
    wide = (width - bends) / len(shown) - across
    limit = min(wide / long, tall / deep)
    scale = next((scale for scale in SCALES if scale <= limit + 1e-9), limit)
    return FigureSides(across, long * scale, bends, over, under, scale)


def _shown(one: PieceEnd) -> tuple[float, float]:
    """Return from where to where along the run an end's figure shows the metal, inches."""
    window, _ = _window(one)
    return max(window.bounds[0], one.part.low), min(window.bounds[2], one.part.high)


def _end(
    one: PieceEnd, left: float, top: float, sides: FigureSides, say: Speaker, flat: bool, named: bool
) -> tuple[list[Item], float]:
    """Return one end with its measures, and how far down they reach, inches on the paper."""
    part, end = one.part, one.end
    mirrored, (u0, u1) = is_mirrored(part), _shown(one)
    right = left + (u1 - u0) * sides.scale
    metal_top = top - sides.over
    _, v0, _, v1 = part.sheet.pattern.bounds
    place = Placement(u0, (right if mirrored else left, metal_top + v0 * sides.scale), sides.scale, mirrored)
    metal_low = metal_top - (v1 - v0) * sides.scale
    window, inner = _window(one)
    marks = _marks(one, place, say, flat)
    items: list[Item] = [
        *metal_items(part, place, window),
        *_break(one, place, window, inner),
        *bend_items(part, place, window, 0.007),
        *tab_folds(end, place),
        *_drawn(end, place),
        *row(marks.over, metal_top + GAP, left - 0.2, right + 0.2, up=True),
        *row(marks.under, metal_low - GAP, left - 0.2, right + 0.2, up=False),
    ]
    room = max(room_for(marks.across), metal_top - metal_low)
    middle = (metal_top + metal_low) / 2
    outer = left - GAP if one.at_left else right + GAP
    items += column(marks.across, outer, middle - room / 2, middle + room / 2, right=not one.at_left)
    low = min(metal_low - sides.under, middle - room / 2)
    if named:
        room = max(room_for(marks.bends), metal_top - metal_low)
        at = right + GAP if one.at_left else left - GAP
        items += column(marks.bends, at, middle - room / 2, middle + room / 2, right=one.at_left)
        low = min(low, middle - room / 2)
    return items, low


def _marks(one: PieceEnd, place: Placement, say: Speaker, flat: bool) -> Marks:
    """Return the measures of one end: over it, under it, at its end and at its break."""
    part, show = one.part, say.tape
    edge = shapely.get_coordinates(shapely.LineString(one.end.cut.edge).simplify(FINE))
    width = part.run.section.width
    points = [
        *map(tuple, edge.tolist()),
        *(p for tab in one.end.cut.tabs for p in map(tuple, tab.hinge)),
    ]

    def along(inboard: bool) -> list[Dimension]:
        found = [
            Dimension((place.x(u), place.y(v)), show(abs(u - one.blank)))
            for u, v in points
            if (v <= width / 2) == inboard
        ]
        return merged(found, 0)

    over = along(True)
    read = {mark.text for mark in over}
    across = [
        Dimension((place.x(u), place.y(v)), text) for u, v in points if (text := _across(one, v, say, flat))
    ]
    inner = place.x(_window(one)[1])
    bends = [
        Dimension((inner, place.y(v)), _bend(show(v), say(bend_words(bend)), flat), True)
        for bend, v in bend_lines(part)
    ]
    under = [mark for mark in along(False) if mark.text not in read]
    return Marks(over, under, merged(across, 1), merged(bends, 1))


def _bend(at: str, turn: str, flat: bool) -> str:
    return f"{at}  {turn}" if flat else turn


def _across(one: PieceEnd, v: float, say: Speaker, flat: bool) -> str:
    """Return what a rule reads at a place across the piece; nothing where a bend says it."""
    formed = from_hook(one.part.run.section, v)
    if flat:
        return say.tape(v) if formed is None else f"{say.tape(v)} ({say(formed)})"
    return "" if formed is None else say(formed)


def _window(one: PieceEnd) -> tuple[shapely.Polygon, float]:
    """Return the part of the sheet that an end's figure shows, up to a break, and ``u`` of that break."""
    part, end = one.part, one.end
    near, far = end.reach
    drawn = [u for step in end.steps for line in lines_of(step) for u in line[:, 0].tolist()]
    near, far = min([near, *drawn]), max([far, *drawn])
    low, high = part.sheet.extent
    room = max(1.2, (far - near) * 0.25)
    inner = min(far + room, high + 9) if end.at == "low" else max(near - room, low - 9)
    _, inboard, _, outboard = part.sheet.pattern.bounds
    teeth = break_line(inner, inboard - 1, outboard + 1, 0.12)
    outer = low - 9 if end.at == "low" else high + 9
    return shapely.Polygon([*teeth, (outer, outboard + 1), (outer, inboard - 1)]), inner


def _break(one: PieceEnd, place: Placement, window: shapely.Polygon, inner: float) -> list[Item]:
    low, high = one.part.sheet.extent
    if not low < inner < high:
        return []
    return strokes(window.boundary.intersection(one.part.sheet.pattern), place, 0.006, SOFT, name="break")


def _drawn(end: End, place: Placement) -> list[Item]:
    """Return the lines that the steps only draw on the metal."""
    return [
        Stroke(place(line), 0.006, BLUE, MARK, name="mark")
        for step in end.steps
        if step.verb == "mark"
        for line in lines_of(step)
    ]


def _tab_words(end: End, say: Speaker) -> tuple[str, ...]:
    """Return how far the tabs of one end are folded and which way, seen with the painted side up."""
    found = dict.fromkeys(say(turn_words(tab.angle)) for tab in end.cut.tabs)
    return (
        (say("Fold of the tab, thin dashes: {turns}.", turns=Listed(tuple(found), "comma")),) if found else ()
    )
