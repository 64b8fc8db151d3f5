"""Screws: where each one goes, as tape marks from its piece's low end and as points on the roof."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from .errors import Problem, SceneError
from .fitting import Fitted
from .geometry.arrays import Array
from .joints import hip_head
from .limits.record import Limits
from .message import Length, Listed, message
from .runs import Run
from .scene.schema import Scene
from .sheet.fold import strip_fold
from .sheet.sheet import Sheet
from .spacing import SEAM, end_mark, space
from .trim_kinds import KINDS

Band = tuple[float, float]

INSET = 1.0
"""How far a row of screws lies inside its leg's free edge, inches: common practice, no source."""

EDGE = 1.5
"""The least distance from a screw to a cut or a fold along its row, inches: common practice, no source."""

CLOSEST = 1.0
"""Two screws of a row are never nearer to each other than this, inches: their heads and the gun need it."""

ROWS_APART = 1.25
"""Rows on one wing of a cap stand this far apart, inches: both on the flange of one closure."""

OFF_CUT = 0.5
"""How far a screw keeps from a cut that runs beside its row, inches: head and sealant need it; common practice."""

TOUCH = 1e-3
"""Less than this off the room for a seam does not count, inches: no tape shows it."""

OFF_LAP = 0.5
"""How far a screw keeps from a lap, inches: the lap stays free to slide; common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Screw:
    """One screw.

    Attributes:
        mark: Mark of its piece.
        at: Distance from the piece's low end, inches.
        across: Distance over the developed width from the inboard edge, inches.
        point: ``(3,) float, inches, scene frame``; where its head meets the painted side.
        normal: ``(3,)`` unit vector out of the painted side.
        placed: It was put there by hand in the scene.
        holds: What it holds in: the deck, or the closure under a cap, which stands on the panels.
        flat: A valley's pan lies over it: its head is flat and driven flush.
    """

    mark: str
    at: float
    across: float
    point: Array
    normal: Array
    placed: bool
    holds: Literal["deck", "closure"]
    flat: bool


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


def place_screws(
    fitted: Sequence[Fitted],
    feet: Mapping[int, Array],
    held: Mapping[tuple[str, int], Band],
    scene: Scene,
    asked: Asked,
) -> tuple[Screw, ...]:
    """Return the screws of all pieces, piece by piece, row by row, from the low end.

    Args:
        fitted: The pieces.
        feet: By face, ``(n, 2, 3) float, inches, scene frame``: the seams that they keep off.
        held: From where to where along a run, by its name, closures stand on a face, by its index, inches: screws
            of what lies on them hold nowhere else.
        scene: Which of them are placed by hand.
        asked: What is asked of the others.

    Raises:
        SceneError: screws are placed by hand on a piece that does not exist, or beyond its end.
    """
    _check_placed(fitted, scene)
    pans = [one for one in fitted if KINDS[one.run.trim].panels == "on"]
    screws: list[Screw] = []
    for one in fitted:
        by_hand = scene.screws.placed.get(one.piece.mark)
        low = one.sheet.extent[0]
        for row in screw_rows([one], asked):
            if by_hand is not None:
                at = [low + mark for mark in sorted(by_hand)]
            else:
                seams, off = _seams(row, feet.get(row.face))
                at = _spread(row, seams, off, held.get((one.run.name, row.face)))
            screws += _driven(one, row.strip, row.across, at, low, by_hand is not None, pans)
    return tuple(screws)


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
        return _free(self.one, self.across, EDGE)

    @cached_property
    def ends(self) -> Array:
        """``(2, 3) float, inches, scene frame``: where it begins and ends on the whole run."""
        one = self.one
        fold, _ = strip_fold(one.run.section, self.strip)
        ends = np.array([[0.0, self.across, 1.0], [one.run.length, self.across, 1.0]]) @ fold.T
        return np.asarray(ends @ one.placement[:3, :3].T + one.placement[:3, 3])


def screw_rows(fitted: Iterable[Fitted], asked: Asked) -> list[ScrewLine]:
    """Return the rows of screws of some pieces."""
    return [
        ScrewLine(one, across, strip, face_under(one.run, strip), asked)
        for one in fitted
        for across, strip in rows(one, asked.rows)
    ]


def crowding(lines: Iterable[ScrewLine], feet: Array) -> int:
    """Return how many screws over a face would be too near to its seams, or too far from an end, were they at ``feet``.

    Args:
        lines: The rows over the face.
        feet: ``(n, 2, 3) float, inches, scene frame``.
    """
    count = 0
    for row in lines:
        seams, off = _seams(row, feet)
        if seams:
            marks = np.array(_spread(row, seams, off))
            away = np.abs(marks[:, None] - np.array(seams)[None])
            (first, last), (low, high) = row.metal, row.asked.bands(row.one)
            far = int(marks[0] - first > low[1] + TOUCH) + int(last - marks[-1] > high[1] + TOUCH)
            count += int((away < off - TOUCH).sum()) + far
    return count


def face_under(run: Run, strip: int) -> int:
    """Return the index of the face that a strip of a run lies over."""
    faces, section = run.edge.faces, run.section
    return faces[-1] if len(faces) > 1 and strip != section.strip_of("left wing") else faces[0]


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


def drilled(sheet: Sheet, screws: Iterable[Screw], pilot: float | None) -> Sheet:
    """Return ``sheet`` with pilot holes of ``pilot`` inches where its screws go; as it is without."""
    if pilot is None:
        return sheet
    turn = np.linspace(0, 2 * math.pi, 12, endpoint=False)
    ring = np.stack([np.cos(turn), np.sin(turn)], axis=1) * pilot / 2
    low = sheet.extent[0]
    holes = tuple(ring + np.array([low + screw.at, screw.across]) for screw in screws)
    return Sheet(sheet.section, sheet.low, sheet.high, holes)


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


def _spread(row: ScrewLine, seams: list[float], off: float, held: Band | None = None) -> list[float]:
    """Return the run distances of a row: evenly, at most ``most`` apart, off seams, folds and hidden laps.

    A flap that is turned down is no part of the length that wind lifts: end screws are measured from its fold.

    Args:
        row: The row.
        seams: Run distances at which seams cross it.
        off: How far screws keep from them along the row, inches.
        held: From where to where along the run there is something to hold in; None for all of it.
    """
    bands = row.asked.bands(row.one)
    (low, high), (first, last) = row.formed, row.free
    if held is not None and held[1] - held[0] > CLOSEST:
        first, last = max(first, held[0] + OFF_CUT), min(last, held[1] - OFF_CUT)
    start = low + _end_mark(bands[0], first - low, [seam - low for seam in seams], off, held is not None)
    end = high - _end_mark(bands[1], high - last, [high - seam for seam in seams], off, held is not None)
    if end - start < CLOSEST:
        return _crowded(row.one, row.across)
    return space(start, end, row.asked.most, seams, off)


def _end_mark(band: Band, nearest: float, seams: list[float], off: float, carried: bool) -> float:
    """Return the distance of the last screw from an end; farther in where it would stand on a seam and hold nothing."""
    at = end_mark(*band, nearest, seams, off)
    if carried and any(abs(at - seam) < off / 2 for seam in seams):
        return end_mark(band[0], max(band[1], nearest + 2 * off), nearest, seams, off)
    return at


def formed_ends(sheet: Sheet) -> tuple[float, float]:
    """Return the lowest and highest ``u`` of a sheet without its flaps, inches: where its cuts and folds are."""
    return float(sheet.low.line[:, 0].min()), float(sheet.high.line[:, 0].max())


def _free(one: Fitted, across: float, edge: float) -> tuple[float, float]:
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


def _crowded(one: Fitted, across: float) -> list[float]:
    """Return two screws on a piece too short for the band: as far from its cuts and laps as leaves room for both."""
    for edge in (EDGE, OFF_LAP):
        first, last = _free(one, across, edge)
        if last - first >= CLOSEST:
            return [first, last]
    first, last = metal_between(one.sheet, across)
    return [first + (last - first) / 4, last - (last - first) / 4]


def _seams(line: ScrewLine, feet: Array | None) -> tuple[list[float], float]:
    """Return where seams cross a row, as run distances, ascending, and how far screws keep from them along it."""
    if feet is None or not len(feet):
        return [], SEAM
    one, ends = line.one, line.ends
    origin, along = ends[0, :2], (ends[1] - ends[0])[:2]
    a, way = feet[:, 0, :2] - origin, (feet[:, 1] - feet[:, 0])[:, :2]
    cross = along[0] * way[:, 1] - along[1] * way[:, 0]
    steady = np.abs(cross) > 1e-9 * math.hypot(*along.tolist())
    cross = np.where(steady, cross, 1.0)
    share = (a[:, 0] * way[:, 1] - a[:, 1] * way[:, 0]) / cross
    along_seam = (a[:, 0] * along[1] - a[:, 1] * along[0]) / cross
    length = np.hypot(way[:, 0], way[:, 1])
    slack = 8.0 / np.maximum(length, 1e-9)
    hit = steady & (along_seam >= -slack) & (along_seam <= 1 + slack)
    low, high = one.sheet.extent
    row, seam = ends[1] - ends[0], feet[0, 1] - feet[0, 0]
    lengths = float((row @ row) * (seam @ seam))
    slant = math.sqrt(max(1.0 - float(row @ seam) ** 2 / lengths, 0.0)) if lengths else 1.0
    found = sorted(u for u in (share[hit] * one.run.length).tolist() if low < u < high)
    return found, SEAM / max(slant, 0.1)


def _driven(
    one: Fitted,
    strip: int,
    across: float,
    at: list[float],
    low: float,
    placed: bool,
    pans: Sequence[Fitted],
) -> Iterator[Screw]:
    fold, normal = strip_fold(one.run.section, strip)
    turn = one.placement[:3, :3]
    facing = turn @ normal
    holds: Literal["deck", "closure"] = "closure" if not KINDS[one.run.trim].is_covered else "deck"
    flat = np.array([(u, across, 1.0) for u in at]).reshape(-1, 3)
    points = flat @ (turn @ fold).T + one.placement[:3, 3] + facing * (one.run.section.thickness / 2)
    covered = np.zeros(len(points), dtype=bool)
    for pan in pans if KINDS[one.run.trim].is_covered else ():
        if set(pan.run.edge.faces) & set(one.run.edge.faces):
            covered |= _under(pan, points)
    for u, point, flat_head in zip(at, points, covered.tolist(), strict=True):
        yield Screw(one.piece.mark, u - low, across, point, facing, placed, holds, flat_head)


def _under(pan: Fitted, points: Array) -> Array:
    """Return which of the points lie under a valley's pan, ``(n,) bool``."""
    local = (points - pan.run.frame[:3, 3]) @ pan.run.frame[:3, :3]
    low, high = pan.sheet.extent
    reach = float(np.linalg.norm(pan.run.section.points, axis=1).max())
    along = (local[:, 0] >= low) & (local[:, 0] <= high)
    return np.asarray(along & (np.linalg.norm(local[:, 1:], axis=1) <= reach))


def _check_placed(fitted: Sequence[Fitted], scene: Scene) -> None:
    problems = []
    pieces = {one.piece.mark: one for one in fitted}
    for mark, marks in scene.screws.placed.items():
        key = ("screws", "placed", mark)
        if mark not in pieces:
            known = Listed(tuple(pieces), "comma")
            problems.append(Problem(message("there is no such piece; there are: {known}", known=known), key))
            continue
        low, high = pieces[mark].sheet.extent
        if max(marks) >= high - low:
            told = message(
                "{mark} is beyond its far end; it is {length} long",
                mark=Length(max(marks)),
                length=Length(high - low),
            )
            problems.append(Problem(told, key))
    if problems:
        raise SceneError(*problems)
