"""Screws: where each one goes, as tape marks from its piece's low end and as points on the roof."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from .edge_kinds import KINDS
from .errors import Problem, SceneError
from .fitting import Fitted
from .geometry.arrays import Array
from .message import Length, Listed, message
from .scene.schema import Scene
from .screw_lines import (
    EDGE,
    OFF_CUT,
    OFF_LAP,
    Asked,
    Band,
    ScrewLine,
    face_under,
    free_between,
    metal_between,
    screw_rows,
)
from .sheet.fold import in_scene, strip_fold
from .sheet.sheet import Sheet
from .spacing import SEAM, end_mark, space

Crossed = tuple[list[float], float]
"""Where seams cross a row, as run distances, ascending, and how far screws keep from them along it, inches."""

CLOSEST = 1.0
"""Two screws of a row are never nearer to each other than this, inches: their heads and the gun need it."""


TOUCH = 1e-3
"""Less than this off the room for a seam does not count, inches: no tape shows it."""


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


def place_screws(
    fitted: Sequence[Fitted],
    feet: Mapping[int, Array],
    held: Mapping[tuple[str, int], Band],
    scene: Scene,
    asked: Asked,
    soft: Set[str] = frozenset(),
) -> tuple[Screw, ...]:
    """Return the screws of all pieces, piece by piece, row by row, from the low end.

    Args:
        fitted: The pieces.
        feet: By face, ``(n, 2, 3) float, inches, scene frame``: the seams that they keep off.
        held: From where to where along a run, by its name, closures stand on a face, by its index, inches: screws
            of what lies on them hold nowhere else.
        scene: Which of them are placed by hand.
        asked: What is asked of the others.
        soft: Names of the runs that stand on foam: their screws go through it and hold in the deck.

    Raises:
        SceneError: screws are placed by hand on a piece that does not exist, or beyond its end.
    """
    _check_placed(fitted, scene)
    pans = [one for one in fitted if KINDS[one.run.trim].cleated]
    rows = screw_rows(fitted, asked)
    crossed: dict[ScrewLine, Crossed] = {}
    for face in {row.face for row in rows}:
        over = [row for row in rows if row.face == face]
        crossed |= zip(over, _seams(over, feet.get(face)), strict=True)
    screws: list[Screw] = []
    for row in rows:
        one = row.one
        by_hand = scene.screws.placed.get(one.piece.mark)
        low = one.sheet.extent[0]
        if by_hand is not None:
            at = [low + mark for mark in sorted(by_hand)]
        else:
            at = _spread(row, *crossed[row], held.get((one.run.name, row.face)))
        screws += _driven(
            one, row.strip, row.across, at, low, by_hand is not None, one.run.name in soft, pans
        )
    return tuple(screws)


def holds_one(held: Band) -> bool:
    """Return whether what holds a wing, from place to place in inches, has room for only one screw."""
    return 0 < held[1] - held[0] < CLOSEST + 2 * OFF_CUT


def crowding(lines: Sequence[ScrewLine], feet: Array) -> int:
    """Return how many screws over a face would be too near to its seams, or too far from an end, were they at ``feet``.

    Args:
        lines: The rows over the face.
        feet: ``(n, 2, 3) float, inches, scene frame``.
    """
    count = 0
    for row, (seams, off) in zip(lines, _seams(lines, feet), strict=True):
        if seams:
            marks = np.array(_spread(row, seams, off))
            away = np.abs(marks[:, None] - np.array(seams)[None])
            (first, last), (low, high) = row.metal, row.asked.bands(row.one)
            far = int(marks[0] - first > low[1] + TOUCH) + int(last - marks[-1] > high[1] + TOUCH)
            count += int((away < off - TOUCH).sum()) + far
    return count


def drilled(sheet: Sheet, screws: Iterable[Screw], pilot: float | None) -> Sheet:
    """Return ``sheet`` with pilot holes of ``pilot`` inches where its screws go; as it is without."""
    if pilot is None:
        return sheet
    turn = np.linspace(0, 2 * math.pi, 12, endpoint=False)
    ring = np.stack([np.cos(turn), np.sin(turn)], axis=1) * pilot / 2
    low = sheet.extent[0]
    holes = tuple(ring + np.array([low + screw.at, screw.across]) for screw in screws)
    return Sheet(sheet.section, sheet.low, sheet.high, holes)


def _spread(row: ScrewLine, seams: list[float], off: float, held: Band | None = None) -> list[float]:
    """Return the run distances of a row: evenly, at most ``most`` apart, off seams, folds and hidden laps.

    A flap that is turned down is no part of the length that wind lifts: end screws are measured from its fold. Where
    what holds a cap's wing has room for one only, that stands in its middle.

    Args:
        row: The row.
        seams: Run distances at which seams cross it.
        off: How far screws keep from them along the row, inches.
        held: From where to where along the run there is something to hold in; None for all of it.
    """
    bands = row.asked.bands(row.one)
    (low, high), (first, last) = row.formed, row.free
    is_wing = KINDS[row.one.run.trim].is_cap
    if is_wing and held is not None and holds_one(held) and row.metal[0] < sum(held) / 2 < row.metal[1]:
        return [sum(held) / 2]
    if held is not None and held[1] - held[0] > CLOSEST:
        first, last = max(first, held[0] + OFF_CUT), min(last, held[1] - OFF_CUT)
    start = low + _end_mark(bands[0], first - low, [seam - low for seam in seams], off, held is not None)
    end = high - _end_mark(bands[1], high - last, [high - seam for seam in seams], off, held is not None)
    if end - start < CLOSEST:
        both = None if held is None or not is_wing else _both_held(row, held)
        return _crowded(row.one, row.across) if both is None else both
    return space(start, end, row.asked.most, seams, off)


def _end_mark(band: Band, nearest: float, seams: list[float], off: float, carried: bool) -> float:
    """Return the distance of the last screw from an end; farther in where it would stand on a seam and hold nothing.

    Where the panel there is too narrow to keep off both its seams, it stands in the middle of that.
    """

    def on_seam(at: float) -> bool:
        return any(abs(at - seam) < off / 2 for seam in seams)

    at = end_mark(*band, nearest, seams, off)
    if not carried or not on_seam(at):
        return at
    at = end_mark(band[0], max(band[1], nearest + 2 * off), nearest, seams, off)
    middles = [(a + b) / 2 for a, b in pairwise(sorted(seams)) if off <= b - a < 2 * off]
    beside = [middle for middle in middles if nearest <= middle and abs(middle - at) < off]
    return min(beside, key=lambda middle: abs(middle - at)) if on_seam(at) and beside else at


def _both_held(row: ScrewLine, held: Band) -> list[float] | None:
    """Return two screws at the ends of what holds a wing too short for more; None where that has no room for both."""
    (low, high), (first, last), bands = row.formed, row.metal, row.asked.bands(row.one)
    start = max(held[0] + OFF_CUT, low + bands[0][0], first)
    end = min(held[1] - OFF_CUT, high - bands[1][0], last)
    return [start, end] if end - start >= CLOSEST else None


def _crowded(one: Fitted, across: float) -> list[float]:
    """Return two screws on a piece too short for the band: as far from its cuts and laps as leaves room for both."""
    for edge in (EDGE, OFF_LAP):
        first, last = free_between(one, across, edge)
        if last - first >= CLOSEST:
            return [first, last]
    first, last = metal_between(one.sheet, across)
    return [first + (last - first) / 4, last - (last - first) / 4]


def _seams(lines: Sequence[ScrewLine], feet: Array | None) -> list[Crossed]:
    """Return where seams at ``feet`` cross each of some rows."""
    if feet is None or not len(feet):
        return [([], SEAM)] * len(lines)
    ends = np.array([line.ends for line in lines])
    row, seam = ends[:, 1] - ends[:, 0], feet[0, 1] - feet[0, 0]
    along, way = row[:, None, :2], (feet[:, 1] - feet[:, 0])[:, :2]
    off = feet[:, 0, :2] - ends[:, :1, :2]
    cross = along[..., 0] * way[:, 1] - along[..., 1] * way[:, 0]
    steady = np.abs(cross) > 1e-9 * np.hypot(along[..., 0], along[..., 1])
    cross = np.where(steady, cross, 1.0)
    share = (off[..., 0] * way[:, 1] - off[..., 1] * way[:, 0]) / cross
    along_seam = (off[..., 0] * along[..., 1] - off[..., 1] * along[..., 0]) / cross
    slack = 8.0 / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)
    at = share * np.array([[line.one.run.length] for line in lines])
    low, high = np.array([line.one.sheet.extent for line in lines]).T[..., None]
    hit = steady & (along_seam >= -slack) & (along_seam <= 1 + slack) & (at > low) & (at < high)
    lengths = (row**2).sum(axis=1) * float(seam @ seam)
    slant = np.sqrt(np.maximum(1.0 - (row @ seam) ** 2 / np.maximum(lengths, 1e-12), 0.0))
    keep = SEAM / np.maximum(slant, 0.1)
    return [
        (sorted(marks[one].tolist()), far) for marks, one, far in zip(at, hit, keep.tolist(), strict=True)
    ]


def _driven(
    one: Fitted,
    strip: int,
    across: float,
    at: list[float],
    low: float,
    placed: bool,
    soft: bool,
    pans: Sequence[Fitted],
) -> Iterator[Screw]:
    _, normal = strip_fold(one.run.section, strip)
    facing = one.placement[:3, :3] @ normal
    ending = KINDS[one.run.trim].ending(face_under(one.run, strip) != one.run.edge.faces[0])
    holds: Literal["deck", "closure"] = "closure" if ending == "under" and not soft else "deck"
    flat = np.array([(u, across) for u in at]).reshape(-1, 2)
    points = in_scene(one.run.section, strip, one.placement, flat)
    points += facing * (one.run.section.thickness / 2)
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
