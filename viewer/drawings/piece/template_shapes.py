"""What has a full-size template: faces that are cut to fit a corner, and wings of caps whose ends are turned down.

Both hands of a face have one each. Wings that are cut alike share one, whatever end they are at: one that is the mirror
image is drawn with the paper turned over.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import Listed, Message, Value, message
from trimwright.model.profiles.leg_words import leg_words
from trimwright.model.profiles.section import Bend
from trimwright.model.sheet.sheet import Tab
from trimwright.model.tolerances import TAPE

from ...words.speaker import Speaker
from .end_kinds import SAME, EndKind, PieceEnd
from .pattern import bend_lines

NAMED = 4
"""Pieces that a template names."""

CAPS = ("ridge", "hip")
"""Trim whose wings have templates."""


@dataclass(frozen=True, slots=True, eq=False)
class CapWing:
    """One wing of a cap's end.

    Attributes:
        kind: The kind of end.
        one: An end of that kind.
        leg: The wing's name.
    """

    kind: EndKind
    one: PieceEnd
    leg: str

    @property
    def across(self) -> tuple[float, float]:
        """Where it lies across the sheet, from the middle bend to its edge, inches."""
        _, first, _, last = self.one.part.sheet.pattern.bounds
        middle = self.one.part.run.section.width / 2
        return (first, middle) if self.leg == "left wing" else (middle, last)

    @property
    def turned(self) -> bool:
        """Which of its two mirror images it is."""
        return self.one.at_left == (self.leg == "left wing")

    @property
    def outline(self) -> Array:
        """Its cut, ``(n, 2) float, inches``: from the end of the blank, and from the middle bend."""
        cut = shapely.LineString(self.one.inward(self.one.end.cut.edge)).intersection(
            shapely.box(-1e4, self.across[0], 1e4, self.across[1])
        )
        points = shapely.get_coordinates(cut)
        return np.stack([points[:, 0], np.abs(points[:, 1] - self.one.part.run.section.width / 2)], axis=1)


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """What a template is of.

    Attributes:
        kind: The kind of end.
        one: The end that is drawn.
        across: What of it across the sheet is drawn, inches.
        wings: Those that it serves; none where it is a face's.
    """

    kind: EndKind
    one: PieceEnd
    across: tuple[float, float]
    wings: tuple[CapWing, ...] = ()

    @property
    def band(self) -> shapely.Polygon:
        """What of the sheet it is about, across."""
        return shapely.box(-1e4, self.across[0], 1e4, self.across[1])

    @property
    def metal(self) -> shapely.Geometry:
        """That of the sheet."""
        return self.one.part.sheet.pattern.intersection(self.band)

    @property
    def worked(self) -> shapely.Geometry:
        """The lines that are cut and folded at its end."""
        cut = self.one.end.cut
        lines = [shapely.LineString(cut.edge), *(shapely.LineString(tab.hinge) for tab in cut.tabs)]
        return shapely.union_all([line.intersection(self.band) for line in lines])

    @property
    def flap(self) -> Tab | None:
        """What is turned down at the end of a wing; None of a face."""
        if not self.wings:
            return None
        return max(self.one.end.cut.tabs, key=lambda tab: self._fold(tab).length)

    @property
    def hinge(self) -> Array | None:
        """Where the flap of a wing is folded, ``(n, 2) float``, inches on the sheet; None of a face."""
        return None if self.flap is None else np.asarray(shapely.get_coordinates(self._fold(self.flap)))

    def _fold(self, tab: Tab) -> shapely.Geometry:
        return shapely.LineString(tab.hinge).intersection(self.band)

    @property
    def bends(self) -> list[tuple[Bend, float]]:
        """Its bends, each with ``v`` of the middle of its metal, inches."""
        first, last = self.across
        return [(bend, v) for bend, v in bend_lines(self.one.part) if first <= v <= last]

    def head(self, number: int, count: int, middle: Message | None, say: Speaker) -> tuple[str, ...]:
        """Return what stands over a tile of it: what it is, the pieces that it serves, and how to lay it on."""
        if self.wings:
            ways = [
                [wing for wing in self.wings if wing.turned == turned]
                for turned in _both(self.wings[0].turned)
            ]
            first, *over = (Listed(tuple(_told(wing) for wing in way)) for way in ways if way)
            title = say("{ends}", ends=first)
            below = [say("turned over: {ends}", ends=each) for each in over]
        else:
            code = self.kind.code
            title = (
                say("{code}, at the left", code=code)
                if self.one.at_left
                else say("{code}, at the right", code=code)
            )
            below = []
        if count > 1:
            title = say("{code}: tile {number} of {count}", code=title, number=number, count=count)
        owners = [wing.one for wing in self.wings] or [self.one]
        ends = [each for one in owners for each in self._alike(one)]
        marks = ", ".join(dict.fromkeys(each.part.mark for each in ends[:NAMED]))
        if middle is not None:
            marks = f"{marks}  ·  {say(middle)}"
        return (title, marks, *below)

    def _alike(self, one: PieceEnd) -> tuple[PieceEnd, ...]:
        kinds = [self.kind, *(wing.kind for wing in self.wings)]
        return next(kind.hand(one.at_left) for kind in kinds if one in kind.ends)


def _told(wing: CapWing) -> Message:
    """Return which wing of which end it is: of a kind that has both hands, at which side of its piece the end is."""
    values: dict[str, Value] = {"code": wing.kind.code, "wing": leg_words(wing.leg)}
    if not (wing.kind.hand(True) and wing.kind.hand(False)):
        return message("{code} {wing}", **values)
    if wing.one.at_left:
        return message("{code} {wing} at the left", **values)
    return message("{code} {wing} at the right", **values)


def _both(first: bool) -> tuple[bool, bool]:
    return first, not first


def shapes_of(kinds: Iterable[EndKind]) -> list[Shape]:
    """Return everything that has a template, in the order of the kinds of ends."""
    found: list[Shape] = []
    for kind in kinds:
        if _is_face(kind):
            found += [_face_shape(kind, ends[0]) for left in (True, False) if (ends := kind.hand(left))]
        for wing in _wings(kind):
            same = next(
                (k for k, shape in enumerate(found) if shape.wings and _alike(shape.wings[0], wing)), None
            )
            if same is None:
                found.append(Shape(kind, wing.one, wing.across, (wing,)))
            else:
                found[same] = replace(found[same], wings=(*found[same].wings, wing))
    return found


def _wings(kind: EndKind) -> Iterator[CapWing]:
    """Yield the wings of a cap's end whose flaps are turned down, for each hand that it has."""
    if kind.first.part.run.trim in CAPS and kind.first.end.cut.tabs:
        for left in (True, False):
            for one in kind.hand(left)[:1]:
                yield CapWing(kind, one, "left wing")
                yield CapWing(kind, one, "right wing")


def _alike(first: CapWing, second: CapWing) -> bool:
    """Return whether two wings, or one and the other's mirror image, are cut as one."""
    a, b = first.outline, second.outline
    if len(a) < 2 or len(b) < 2:
        return False
    return float(shapely.hausdorff_distance(shapely.LineString(a), shapely.LineString(b))) <= SAME


def _face_shape(kind: EndKind, one: PieceEnd) -> Shape:
    _, first, _, last = _face(one).intersection(one.part.sheet.pattern).bounds
    return Shape(kind, one, (first, last))


def _is_face(kind: EndKind) -> bool:
    """Return whether the face of an end is cut other than square across."""
    one = kind.first
    if one.end.lap is not None or one.part.run.section.leg("face") is None:
        return False
    shown = _face(one).intersection(one.part.sheet.pattern)
    edge = one.part.sheet.pattern.boundary.intersection(_face(one).buffer(-TAPE))
    us = [u for line in shapely.get_parts(edge) for u, _ in shapely.get_coordinates(line)]
    middle = (shown.bounds[0] + shown.bounds[2]) / 2
    own = [u for u in us if (u < middle) == (one.end.at == "low")]
    return bool(own) and max(own) - min(own) > TAPE


def _face(one: PieceEnd) -> shapely.Polygon:
    """Return the part of the sheet outboard of the bend over the face."""
    section = one.part.run.section
    low, high = one.part.sheet.extent
    _, _, _, last = one.part.sheet.pattern.bounds
    return shapely.box(low - 1, float(section.v[section.strip_of("face")]), high + 1, last + 1)
