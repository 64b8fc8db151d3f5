"""Where sealant closes what metal leaves open: round seams under caps, at the ends of closures, in the feet of seams.

A closure stops short of the seam on either side of it, and at a valley's head short of the next one, which stands lower
on the pan; no metal fills the foot of a seam between the hooks of two panels, nor the corner between two hooks of one
panel that fold away from each other, as beside a porch. The beads that bed closures and laps are not counted here.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from ..roof.record import Edge
from ..runs import Run
from .closures import Closure
from .flat import ROUND, Lip
from .record import Panel
from .stuff import Stuff

END = 1.5
"""A line of closures ends at most so far before the trim or the next line that it ends at, inches."""

Place = Literal["round a seam", "edge of the panels", "end of closures", "foot of a seam", "inside corner"]


@dataclass(frozen=True, slots=True)
class Sealed:
    """One place that sealant closes.

    Attributes:
        place: What it is.
        at: Name of the run.
        face: Index of the face.
        along: From where to where along the run, inches.
        bead: How much sealant it takes, inches of bead.
    """

    place: Place
    at: str
    face: int
    along: tuple[float, float]
    bead: float


def sealed_places(
    closures: Sequence[Closure],
    panels: Sequence[Panel],
    runs: Sequence[Run],
    lips: dict[str, Lip],
    stuff: Stuff,
) -> tuple[Sealed, ...]:
    """Return the places that sealant closes, run by run, from the low end.

    Args:
        closures: All closures.
        panels: All panels.
        runs: The trim.
        lips: What panels hook, by the run's name.
        stuff: What panels are made of.
    """
    known = {run.name: run for run in runs}
    found = [
        *_under_caps(closures, known),
        *_at_feet(panels, known, lips, stuff),
        *_in_corners(panels, known, lips, stuff),
    ]
    order = {name: place for place, name in enumerate(known)}
    return tuple(sorted(found, key=lambda one: (order[one.at], one.face, one.along)))


def _under_caps(closures: Sequence[Closure], runs: dict[str, Run]) -> Iterator[Sealed]:
    """Yield what is open between the closures of each line, and at its two ends."""
    lines: dict[tuple[str, int], list[Closure]] = {}
    for closure in closures:
        lines.setdefault((closure.at, closure.face), []).append(closure)
    for (name, face), own in lines.items():
        edge = runs[name].edge
        spans = sorted(
            (*_closed(one, edge), one.panel, float(np.ptp(one.sheet.section.points[:, 1]))) for one in own
        )
        (begin, _, _, low), (_, end, _, high) = spans[0], spans[-1]
        yield Sealed("end of closures", name, face, (begin - END, begin), low)
        for (_, first, panel, height), (last, _, other, next_height) in pairwise(spans):
            if panel == other:  # the one stands on it, the other beside it on a valley's pan
                yield Sealed("edge of the panels", name, face, (first, last), max(height, next_height))
            else:  # up one side of the seam, over its fold and down the other side
                bead = height + next_height + max(last - first, 0.0)
                yield Sealed("round a seam", name, face, (first, last), bead)
        yield Sealed("end of closures", name, face, (end, end + END), high)


def _closed(closure: Closure, edge: Edge) -> tuple[float, float]:
    """Return from where to where along an edge the web of a closure closes all of its height, inches."""
    sheet, place = closure.sheet, closure.placement
    web = sheet.section.strip_of("web")
    first, last = sheet.section.v[web : web + 2]
    low, high = (
        cut.line[(cut.line[:, 1] >= first) & (cut.line[:, 1] <= last), 0] for cut in (sheet.low, sheet.high)
    )
    inner = [low.max(), high.min()]
    if closure.foam:  # its two faces may end apart: what is behind neither is open
        corners = (closure.solid.vertices - place[:3, 3]) @ place[:3, 0]
        faces = corners.reshape(2, -1)
        first_high = len(sheet.low.line)
        inner = [faces[:, :first_high].max(), faces[:, first_high:].min()]
    ends = place[:3, 3] + np.outer(inner, place[:3, 0])
    along = (ends - edge.start) @ edge.direction
    return float(along.min()), float(along.max())


def _at_feet(
    panels: Sequence[Panel], runs: dict[str, Run], lips: dict[str, Lip], stuff: Stuff
) -> Iterator[Sealed]:
    """Yield the feet of the seams that end where panels hook a lip."""
    half = (sum(stuff.seam.insets) + stuff.seam.height / 8) / 2
    for panel in panels:
        first = next((end for end in panel.ends if end.at == "low"), None)
        if not panel.seams or first is None or first.ending != "hooked" or first.border not in lips:
            continue
        edge = runs[first.border].edge
        u = float((panel.seams[0][0] - edge.start) @ edge.direction)
        yield Sealed(
            "foot of a seam", first.border, panel.face, (u - half, u + half), stuff.drop(lips[first.border])
        )


def _in_corners(
    panels: Sequence[Panel], runs: dict[str, Run], lips: dict[str, Lip], stuff: Stuff
) -> Iterator[Sealed]:
    """Yield the inside corners round which one panel hooks two lips: cut to fold, its hooks part on their way down."""
    for panel in panels:
        low = [end for end in panel.ends if end.at == "low"]
        for before, after in pairwise(low):
            hooked = before.ending == after.ending == "hooked" and {before.border, after.border} <= set(lips)
            if not hooked or after.bevel >= before.bevel:
                continue
            for own, other in ((before.border, after.border), (after.border, before.border)):
                run, drop = runs[own], stuff.drop(lips[own])
                first = lips[other][0]
                last = first + ROUND + drop
                begins = run.edge.vertices[0] in runs[other].edge.vertices
                along = (first, last) if begins else (run.length - last, run.length - first)
                yield Sealed("inside corner", own, panel.face, along, drop)
