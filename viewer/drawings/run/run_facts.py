"""What the drawings of one run need to know: its pieces, screws, findings and the seams that meet it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Listed, Value, message
from trimwright.model.panels.record import Panel
from trimwright.model.runs import Run
from trimwright.model.screws import Screw

from ...display.ends import meets
from ...report.short import ends_of
from ...words.speaker import Speaker
from ..paper.page import reader_of
from ..paper.pins import FindingPin, pins_on
from .broadside import Aspect, aspect_of

NEAR = 9.0
"""A seam that ends this close to an edge meets it, inches: pans stop short of caps, and hook past noses."""

ALIKE = 1 / 32
"""Two marks this close are one on the tape, inches."""


@dataclass(frozen=True, slots=True)
class SeamAtEdge:
    """Where a panel seam meets a run.

    Attributes:
        u: Run distance, inches.
        side: 0 on the run's first face, 1 on its second.
    """

    u: float
    side: int


@dataclass(frozen=True, slots=True, eq=False)
class RunFacts:
    """One run and what lies on it.

    Attributes:
        layout: All of it.
        run: The run.
        parts: Its pieces, low end first.
        screws: Their screws, by mark.
        pins: Findings that concern it.
        seams: Where panel seams meet it, rising.
        aspect: How it is looked at.
        say: Puts what is told of it into words.
        twins: Other runs that look the same, piece by piece, and are not drawn.
    """

    layout: Layout
    run: Run
    parts: tuple[Part, ...]
    screws: dict[str, tuple[Screw, ...]]
    pins: tuple[FindingPin, ...]
    seams: tuple[SeamAtEdge, ...]
    aspect: Aspect
    say: Speaker
    twins: tuple[RunFacts, ...] = ()

    @property
    def reach(self) -> tuple[float, float]:
        """Lowest and highest run distance of its metal and of the edge itself, inches."""
        return min(0.0, self.parts[0].low), max(self.run.length, self.parts[-1].high)


def facts_of(layout: Layout, run: Run, pins: Sequence[FindingPin]) -> RunFacts:
    """Return what is drawn of ``run``."""
    parts = layout.parts_of(run.name)
    seams = (seam for seam in seams_at(run, layout.panels) if parts[0].low <= seam.u <= parts[-1].high)
    return RunFacts(
        layout,
        run,
        parts,
        {part.mark: layout.screws_of(part.mark) for part in parts},
        pins_on(run, pins, layout),
        tuple(seams),
        aspect_of(run),
        reader_of(layout.scene),
    )


def paired(runs: Sequence[RunFacts]) -> tuple[RunFacts, ...]:
    """Return runs to draw: those that look the same as one before them become its twins."""
    found: list[RunFacts] = []
    for facts in runs:
        same = next((k for k, one in enumerate(found) if _twins(one, facts)), None)
        if same is None:
            found.append(facts)
        else:
            found[same] = replace(found[same], twins=(*found[same].twins, facts))
    return tuple(found)


def _twins(first: RunFacts, second: RunFacts) -> bool:
    """Return whether two runs, the second without findings, have the same pieces, screws and seams."""
    a, b = first.run, second.run
    return (
        not second.pins
        and (a.trim, a.hand, a.section.profile) == (b.trim, b.hand, b.section.profile)
        and first.aspect.mirrored == second.aspect.mirrored
        and len(first.parts) == len(second.parts)
        and _near([a.length, a.edge.slope], [b.length, b.edge.slope])
        and _near([seam.u for seam in first.seams], [seam.u for seam in second.seams])
        and all(
            _near([one.low], [other.low]) and alike(first, one, second, other)
            for one, other in zip(first.parts, second.parts, strict=True)
        )
    )


def alike(first: RunFacts, one: Part, second: RunFacts, other: Part) -> bool:
    """Return whether two pieces have the same length, the same screws, and ends of the same kinds."""
    a, b = first.screws[one.mark], second.screws[other.mark]
    return (
        _near([screw.at for screw in a], [screw.at for screw in b])
        and _near([screw.across for screw in a], [screw.across for screw in b])
        and cut_alike(one, other)
    )


def cut_alike(one: Part, other: Part) -> bool:
    """Return whether two pieces have the same length and ends of the same kinds, whatever their screws."""
    return _near([one.length], [other.length]) and all(
        (end.kind, end.lies, end.sealed) == (same.kind, same.lies, same.sealed)
        and _near([end.lap or 0.0, end.depth], [same.lap or 0.0, same.depth])
        for end, same in zip(one.ends, other.ends, strict=True)
    )


def patterns(facts: RunFacts) -> tuple[tuple[int, ...], ...]:
    """Return the pieces of a run by number, those together that one pattern of screws serves.

    A piece that a finding speaks of stands alone.
    """
    told = {mark for pin in facts.pins for mark in pin.finding.pieces}
    found: list[list[int]] = []
    for number, part in enumerate(facts.parts):
        same = next(
            (
                group
                for group in found
                if not told & {part.mark, facts.parts[group[0]].mark}
                and alike(facts, facts.parts[group[0]], facts, part)
            ),
            None,
        )
        if same is None:
            found.append([number])
        else:
            same.append(number)
    return tuple(tuple(group) for group in found)


def drawings(facts: RunFacts) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the patterns of a run that one drawing serves: the pieces are cut alike, only their screws differ.

    A piece that a finding speaks of has a drawing of its own.
    """
    told = {mark for pin in facts.pins for mark in pin.finding.pieces}
    found: list[list[tuple[int, ...]]] = []
    for numbers in patterns(facts):
        part = facts.parts[numbers[0]]
        same = next((group for group in found if cut_alike(facts.parts[group[0][0]], part)), None)
        if same is None or told & {part.mark, facts.parts[same[0][0]].mark}:
            found.append([numbers])
        else:
            same.append(numbers)
    return tuple(tuple(group) for group in found)


def _near(first: Sequence[float], second: Sequence[float]) -> bool:
    return len(first) == len(second) and all(abs(a - b) <= ALIKE for a, b in zip(first, second, strict=True))


def seams_at(run: Run, panels: Sequence[Panel]) -> tuple[SeamAtEdge, ...]:
    """Return where panel seams meet ``run``, rising; seams along it meet it nowhere."""
    own = [(seam, panel.face) for panel in panels if panel.face in run.edge.faces for seam in panel.seams]
    if not own:
        return ()
    feet = np.array([seam for seam, _ in own])
    way = feet[:, 1] - feet[:, 0]
    across = np.abs(way @ run.edge.direction) <= 0.999 * np.linalg.norm(way, axis=1)
    local = (feet - run.frame[:3, 3]) @ run.frame[:3, :3]
    end = np.abs(local[:, :, 1]).argmin(axis=1)
    u, out = local[np.arange(len(own)), end, :2].T
    there = across & (np.abs(out) <= NEAR) & (u >= -NEAR) & (u <= run.length + NEAR)
    found = [SeamAtEdge(float(u[k]), run.edge.faces.index(own[k][1])) for k in np.flatnonzero(there)]
    return tuple(sorted(found, key=lambda seam: seam.u))


def merged(marks: Sequence[float]) -> tuple[float, ...]:
    """Return marks in rising order; of those that read the same on a tape only the first."""
    result: list[float] = []
    for mark in sorted(marks):
        if not result or mark - result[-1] > ALIKE:
            result.append(mark)
    return tuple(result)


def end_notes(parts: Sequence[Part], say: Speaker) -> tuple[str, str]:
    """Return what happens at the low and at the high end of pieces that are drawn as one, in one line each."""
    low, high = (
        say("{end}: {meets}", end=name, meets=_met([part.ends[k] for part in parts], parts))
        for k, name in enumerate(ends_of(parts[0].run))
    )
    return low, high


def _met(ends: Sequence[End], parts: Sequence[Part]) -> Value:
    """Return what ends meet; of several, each with the mark of its piece."""
    if len(ends) == 1:
        return meets(ends[0])
    each = (
        message("{mark} {meets}", mark=part.mark, meets=meets(end))
        for part, end in zip(parts, ends, strict=True)
    )
    return Listed(tuple(each), "comma")
