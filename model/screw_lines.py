"""Screw lines: the rows along a piece that screws stand on, and how much of each is free for them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .edge_kinds import KINDS
from .fitting import Fitted
from .geometry.arrays import Array
from .joints import hip_head
from .limits.record import Limits
from .runs import Run
from .scene.schema import Scene
from .sheet.fold import in_scene
from .sheet.sheet import Sheet

Band = tuple[float, float]

INSET = 1.0
"""How far a row of screws lies inside its leg's free edge, inches: common practice, no source."""

EDGE = 1.5
"""The least distance from a screw to a cut or a fold along its row, inches: common practice, no source."""

ROWS_APART = 1.25
"""Rows on one wing of a cap stand this far apart, inches: both on the flange of one closure."""

OFF_CUT = 0.5
"""How far a screw keeps from a cut that runs beside its row, inches: head and sealant need it; common practice."""

OFF_LAP = 0.5
"""How far a screw keeps from a lap, inches: the lap stays free to slide; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a scene, or the rule set where it says nothing, asks of screws.

    Attributes:
        first: Distance of the first from the low end of a run, inches.
        most: The most between two, inches.
        ends: Least and most distance from both ends of a piece, inches.
        rows: Rows on each wing of a cap.
    """

    first: float
    most: float
    ends: Band
    rows: int

    def bands(self, one: Fitted) -> tuple[Band, Band]:
        """Return least and most distance of the end screws from the low and from the high end of a piece."""
        start = min(max(self.first, self.ends[0]), self.ends[1]) if one.piece.number == 1 else self.ends[0]
        return (start, self.ends[1]), self.ends


def asked_of(scene: Scene, limits: Limits) -> Asked:
    """Return what is asked of the screws of a scene."""
    said = scene.screws
    return Asked(
        said.first if said.first is not None else limits.number("screw-first"),
        said.spacing if said.spacing is not None else limits.number("screw-spacing"),
        said.ends if said.ends is not None else limits.band("end-screw"),
        int(limits.number("screw-rows")),
    )


@dataclass(frozen=True, eq=False)
class ScrewLine:
    """A line along a piece that screws stand on, and what of it does not depend on where the seams are.

    Attributes:
        one: The piece.
        across: Where it runs on the developed width, inches.
        strip: Its strip.
        face: Index of the roof's face that it lies over.
        asked: What is asked of its screws.
    """

    one: Fitted
    across: float
    strip: int
    face: int
    asked: Asked

    @cached_property
    def metal(self) -> Band:
        """Where the metal begins and ends along it, ``u``, inches."""
        return metal_between(self.one.sheet, self.across)

    @cached_property
    def formed(self) -> Band:
        """Where the piece begins and ends without its flaps, ``u``, inches."""
        return formed_ends(self.one.sheet)

    @cached_property
    def free(self) -> Band:
        """Its first and last place that is off laps, cuts and folds, ``u``, inches."""
        return free_between(self.one, self.across, EDGE)

    @cached_property
    def ends(self) -> Array:
        """``(2, 3) float, inches, scene frame``: where it begins and ends on the whole run."""
        one = self.one
        ends = np.array([[0.0, self.across], [one.run.length, self.across]])
        return in_scene(one.run.section, self.strip, one.placement, ends)


def screw_rows(fitted: Iterable[Fitted], asked: Asked) -> list[ScrewLine]:
    """Return the rows of screws of some pieces."""
    return [
        ScrewLine(one, across, strip, face_under(one.run, strip), asked)
        for one in fitted
        for across, strip in rows(one, asked.rows)
    ]


def face_under(run: Run, strip: int) -> int:
    """Return the index of the face that a strip of a run lies over."""
    faces, section = run.edge.faces, run.section
    return faces[-1] if strip != section.strip_of(KINDS[run.trim].legs[0]) else faces[0]


def rows(one: Fitted, wanted: int) -> Iterator[tuple[float, int]]:
    """Yield each row's distance across the developed width and its strip; caps get ``wanted`` rows a wing."""
    section = one.run.section
    middle = section.width / 2
    count = wanted if KINDS[one.run.trim].is_cap else 1
    for leg in section.legs:
        if not leg.fastened:
            continue
        first, last = float(section.v[leg.strip]), float(section.v[leg.strip + 1])
        outer, inner = (first, last) if (first + last) / 2 < middle else (last, first)
        inward = math.copysign(1.0, inner - outer)
        for inset in insets(last - first, count):
            yield outer + inward * inset, leg.strip


def insets(width: float, count: int) -> list[float]:
    """Return how far each of ``count`` rows lies inside the free edge of a leg of ``width``, inches."""
    first = min(INSET, width / 3)
    apart = min(ROWS_APART, (width - 2 * first) / max(count - 1, 1))
    return [first + k * apart for k in range(count)]


def metal_between(sheet: Sheet, across: float) -> tuple[float, float]:
    """Return the lowest and highest ``u`` of the metal along a row, tabs left out, inches."""
    (low, _), (high, _) = _crossings(sheet, across)
    return low, high


def _crossings(sheet: Sheet, across: float) -> list[tuple[float, float]]:
    """Return where a row meets the low and the high cut: ``u``, inches, and how far the cut leans there, du/dv."""
    ends = []
    for cut, pick in ((sheet.low.line, max), (sheet.high.line, min)):
        crossing = []
        for (u0, v0), (u1, v1) in itertools.pairwise(cut.tolist()):
            if v0 <= across <= v1 and v1 > v0:
                lean = (u1 - u0) / (v1 - v0)
                crossing.append((u0 + lean * (across - v0), lean))
        ends.append(pick(crossing))
    return ends


def formed_ends(sheet: Sheet) -> tuple[float, float]:
    """Return the lowest and highest ``u`` of a sheet without its flaps, inches: where its cuts and folds are."""
    return float(sheet.low.line[:, 0].min()), float(sheet.high.line[:, 0].max())


def free_between(one: Fitted, across: float, edge: float) -> tuple[float, float]:
    """Return the first and last run distance of a row that is off laps, and ``edge`` from cuts and folds.

    Where a cut runs beside the row rather than across it, a screw keeps ``OFF_CUT`` from it, square to the cut. Where a
    cap runs on over another one's wing at a hip head, the closures under it end before its own cut does.
    """
    low, high = one.sheet.extent
    inner, outer = one.ends.low.lap, one.ends.high.lap
    (first, lean), (last, far_lean) = _crossings(one.sheet, across)
    past = [hip_head.LAP if end.kind is hip_head.KIND else 0.0 for end in one.ends]
    first += max(edge, OFF_CUT * math.hypot(1.0, lean)) + past[0]
    last -= max(edge, OFF_CUT * math.hypot(1.0, far_lean)) + past[1]
    return (
        max(first, low + inner + OFF_LAP) if inner is not None else first,
        min(last, high - outer - OFF_LAP) if outer is not None else last,
    )
