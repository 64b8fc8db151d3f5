"""The sheet of one panel: pan and edges as strips, its ends cut, set back and folded; made by the trim's own kernel."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..geometry.arrays import Array
from ..profiles.section import Section
from ..sheet.cut import path
from ..sheet.sheet import Cut, Sheet, Tab
from ..tolerances import CLEARANCE, POINT
from .columns import Column, Side
from .flaps import HOOK, MARGIN, flap, hooks_apart, miter_of, tapers_of, within
from .flat import Border, Ending
from .record import Edge
from .stuff import DRIP, Stuff, panel_section

NEAR_HIP = 24.0
"""A seam shorter than this, inches, ends under the turned-down end of a hip cap: its low end is cut plumb."""

FLANGE_BACK = 2.75
"""How far a fastening flange and its bend are cut back at the eave, inches: the next panel's end is folded there, and
cleats, where panels hook some, reach in so far and lap."""

SHORTEST = 2.0
"""A seam shorter than this, inches, is not folded: its edges are left off."""


def _flanges(section: Section) -> set[int]:
    """Return the strips of fastening flanges and of the bends beside them."""
    flat = {leg.strip for leg in section.legs if leg.name.endswith("flange")}
    bent = (bend for bend in section.bends if flat & {bend.first - 1, bend.last})
    return flat.union(*(range(bend.first, bend.last) for bend in bent))


def edge_of(side: Side, seam: Edge, height: float, slope: float) -> Edge:
    """Return how a panel's long edge is made: ``seam`` unless it lies on a border; cut where too short to turn up.

    Args:
        side: The edge.
        seam: How the seam's edge is made there.
        height: Of the seam, inches.
        slope: Of the face, radians: a short seam's low end is cut plumb.
    """
    if side.border is not None:
        too_short = side.border.ending == "turned up" and side.length < SHORTEST
        return "cut" if too_short else side.border.ending
    return seam if side.length >= SHORTEST + height * math.tan(slope) else "cut"


def panel_sheet(column: Column, edges: tuple[Edge, Edge], stuff: Stuff, slope: float) -> Sheet:
    """Return the sheet of a panel; its ``u`` is 0 at its lowest fold, its ``out`` at the column's left bound.

    Raises:
        GeometryError: the pan is too narrow, or a leg too short, for the bends beside it.
    """
    corner = np.array([column.left.start[0], min(side.start[1] for side in (*column.low, column.right))])
    width = round(float(column.right.start[0] - corner[0]), 9)
    lips = tuple(side.border.lip if side.border else None for side in (column.left, column.right))
    section = panel_section(stuff, edges, lips, width)
    outline = _Outline(section, column, edges, corner, stuff, slope)
    return Sheet(section, outline.cut(column.low, -1.0), outline.cut(column.high, 1.0))


class _Outline:
    """Where a panel's two ends are cut."""

    def __init__(
        self,
        section: Section,
        column: Column,
        edges: tuple[Edge, Edge],
        corner: Array,
        stuff: Stuff,
        slope: float,
    ) -> None:
        self.section, self.edges, self.corner, self.stuff = section, edges, corner, stuff
        self.pan = section.strip_of("pan")
        self.first, self.last = (float(x) for x in section.points[self.pan : self.pan + 2, 0])
        self.ends = (column.left, column.right)
        self.low, self.high = column.low, column.high
        self.slope = slope

    def cut(self, sides: Sequence[Side], sign: float) -> Cut:
        """Return the cut across one end, and the flaps that hang on it.

        Args:
            sides: The column's sides there, from left to right.
            sign: -1 at the low end, 1 at the high end.
        """
        section, pan = self.section, self.pan
        ends = np.empty((section.strips, 2))
        lines = section.points[:, 0]
        flanges = _flanges(section)
        for strip in range(section.strips):
            side = sides[0] if strip < pan else sides[-1]
            back = -sign * self._setback(side, self.edges[0 if strip < pan else 1])
            if strip in flanges and side.border is not None and side.border.ending == "hooked":
                back -= sign * FLANGE_BACK
            ends[strip] = [self._beside(side, float(x), sign) + back for x in lines[strip : strip + 2]]
            if sign < 0 and strip != pan and self.ends[0 if strip < pan else 1].length < NEAR_HIP:
                heights = np.maximum(section.points[strip : strip + 2, 1] - self.stuff.pan, 0.0)
                ends[strip] += np.round(heights * math.tan(self.slope), 9)
        for at, edge in enumerate(self.edges):
            side = sides[0 if at == 0 else -1]
            if edge == "hooked" and side.border is not None:
                self._end_hook(ends, at, sign, side)
        first, last = self._room(sides)
        tabs: list[Tab] = []
        inside: list[tuple[float, float]] = []
        for number, side in enumerate(sides):
            begin, end = (min(max(float(x - self.corner[0]), first), last) for x, _ in (side.start, side.end))
            upright = self._is_upright(side)
            if end - begin <= POINT and not upright:
                continue
            if number and begin > self.first + POINT and not upright:
                inside.append(self._flat(side, begin))
            beside = (
                sides[number - 1] if number else None,
                sides[number + 1] if number + 1 < len(sides) else None,
            )
            flaps = self._flaps(side, begin, end, sign, beside)
            inside += [(float(u), float(v)) for one in flaps[:1] for u, v in one.hinge]
            tabs += flaps
            if number + 1 < len(sides) and end < self.last - POINT and not upright:
                inside.append(self._flat(side, end))
        for at, (side, x, bound) in enumerate(((sides[0], self.first, first), (sides[-1], self.last, last))):
            ends[pan, at] = self._u_of(sides, x) if x == bound else self._beside(side, x, sign)
        for at, side in enumerate(self.ends):
            if side.length <= POINT:
                ends[pan, at] = round(float(side.start[1] - self.corner[1]), 9)
        kept = [point for i, point in enumerate(inside) if not i or point != inside[i - 1]]
        return Cut(path(section, ends, {pan: kept}), tuple(tabs))

    def _plumb(self, side: Side, at: int) -> float:
        """Return how far a turned-up flap draws in for each inch up where it begins at a point of the panel.

        There the trim that ends over it hangs down plumb along the low end's own side, and a flap square to the deck
        would lean out past it.
        """
        if self.ends[at].length > POINT:
            return 0.0
        low, way = self.low[0 if at == 0 else -1], (side.end - side.start) / side.length
        along, inward = (low.end - low.start) / low.length, way if at == 0 else -way
        apart = float(along[0] * inward[1] - along[1] * inward[0])
        return math.tan(self.slope) * float(along[0]) / apart if apart > POINT else 0.0

    def _u(self, side: Side, x: float) -> float:
        """Return how far up the slope a side, gone on, is at ``x``, inches from the column's corner."""
        start, way = side.start - self.corner, side.end - side.start
        return (
            round(float(start[1] + (x - start[0]) * way[1] / way[0]), 9)
            if way[0] > POINT
            else float(start[1])
        )

    def _beside(self, side: Side, x: float, sign: float) -> float:
        """Return where an edge ends at ``x``: on the side gone on, and short of it where it leans past the seam.

        There the next panel's end may turn the other way, as at the peak of a hip. At a side straight up the slope it
        ends where the seam leaves it.
        """
        if self._is_upright(side):
            return round(sign * min(sign * float(y - self.corner[1]) for _, y in (side.start, side.end)), 9)
        inside = min(max(x, float(side.start[0] - self.corner[0])), float(side.end[0] - self.corner[0]))
        way = side.end - side.start
        fall = abs(float(way[1] / way[0])) if way[0] > POINT else 0.0
        return round(self._u(side, inside) - sign * fall * abs(x - inside), 9)

    def _u_of(self, sides: Sequence[Side], x: float) -> float:
        for side in sides:
            if x <= side.end[0] - self.corner[0] + POINT:
                return self._u(side, x)
        return self._u(sides[-1], x)

    def _room(self, sides: Sequence[Side]) -> tuple[float, float]:
        """Return between which places of the pan its flaps lie: one that goes up beside a seam, clear of its bend."""
        upright = [float(side.start[0] - self.corner[0]) for side in sides if self._is_upright(side)]
        first, last = self.first + MARGIN, self.last - MARGIN
        return (
            first if min(upright, default=first) < first else self.first,
            last if max(upright, default=last) > last else self.last,
        )

    def _is_upright(self, side: Side) -> bool:
        """Return whether a side goes straight up the slope, as a rake does that begins within the panel's width."""
        return float(side.end[0] - side.start[0]) <= POINT < side.length

    def _flat(self, side: Side, x: float) -> tuple[float, float]:
        """Return a point of the pan's edge on the sheet."""
        return self._u(side, x), float(self.section.v[self.pan] + x - self.first)

    def _setback(self, side: Side, edge: Edge) -> float:
        """Return how far along ``u`` an edge is cut back from a side's fold, inches."""
        if edge in ("hooked", "turned down"):
            return CLEARANCE
        if side.border is None or side.border.ending != "turned up":
            return 0.0
        way = side.end - side.start
        return (self.stuff.thickness + CLEARANCE) * side.length / max(float(way[0]), POINT)

    def _end_hook(self, ends: Array, at: int, sign: float, side: Side) -> None:
        """Cut the hook along a border: on the line that halves its corner with the hook of the end.

        Beside the flap of another end it goes no farther out than at its own fold.
        """
        hook = self.section.strip_of("left hook" if at == 0 else "right hook")
        near, far = (1, 0) if at == 0 else (0, 1)
        if side.border is not None and side.border.ending == "hooked":
            across = self.section.v[hook + 1] - self.section.v[hook]
            ends[hook, far] = ends[hook, near] - sign * float(across) * miter_of(side, at, sign)
        else:
            ends[hook, far] = sign * min(sign * ends[hook, far], sign * ends[hook, near])

    def _flaps(
        self, side: Side, begin: float, end: float, sign: float, beside: tuple[Side | None, Side | None]
    ) -> list[Tab]:
        """Return the flaps folded along one side, the one that hangs on the pan first."""
        border = side.border
        if border is None or border.ending == "plain":
            return []
        first, last = (np.array(self._flat(side, x)) for x in (begin, end))
        if self._is_upright(side):
            last[0] += float(side.end[1] - side.start[1])
        length = float(np.linalg.norm(last - first))
        if length < 4 * MARGIN:
            return []
        margin = (last - first) * MARGIN / length
        hinge = np.array([first + margin, last - margin])
        before, after = beside
        taper = (tapers_of(before, side, sign)[1], tapers_of(side, after, sign)[0])
        if border.ending == "turned up":
            if not border.up:
                return []
            if sign > 0:
                taper = (max(taper[0], self._plumb(side, 0)), max(taper[1], self._plumb(side, 1)))
            taper = within(hinge, border.up, sign, taper, self.section.width)
            return [flap(self.pan, hinge, border.up, sign, -np.pi / 2, taper)]
        if border.ending == "turned down":
            return [flap(self.pan, hinge, DRIP, sign, np.pi / 2, taper)]
        assert border.lip is not None
        drop = flap(self.pan, hinge, self.stuff.drop(border.lip), sign, np.pi / 2, taper)
        back = (hooks_apart(before, side, sign)[1], hooks_apart(side, after, sign)[0])
        draws = [max(pair) for pair in zip(taper, back, self._kept_in(hinge, sign), strict=True)]
        for at, (edge, x, bound) in enumerate(
            zip(self.edges, (begin, end), (self.first, self.last), strict=True)
        ):
            if edge == "hooked" and abs(x - bound) < 1.0:
                draws[at] = miter_of(side, at, sign)
        return [drop, flap(self.pan, drop.flap[::-1], HOOK, sign, np.pi / 2, draws, drop)]

    def _kept_in(self, hinge: Array, sign: float) -> tuple[float, float]:
        """Return how far the two ends of a hook draw in for each inch, so that it lies back under its own pan.

        A side that leans, and begins between the panel's seams, would have it under the next panel as well, whose hook
        goes another way there; and where a panel runs out in a point it would stand out on the other side.

        Args:
            hinge: ``(2, 2) float, inches``: the fold line on the pan.
            sign: Which way along ``u`` the hook's flap stands out.
        """
        edges = self.section.v[self.pan : self.pan + 2]
        opposite = self.high if sign < 0 else self.low
        first, last = (
            self._draw(hinge, at, float(edges[at]), opposite[0 if at == 0 else -1], sign) for at in (0, 1)
        )
        return first, last

    def _draw(self, hinge: Array, at: int, edge: float, opposite: Side, sign: float) -> float:
        """Return how far one end of a hook draws in for each inch: see `_kept_in`.

        Args:
            hinge: ``(2, 2) float, inches``: the fold line on the pan.
            at: Its left (0) or its right (1) end.
            edge: ``v`` of the pan's edge there, inches.
            opposite: What bounds the pan at its other end there.
            sign: Which way along ``u`` the hook's flap stands out.
        """
        way, inward = (hinge[1] - hinge[0]) / np.linalg.norm(hinge[1] - hinge[0]), 1.0 if at == 0 else -1.0
        inner = hinge[at] - np.array([way[1], -way[0]]) * sign * HOOK
        room, bounds = abs(float(hinge[at, 1]) - edge), []
        if room > 2 * MARGIN:
            bounds.append((inner[1] * inward - edge * inward, np.array([0.0, inward]), 0.0))
        if room < 2 * HOOK and abs(float(opposite.end[0] - opposite.start[0])) > POINT:
            start, end = (
                np.array(self._flat(opposite, float(x[0] - self.corner[0])))
                for x in (opposite.start, opposite.end)
            )
            normal = np.array([end[1] - start[1], start[0] - end[0]]) * sign / np.linalg.norm(end - start)
            bounds.append(
                ((inner - start) @ normal, normal, HOOK if endings(opposite.border) == "hooked" else 0.0)
            )
        draws = [
            (need + MARGIN - float(off)) / (HOOK * float(way @ normal) * inward)
            for off, normal, need in bounds
            if off < need + MARGIN and way @ normal * inward > POINT
        ]
        return max(draws, default=0.0)


def endings(border: Border | None) -> Ending | None:
    """Return how a panel ends at a border."""
    return border.ending if border is not None else None
