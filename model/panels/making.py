"""Making panels: from the columns of a face to sheets, folded and set. What is alike is made once and moved."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely

from ..errors import GeometryError
from ..geometry.arrays import Array
from ..message import Listed, message
from ..roof.record import Face
from ..scene.schema import Scene
from ..sheet.sheet import Sheet
from ..sheet.solid import thicken_alike
from ..tolerances import POINT
from .columns import Column, Side
from .flat import Border, Flat
from .record import Edge, EndCut, Panel
from .shape import NEAR_HIP, edge_of, endings, panel_sheet
from .stuff import Stuff


@dataclass(slots=True)
class Maker:
    """What makes the panels of a roof, and the sheets that it has made so far.

    Attributes:
        stuff: What panels are made of.
        scene: What is asked of them.
        clip_spacing: The most between two clips, inches.
        made: Sheets by their form, and how long each was measured when it was made.
    """

    stuff: Stuff
    scene: Scene
    clip_spacing: float
    made: dict[object, tuple[Sheet, float]] = field(default_factory=dict)

    def panels(self, index: int, face: Face, flat: Flat, columns: Sequence[Column]) -> tuple[Panel, ...]:
        """Return the panels of one face from left to right.

        Args:
            index: Of the face.
            face: The face.
            flat: Its own plane.
            columns: Its parts, from left to right.

        Raises:
            GeometryError: a panel that cannot be made; says which.
        """
        if not columns:
            return ()
        stuff = self.stuff
        forms = [self._form(column, face.slope) for column in columns]
        groups: dict[object, list[int]] = {}
        for number, (column, form) in enumerate(zip(columns, forms, strict=True)):
            borders = tuple(side.borders for side in column.sides)
            groups.setdefault((form.key, form.length, borders), []).append(number)
        outlines = _raised(flat, [column.ring for column in columns], stuff.pan + stuff.thickness / 2)
        feet = _raised(flat, [np.array([one.left.start, one.left.end]) for one in columns], stuff.pan)
        panels: dict[int, Panel] = {}
        for numbers in groups.values():
            column, form = columns[numbers[0]], forms[numbers[0]]
            sheet = self._sheet(f"{face.name} {numbers[0] + 1}", column, form, face.slope)
            corners = np.array([(columns[number].left.start[0], forms[number].low) for number in numbers])
            placements = flat.placed(corners)
            like = self._alike(column, form)
            for number, placement, solid in zip(
                numbers, placements, thicken_alike(sheet, placements), strict=True
            ):
                panels[number] = Panel(
                    name=f"{face.name} {number + 1}",
                    face=index,
                    column=columns[number].number,
                    outline=outlines[number],
                    seams=(feet[number],) if form.edges[0] in ("over", "under") else (),
                    sheet=sheet,
                    placement=placement,
                    solid=solid,
                    cover=like.cover,
                    ripped=like.ripped,
                    edges=form.edges,
                    ends=like.ends,
                    borders=like.borders,
                    clips=like.clips,
                )
        return tuple([panels[number] for number in range(len(columns))])

    def _form(self, column: Column, slope: float) -> _Form:
        """Return the form of a column on a face of ``slope``, radians."""
        kinds: tuple[Edge, Edge] = ("over", "under")
        left, right = kinds if self.scene.panels.laid_from == "left" else kinds[::-1]
        height = self.stuff.seam.height
        edges = edge_of(column.left, left, height, slope), edge_of(column.right, right, height, slope)
        return _Form.of(column, edges, slope)

    def _alike(self, column: Column, form: _Form) -> _Alike:
        """Return what all panels of one form in a face have in common."""
        cover = float(column.right.start[0] - column.left.start[0])
        whole = {"over", "under"} == set(form.edges) and abs(cover - self.scene.panels.cover) <= POINT
        return _Alike(
            cover,
            None if whole else cover,
            (*(_end("low", side) for side in column.low), *(_end("high", side) for side in column.high)),
            frozenset(border.edge.name for side in column.sides for border in side.borders),
            _clips(column, form.edges, self.stuff, self.clip_spacing),
        )

    def _sheet(self, title: str, column: Column, form: _Form, slope: float) -> Sheet:
        """Return the sheet of a column: one of the same form that was made before, its high end moved, or a new one.

        Raises:
            GeometryError: it cannot be made, or runs into itself; says which panel it is.
        """
        known = self.made.get(form.key)
        if known is None:
            sheet = _checked(title, column, form.edges, self.stuff, slope)
            self.made[form.key] = sheet, form.length
            return sheet
        like, length = known
        if form.length == length:
            return like
        again = self.made.get((form.key, form.length))
        if again is None:
            sheet = Sheet(like.section, like.low, like.high.moved(form.length - length))
            again = self.made[form.key, form.length] = sheet, form.length
        return again[0]


@dataclass(frozen=True, slots=True)
class _Alike:
    """What panels of one form in a face have in common: see `Panel`."""

    cover: float
    ripped: float | None
    ends: tuple[EndCut, ...]
    borders: frozenset[str]
    clips: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Form:
    """What the sheet of a column depends on.

    Attributes:
        edges: How its two long edges are made.
        low: How far up the face it begins, inches.
        length: From there to the left end of its upper edge, inches.
        key: All else that its sheet depends on. Sheets of one key have the same two ends, only farther apart; where
            the ends reach into each other the length is part of it.
    """

    edges: tuple[Edge, Edge]
    low: float
    length: float
    key: object

    @staticmethod
    def of(column: Column, edges: tuple[Edge, Edge], slope: float) -> _Form:
        """Return the form of a column on a face of ``slope``, radians."""
        left = float(column.left.start[0])
        low = min(float(side.start[1]) for side in (*column.low, column.right))
        high = float(column.high[0].start[1])
        lines = [
            (round(x - left, 7), round(y - base, 7))
            for sides, base in ((column.low, low), (column.high, high))
            for side in sides
            for x, y in (side.start.tolist(), side.end.tolist())
        ]
        length = round(high - low, 7)
        far = min(column.left.length, column.right.length) > NEAR_HIP
        ends = [(one.ending, one.lip, one.up) if (one := side.border) else None for side in column.sides]
        key = (edges, tuple(lines), len(column.low), tuple(ends), round(slope, 9), None if far else length)
        return _Form(edges, low, length, key)


def _raised(flat: Flat, rings: Sequence[Array], height: float) -> list[Array]:
    """Return each of some ``(n, 2)`` lines at a height off the deck, ``(n, 3) float, inches, scene frame``."""
    points = flat.raised(np.concatenate(rings), height)
    return np.split(points, np.cumsum([len(ring) for ring in rings])[:-1])


def _checked(title: str, column: Column, edges: tuple[Edge, Edge], stuff: Stuff, slope: float) -> Sheet:
    """Return the sheet of a column; says which panel cannot be made, or runs into itself."""
    try:
        sheet = panel_sheet(column, edges, stuff, slope)
    except GeometryError as error:
        why = Listed(tuple(one.message for one in error.problems), "comma")
        raise GeometryError(message("panel {panel}: {told}", panel=title, told=why)) from None
    if not shapely.is_valid(sheet.pattern):
        told = message(
            "panel {panel}: its flat pattern runs into itself; another first seam or cover would do",
            panel=title,
        )
        raise GeometryError(told)
    return sheet


def _clips(column: Column, edges: tuple[Edge, Edge], stuff: Stuff, spacing: float) -> tuple[float, ...]:
    """Return where clips hold the edge that lies under: one at each end, none farther apart than allowed."""
    if "under" not in edges or stuff.flanged:
        return ()
    length = (column.left, column.right)[edges.index("under")].length
    count = math.ceil(length / spacing - POINT)
    return tuple(length * k / count for k in range(count + 1))


def _end(at: str, side: Side) -> EndCut:
    """Return one cut across a panel's end."""
    way = side.end - side.start
    border: Border | None = side.border
    name = border.edge.name if border is not None else ""
    return EndCut(
        "low" if at == "low" else "high",
        endings(border),
        math.atan2(way[1], way[0]),
        name,
        side.length,
        border.up if border is not None else 0.0,
    )
