"""What the drawings of one run need to know: its pieces, screws, findings and the seams that meet it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimwright.model.layout import Layout, Part
from trimwright.model.panels.record import Panel
from trimwright.model.runs import Run
from trimwright.model.screws import Screw

from ...display.ends import meets
from ...report.short import ends_of
from ...words.speaker import Speaker, speaker_of
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
    """

    layout: Layout
    run: Run
    parts: tuple[Part, ...]
    screws: dict[str, tuple[Screw, ...]]
    pins: tuple[FindingPin, ...]
    seams: tuple[SeamAtEdge, ...]
    aspect: Aspect
    say: Speaker

    @property
    def reach(self) -> tuple[float, float]:
        """Lowest and highest run distance of its metal and of the edge itself, inches."""
        return min(0.0, self.parts[0].low), max(self.run.length, self.parts[-1].high)


def facts_of(layout: Layout, run: Run, pins: Sequence[FindingPin]) -> RunFacts:
    """Return what is drawn of ``run``."""
    parts = layout.parts_of(run.name)
    return RunFacts(
        layout,
        run,
        parts,
        {part.mark: layout.screws_of(part.mark) for part in parts},
        pins_on(run, pins, layout),
        seams_at(run, layout.panels),
        aspect_of(run),
        speaker_of(layout.scene),
    )


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


def end_notes(part: Part, say: Speaker) -> tuple[str, str]:
    """Return what happens at the low and at the high end of a piece, in one line each."""
    low, high = (
        say("{end}: {meets}", end=name, meets=meets(end))
        for name, end in zip(ends_of(part.run), part.ends, strict=True)
    )
    return low, high
