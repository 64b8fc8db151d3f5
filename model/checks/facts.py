"""What every rule asks of a layout, worked out once: parts by run, laps, screws by piece and row."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from ..edge_kinds import KINDS
from ..errors import Key
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..joints.end import End
from ..layout import Layout, Part
from ..limits.record import Limit
from ..message import Length, Listed, Message, Place, Slope, Value, message
from ..panels.closures import held_along
from ..profiles.section import Leg, Section
from ..runs import Run
from ..scene.draft import Changes
from ..scene.lengths import lengths_in
from ..screw_lines import metal_between
from ..sheet.fold import in_scene, strip_fold
from ..sheet.sheet import Sheet
from ..tolerances import CLEARANCE, LEVEL, POINT, TAPE
from .record import Finding, Severity
from .solids import Clash, clashes

ALL_TRIM = "all trim"
"""Where a finding is that concerns every run: the name that a scene accepts it by."""


@dataclass(frozen=True, slots=True, eq=False)
class PartSpan:
    """A part and how far it reaches along its run, inches."""

    part: Part
    low: float
    high: float

    @property
    def mark(self) -> str:
        """The piece's mark."""
        return self.part.mark

    @property
    def length(self) -> float:
        """Length of the metal, inches."""
        return self.high - self.low


@dataclass(frozen=True, slots=True, eq=False)
class ScrewRow:
    """The screws of one piece that stand in line along it.

    Attributes:
        leg: The leg they go through, or the nearest one.
        across: Where on the developed width, inches.
        at: ``(n,) float, inches``: from the piece's low end, rising.
        metal: Where the metal begins and ends along the row, from the piece's low end, inches.
    """

    leg: Leg
    across: float
    at: Array
    metal: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Facts:
    """A layout, sorted the way that rules look at it.

    Attributes:
        layout: All of it.
        runs: Runs by name.
        spans: The parts of each run, from its low end.
        screws: Of each piece, ``(n, 2) float, inches``: distance from its low end, and across its width.
        rows: The same screws in rows, by piece.
        held: From where to where along a run, by its name, closures stand on a face, by its index, inches.
    """

    layout: Layout
    runs: Mapping[str, Run]
    spans: Mapping[str, tuple[PartSpan, ...]]
    screws: Mapping[str, Array]
    rows: Mapping[str, tuple[ScrewRow, ...]]
    held: Mapping[tuple[str, int], tuple[float, float]]

    @cached_property
    def clashes(self) -> list[Clash]:
        """What runs into what, deeper than rules let pass: trim, panels, closures and cleats, in that order."""
        layout = self.layout
        most = min(layout.limits.number(rule) for rule in ("pieces-collide", "panels-collide"))
        solids = [part.solid for part in layout.parts] + [panel.solid for panel in layout.panels]
        solids += [closure.solid for closure in layout.closures] + [cleat.solid for cleat in layout.cleats]
        return clashes(solids, most * layout.scene.metal.thickness)

    @cached_property
    def lengths(self) -> tuple[tuple[Key, float], ...]:
        """Every length that the scene holds, by its key, inches."""
        return tuple(lengths_in(self.layout.scene))

    def laps(self, run: str) -> Iterator[tuple[PartSpan, PartSpan]]:
        """Yield the pieces that follow each other on ``run``, the lower one first."""
        return pairwise(self.spans[run])

    def limit(self, rule: str) -> Limit:
        """Return the limit called ``rule``."""
        return self.layout.limits[rule]

    def found(
        self,
        rule: str,
        severity: Severity,
        run: Run,
        pieces: tuple[PartSpan, ...],
        u: float,
        problem: Message,
        remedy: Message,
        *,
        measured: float | None = None,
        limit: Limit | None = None,
        point: Array | None = None,
        place: Value | None = None,
        proposals: Sequence[Changes] = (),
    ) -> Finding:
        """Return a finding on ``run`` at ``u``.

        Args:
            rule: Name of the rule, and of the limit unless that is given.
            severity: How much it matters.
            run: Where it is.
            pieces: What it concerns.
            u: Where along the run, inches.
            problem: What was found: a sentence that begins in lower case, without the
                place and without a full stop.
            remedy: A sentence.
            measured: The number found.
            limit: What it was compared with.
            point: Where to look, when it is not on the fastening leg.
            place: The pieces in words, when their marks alone do not say enough.
            proposals: Changes of the scene that may remove it, the best first.
        """
        marks = tuple(span.mark for span in pieces)
        of_run: tuple[Value, ...] = (place,) if place else (Listed(marks),) if marks else ()
        where = Listed((run.words, *of_run, along(run, u)), "comma")
        return Finding(
            rule,
            severity,
            run.name,
            at_place(where, problem),
            marks,
            point_on(run, u) if point is None else point,
            measured,
            limit or self.limit(rule),
            remedy,
            proposals=tuple(proposals),
        )


def facts_of(layout: Layout) -> Facts:
    """Sort ``layout`` for the rules."""
    ordered = {
        run.name: tuple(PartSpan(part, *part.sheet.extent) for part in layout.parts_of(run.name))
        for run in layout.runs
    }
    screws = {
        part.mark: np.array(
            sorted((screw.at, screw.across) for screw in layout.screws_of(part.mark))
        ).reshape(-1, 2)
        for part in layout.parts
    }
    return Facts(
        layout,
        {run.name: run for run in layout.runs},
        ordered,
        screws,
        {part.mark: _rows(part.sheet, screws[part.mark]) for part in layout.parts},
        held_along(layout.closures, layout.runs),
    )


def at_place(where: Value, problem: Message) -> Message:
    """Return the sentence of a finding: where, and what was found."""
    return message("{where}: {problem}.", where=where, problem=problem)


def along(run: Run, u: float) -> Message:
    """Return how far ``u`` is up or along ``run``, the way an installer says it."""
    if not 0 <= u <= run.length:
        return message("{far} past the corner", far=Length(max(-u, u - run.length)))
    if is_sloping(run):
        return message("{place} up", place=Place(u))
    return message("{place} along", place=Place(u))


def rising(rise: float) -> Slope:
    """Return the slope that rises so many inches in 12, as limits have it."""
    return Slope(math.atan(rise / 12))


def and_more(problem: Message, count: int) -> Message:
    """Return a problem that speaks for ``count`` of its kind."""
    if count < 2:
        return problem
    return message("{problem} ({count} more like it)", problem=problem, count=count - 1)


def is_sloping(run: Run) -> bool:
    """Return whether ``run`` climbs, so that it has a low end and water runs along it."""
    return abs(run.edge.slope) > LEVEL


def fastening_legs(section: Section) -> tuple[Leg, ...]:
    """Return the legs that screws go through."""
    return tuple(leg for leg in section.legs if leg.fastened)


def outside_width(section: Section, leg: Leg) -> float:
    """Return how wide a leg is to the outside of the bends at its ends, inches: what its profile calls its width.

    Source:
        Setbacks (R + T) tan(angle / 2): FAA-H-8083-31 vol. 1 ch. 4; R + T from 90 degrees on.
    """
    first, last = section.points[leg.strip : leg.strip + 2]
    width = float(np.linalg.norm(last - first))
    for bend in section.bends:
        if bend.last == leg.strip or bend.first == leg.strip + 1:
            chord = float(np.linalg.norm(section.points[bend.last] - section.points[bend.first]))
            radius = chord / (2 * math.sin(abs(bend.angle) / 2))
            width += (radius + section.thickness / 2) * math.tan(min(abs(bend.angle), math.pi / 2) / 2)
    return width


def narrow_legs(facts: Facts, least: float, asked: Callable[[Leg], bool]) -> Iterator[tuple[Run, Leg, float]]:
    """Yield, of the trim that panels hook onto, each leg asked about that is narrower than ``least``, and its width.

    Args:
        facts: The layout.
        least: To the outside of its bends, inches.
        asked: Whether a leg is one of those in question.
    """
    for run in facts.runs.values():
        if KINDS[run.trim].panels != "hook":
            continue
        for leg in filter(asked, run.section.legs):
            width = outside_width(run.section, leg)
            if width < least - TAPE:
                yield run, leg, width


def middle_of(section: Section, strip: int) -> Array:
    """Return the middle of a strip, ``(out, up)``, inches."""
    return np.asarray(section.points[strip : strip + 2].mean(axis=0))


def point_on(run: Run, u: float) -> Array:
    """Return a point on the fastening leg of ``run``, or its first leg, at ``u``; scene frame, inches."""
    legs = fastening_legs(run.section) or run.section.legs
    return np.asarray(run.frame[:3] @ np.array([u, *middle_of(run.section, legs[0].strip), 1.0]))


def _rows(sheet: Sheet, screws: Array) -> tuple[ScrewRow, ...]:
    """Return the rows that ``screws`` stand in: half an inch apart or more across the width."""
    if not len(screws):
        return ()
    section, low = sheet.section, sheet.extent[0]
    order = np.argsort(screws[:, 1], kind="stable")
    breaks = np.flatnonzero(np.diff(screws[order, 1]) > 0.5) + 1
    legs = fastening_legs(section) or section.legs
    middles = np.array([section.v[leg.strip : leg.strip + 2].mean() for leg in legs])
    rows = []
    for group in np.split(order, breaks):
        across = float(screws[group, 1].mean())
        leg = legs[int(np.abs(middles - across).argmin())]
        begin, end = metal_between(sheet, across)
        rows.append(ScrewRow(leg, across, np.sort(screws[group, 0]), (begin - low, end - low)))
    return tuple(rows)


def height_over(first: PartSpan, second: PartSpan) -> float:
    """Return how far ``second`` lies above ``first`` in the middle of their lap, inches.

    Measured out of the painted side, on the legs of both that lie on the roof, where they
    are set, so that it does not rely on what the layout says about itself.
    """
    section, run = first.part.sheet.section, first.part.run
    u = (second.low + first.high) / 2
    heights = []
    for leg in section.lying:
        spot = np.array([u, *middle_of(section, leg.strip), 1.0])
        between = (second.part.placement - first.part.placement)[:3] @ spot
        heights.append(float(between @ run.frame[:3, 1:3] @ section.normals[leg.strip]))
    return sum(heights) / len(heights)


def cut_edge(part: Part, end: End, strip: int) -> Array:
    """Return points along one end's cut of a strip, ``(n, 3) float, inches, scene frame``."""
    cut = (part.sheet.low if end.at == "low" else part.sheet.high).line
    first, last = part.run.section.v[strip : strip + 2]
    v = np.linspace(first + POINT, last - POINT, 17)  # not where the cut steps along a bend
    flat = np.stack([np.interp(v, cut[:, 1], cut[:, 0]), v], axis=1)
    return in_scene(part.run.section, strip, part.placement, flat)


def blunt_slot(part: Part, other: Part) -> float:
    """Return by how much a slot between the faces of two pieces may be longer than at a square corner, inches.

    Sheets that pass with a joint's clearance, square to one of them, stand apart along the other by that over the sine
    of the angle by which a blunt corner turns. The tab that is folded round the corner covers it: without one nothing
    may be longer, nor where a piece has no face.
    """
    faces = [(one, one.run.section.leg("face")) for one in (part, other)]
    normals = [
        one.placement[:3, :3] @ strip_fold(one.run.section, face.strip)[1] for one, face in faces if face
    ]
    met = [
        end
        for one, mark in ((part, other.mark), (other, part.mark))
        for end in one.ends.corners
        if mark in end.others
    ]
    if len(normals) < 2 or normals[0] @ normals[1] <= 0 or not any(end.tab for end in met):
        return 0.0
    sine = max(float(np.linalg.norm(cross(*normals))), POINT)
    return ((part.run.section.thickness + other.run.section.thickness) / 2 + CLEARANCE) * (1 / sine - 1)
