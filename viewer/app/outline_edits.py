"""Changes of an outline that are more than one value: corners, a wing, a courtyard, a porch come, go or move.

Sides are numbered by their corners. Where a corner comes or goes, what the scene says of the sides after it goes with
them: their own pitches, porches, runs, tapes and corners in a photograph.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
import shapely

from trimwright.model.errors import SceneError
from trimwright.model.geometry.arrays import Array
from trimwright.model.geometry.ring import directions
from trimwright.model.measures import MeasureError, parse_length
from trimwright.model.message import Length, message
from trimwright.model.scene.outline import SHORTEST_SIDE, OutlineSpec
from trimwright.model.scene.read import scene_from
from trimwright.model.units import Unit

from ..words.speaker import speaker_for
from .outline_fields import HOOD, STEP, WrittenRing, gables_in, rings_in, unit_in
from .scene_text import EditError, value_at, with_value
from .side_numbers import renumbered, with_side

FEWEST = 3
"""Corners of an outline."""

MOST = 200
FARTHEST = 12_000.0
"""How far a corner may be from where lengths are counted from, inches."""

WING = 96.0
"""How far a new wing stands out, inches."""

SQUARE = 0.02
"""Cosine of the angle between two sides that are square to each other, at the most."""

STRAIGHT = 0.9999
"""Cosine of the angle between two sides that are in line, at the least."""

SMALLEST_COURT = 48.0
"""Sides of the smallest courtyard that is put in, inches."""

PORCH = 72.0
"""How far a new porch stands out at the most, inches."""

HEADROOM = 80.0
"""How high the eave of a new porch is above the ground, inches."""

NONE_SUCH = message("there is no such corner or side")
UNREADABLE = message("put the corners right first")
"""Why nothing is changed."""


def lengths_of(ring: WrittenRing, unit: Unit) -> Array | None:
    """Return the corners of a ring, ``(n, 2) float, inches``; None where one of them cannot be read."""
    try:
        return np.array(
            [[parse_length(one, unit) for one in corner] for corner in ring.corners], dtype=float
        ).reshape(-1, 2)
    except (MeasureError, ValueError, TypeError):
        return None


def with_outline_edit(text: str, asked: Mapping[str, Any]) -> str:
    """Return a scene's text after what a browser asks for.

    Args:
        text: The scene; new lengths lie on the marks of its tape, and are written as that writes them.
        asked: ``what`` is to be done, and what it needs to know.

    Raises:
        TrimwrightError: That cannot be done, or the text cannot take it.
    """
    edits: Mapping[str, Callable[[_Drawn], str]] = {
        "move": lambda drawn: drawn.moved(asked.get("corners")),
        "add": lambda drawn: drawn.added(_whole(asked, "side"), asked.get("at")),
        "remove": lambda drawn: drawn.removed(_whole(asked, "ring"), _whole(asked, "corner")),
        "wing": lambda drawn: drawn.winged(_whole(asked, "side")),
        "court": lambda drawn: drawn.with_court(),
        "uncourt": lambda drawn: drawn.without_court(_whole(asked, "ring")),
        "length": lambda drawn: drawn.with_length(_whole(asked, "side"), asked.get("value")),
        "porch": lambda drawn: drawn.with_porch(_whole(asked, "side")),
        "unporch": lambda drawn: drawn.without_porch(_whole(asked, "porch")),
    }
    edit = edits.get(str(asked.get("what")))
    if edit is None:
        raise EditError(message("there is no such change of an outline"))
    return edit(_Drawn(text))


def _whole(asked: Mapping[str, Any], name: str) -> int:
    value = asked.get(name)
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= 1000:
        raise EditError(NONE_SUCH)
    return value


class _Drawn:
    """A scene with an outline, and how lengths are written in it."""

    def __init__(self, text: str) -> None:
        self.text, self.tables, self.tape = text, tomllib.loads(text), speaker_for(text).tape
        self.unit, self.rings = unit_in(self.tables), rings_in(self.tables)
        self.step = STEP[self.tape.style]

    def moved(self, corners: Any) -> str:
        """Return the text with corners elsewhere: ``[[ring, corner, x, y], …]``, inches."""
        text = self.text
        if not isinstance(corners, list) or len(corners) > MOST:
            raise EditError(NONE_SUCH)
        for one in corners:
            if not isinstance(one, list) or len(one) != 4:
                raise EditError(NONE_SUCH)
            path = (*self._ring(one[0], one[1]).path, one[1])
            for axis, inches in enumerate(_place(one[2:])):
                if self.tape(inches) != self._read(value_at(self.tables, (*path, axis))):
                    text = with_value(text, (*path, axis), self._typed(inches))
        return _Drawn(text)._merged() if text != self.text else text

    def _merged(self) -> str:
        """Return the text with corners that lie on each other made one; that one goes too where its sides are in line.

        So a wing whose side is drawn to the end of the wall becomes the leg of an L: an eave, unless both were gables.
        """
        for place, ring in enumerate(self.rings):
            corners = lengths_of(ring, self.unit)
            if corners is None or len(corners) <= FEWEST:
                continue
            sides = np.roll(corners, -1, axis=0) - corners
            none = np.flatnonzero(np.linalg.norm(sides, axis=1) < self.tape.mark / 2)
            if none.size:
                k = int(none[0])
                merged = _Drawn(self.removed(place, k))
                return merged._straightened(place, k % (len(corners) - 1))._merged()
        return self.text

    def _straightened(self, place: int, k: int) -> _Drawn:
        """Return this without a corner, if it lies between two sides that are in line."""
        ring = self.rings[place]
        corners = lengths_of(ring, self.unit)
        if corners is None or len(corners) <= FEWEST:
            return self
        before, after = directions(np.array([corners[k - 1], corners[k], corners[(k + 1) % len(corners)]]))[
            :2
        ]
        if float(before @ after) < STRAIGHT:
            return self
        last = ring.first + (k - 1) % len(corners)
        gables = gables_in(self.tables)
        text = self.text
        if (last in gables) != (ring.first + k in gables):
            text = with_value(text, ("roof", "sides", str(last), "edge"), None)
        return _Drawn(_Drawn(text).removed(place, k))

    def added(self, side: int, at: Any) -> str:
        """Return the text with a corner on a side: in its middle, or at a place, inches."""
        ring, k = self._side(side)
        start, end = self._ends(ring, k)
        place = (start + end) / 2 if at is None else np.array(_place(at))
        return self._with_corners(ring, k + 1, [place], side)

    def winged(self, side: int) -> str:
        """Return the text with the middle third of a side standing out, its end a gable."""
        ring, k = self._side(side)
        start, end = self._ends(ring, k)
        along = directions(np.array([start, end]))[0]
        out = np.array([along[1], -along[0]]) * self._stepped(WING)
        long = float(np.linalg.norm(end - start))
        near, far = (self._stepped(long * share / 3) * along for share in (1, 2))
        if long < 3 * SHORTEST_SIDE or np.linalg.norm(far - near) < SHORTEST_SIDE:
            raise EditError(message("side {number} is too short for a wing", number=side))
        text = with_value(
            self.text, ("roof", "sides", str(side), "edge"), None
        )  # beside a wing there are eaves
        corners = [start + near, start + near + out, start + far + out, start + far]
        text = _Drawn(text)._with_corners(ring, k + 1, corners, side)
        return with_side(text, side + 2, {"edge": "gable"})

    def removed(self, place: int, k: int) -> str:
        """Return the text without a corner: the side before it goes on to the next."""
        ring = self._ring(place, k)
        if len(ring.corners) <= FEWEST:
            raise EditError(message("an outline has three corners or more; this one has to stay"))
        gone = ring.first + k
        corners = [one for number, one in enumerate(ring.corners) if number != k]
        text = with_value(self.text, ring.path, corners)
        return renumbered(text, lambda n: None if n == gone else n - (n > gone))

    def with_court(self) -> str:
        """Return the text with a courtyard in the widest place of the house."""
        read = [lengths_of(ring, self.unit) for ring in self.rings]
        if not read or any(one is None or len(one) < FEWEST for one in read):
            raise EditError(UNREADABLE)
        house = shapely.Polygon(read[0], [one for one in read[1:] if one is not None])
        if not house.is_valid:
            raise EditError(UNREADABLE)
        circle = shapely.maximum_inscribed_circle(house)
        (x, y), half = map(self._stepped, circle.coords[0]), self._stepped(circle.length / 3)
        if 2 * half < SMALLEST_COURT:
            raise EditError(message("the house is too narrow for a courtyard"))
        ring = [[x - half, y - half], [x - half, y + half], [x + half, y + half], [x + half, y - half]]
        written = [[self._typed(float(one)) for one in corner] for corner in ring]
        return with_value(self.text, ("roof", "holes"), [*(list(r.corners) for r in self.rings[1:]), written])

    def without_court(self, place: int) -> str:
        """Return the text without a courtyard, numbered from 1."""
        if not 1 <= place < len(self.rings):
            raise EditError(NONE_SUCH)
        ring, count = self.rings[place], len(self.rings[place].corners)
        rest = [list(one.corners) for one in self.rings[1:] if one is not ring]
        text = with_value(self.text, ("roof", "holes"), rest or None)

        def number(n: int) -> int | None:
            if n < ring.first:
                return n
            return None if n < ring.first + count else n - count

        return renumbered(text, number)

    def with_length(self, side: int, written: Any) -> str:
        """Return the text with a side of another length: what is beyond its end moves along, if it is square to it.

        A side of no length is gone, its two corners are one.
        """
        ring, k = self._side(side)
        read = lengths_of(ring, self.unit)
        start, end = self._ends(ring, k)
        try:
            long = parse_length(str(written), self.unit)
        except MeasureError as error:
            raise EditError(error.message) from None
        if read is None or (long and not SHORTEST_SIDE <= long <= FARTHEST):
            told = message("a side is {least} long or more", least=Length(SHORTEST_SIDE))
            raise EditError(told)
        along = directions(np.array([start, end]))[0]
        by = along * (long - float(np.linalg.norm(end - start)))
        first, second = (k + 1) % len(read), (k + 2) % len(read)
        square = abs(float(along @ directions(np.array([read[first], read[second]]))[0])) < SQUARE
        moving = (first, second) if square and second != k else (first,)
        place = self.rings.index(ring)
        return self.moved([[place, one, *(read[one] + by)] for one in moving])

    def with_porch(self, side: int) -> str:
        """Return the text with a porch before the middle third of a side; of a house with a wing, before its back."""
        if value_at(self.tables, ("roof", "form")) == "cross gable":
            side, long = 7, self._length(value_at(self.tables, ("roof", "length")))
        else:
            start, end = self._ends(*self._side(side))
            long = float(np.linalg.norm(end - start))
        porch = {
            "side": side,
            "from": self._typed(self._stepped(long / 3)),
            "to": self._typed(self._stepped(2 * long / 3)),
            "depth": self._typed(self._stepped(self._porch_depth(side))),
        }
        before = value_at(self.tables, ("roof", "porch"))
        return with_value(
            self.text, ("roof", "porch"), [*(before if isinstance(before, list) else ()), porch]
        )

    def _porch_depth(self, side: int) -> float:
        """Return how far a new porch stands out, inches: as far as one may walk upright under its eave."""
        try:
            spec = scene_from(self.text, "").roof
        except SceneError:
            return PORCH
        if not isinstance(spec, OutlineSpec):
            return PORCH
        pitch = math.tan(spec.pitch_of(side))
        room = spec.wall_height - spec.overhang_of(side) * pitch - HEADROOM
        return min(PORCH, max(HOOD, room / pitch))

    def without_porch(self, number: int) -> str:
        """Return the text without a porch, counted from 0."""
        porches = value_at(self.tables, ("roof", "porch"))
        if not isinstance(porches, list) or number >= len(porches):
            raise EditError(message("there is no such porch"))
        rest = [one for k, one in enumerate(porches) if k != number]
        return with_value(self.text, ("roof", "porch"), rest or None)

    def _with_corners(self, ring: WrittenRing, at: int, places: Sequence[Array], like: int) -> str:
        """Return the text with corners before the one at ``at``; the other half of a side is like it."""
        if len(ring.corners) + len(places) > MOST:
            raise EditError(message("an outline takes {most} corners", most=MOST))
        new = [[self._typed(float(one)) for one in place] for place in places]
        corners = [*ring.corners[:at], *new, *ring.corners[at:]]
        text = with_value(self.text, ring.path, corners)
        last = ring.first + at - 1
        text = renumbered(text, lambda n: n if n <= last else n + len(new))
        table = value_at(tomllib.loads(text), ("roof", "sides", str(like)))
        if isinstance(table, Mapping) and len(new) == 1:
            text = with_side(text, last + 1, table)
        return text

    def _ring(self, place: Any, k: Any) -> WrittenRing:
        if not (isinstance(place, int) and isinstance(k, int) and 0 <= place < len(self.rings)):
            raise EditError(NONE_SUCH)
        if not 0 <= k < len(self.rings[place].corners):
            raise EditError(NONE_SUCH)
        return self.rings[place]

    def _side(self, number: int) -> tuple[WrittenRing, int]:
        for ring in self.rings:
            if ring.first <= number < ring.first + len(ring.corners):
                return ring, number - ring.first
        raise EditError(NONE_SUCH)

    def _ends(self, ring: WrittenRing, k: int) -> tuple[Array, Array]:
        read = lengths_of(ring, self.unit)
        if read is None:
            raise EditError(UNREADABLE)
        return read[k], read[(k + 1) % len(read)]

    def _stepped(self, inches: float) -> float:
        return round(inches / self.step) * self.step

    def _typed(self, inches: float) -> str:
        return self.tape.typed(inches)

    def _length(self, value: Any) -> float:
        try:
            return parse_length(value, self.unit)
        except MeasureError:
            raise EditError(message("put the sizes of the house right first")) from None

    def _read(self, value: Any) -> str | None:
        """Return how a length that is written somewhere reads on the tape."""
        try:
            return self.tape(parse_length(value, self.unit))
        except MeasureError:
            return None


def _place(raw: Any) -> tuple[float, float]:
    try:
        x, y = (float(one) for one in raw)
    except (TypeError, ValueError):
        raise EditError(NONE_SUCH) from None
    if not (abs(x) <= FARTHEST and abs(y) <= FARTHEST):
        raise EditError(message("a corner lies too far out"))
    return x, y
