"""A lap or a seam lies where the water of a higher edge falls on it.

**Finds** laps of trim, and seams that run along with the drip, nearer in plan than the limit to the line or the
corner that the water of another, higher eave or rake drips from.

**Fix** Move the lap with another start or lengths given by hand, move the seams, or hang a gutter from the higher
edge.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from ...edge_kinds import KINDS
from ...geometry.arrays import Array
from ...message import Length, message
from ...runs import Run
from ..facts import Facts, and_more, at_place, is_sloping, point_on
from ..proposals import joints_moved, seams_elsewhere, started
from ..record import Finding, Severity

RULE = "joint-under-drip"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("A whole slope's water falls on that joint and beats its sealant out.")

BELOW = 6.0
"""So much lower than the drip is another roof, inches; less is a neighbor at the same corner."""

ALONG = 0.98
"""Cosine of the angle to the drip below which a seam crosses it and is wetted in one place only."""


@dataclass(frozen=True, slots=True, eq=False)
class _Drip:
    """Where water leaves a run.

    Attributes:
        run: The run.
        line: In plan: along an eave, or a point at a rake's low end.
        way: ``(2,)`` its direction in plan; zeros for a point.
        height: Inches.
    """

    run: Run
    line: shapely.Geometry
    way: Array
    height: float


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap under a drip, and for each face with seams under one."""
    drips = [_drip_of(run) for run in facts.runs.values() if KINDS[run.trim].panels == "hook"]
    heights = [float(ring[:, 2].min()) for ring in (face.outline for face in facts.layout.roof.faces)]
    drips = [drip for drip in drips if drip.height > min(heights) + BELOW]
    if drips:
        yield from _laps(facts, drips)
        yield from _seams(facts, drips)


def _drip_of(run: Run) -> _Drip:
    """Return where water leaves a run: from the lowest line of its section."""
    points = np.column_stack(
        [np.zeros(len(run.section.points)), run.section.points, np.ones(len(run.section.points))]
    )
    corners = points @ run.frame[:3].T
    start = corners[int(corners[:, 2].argmin())]
    if is_sloping(run):
        return _Drip(run, shapely.Point(start[:2]), np.zeros(2), float(start[2]))
    end = start + run.length * run.edge.direction
    return _Drip(run, shapely.LineString([start[:2], end[:2]]), run.edge.direction[:2], float(start[2]))


def _laps(facts: Facts, drips: list[_Drip]) -> Iterator[Finding]:
    """Yield a finding for each lap of trim under a drip."""
    least = facts.layout.limits.number(RULE)
    for run in facts.runs.values():
        for lower, upper in facts.laps(run.name):
            ends = np.array([point_on(run, upper.low), point_on(run, lower.high)])
            lap = shapely.LineString(ends[:, :2])
            for drip in drips:
                away = float(lap.distance(drip.line))
                if drip.run is not run and ends[:, 2].max() < drip.height - BELOW and away < least:
                    yield facts.found(
                        RULE,
                        SEVERITY,
                        run,
                        (lower, upper),
                        (upper.low + lower.high) / 2,
                        message("the {drip} drips on the lap", drip=drip.run.words),
                        message(
                            "Lay the run from another start, or hang a gutter from the {drip}.",
                            drip=drip.run.words,
                        ),
                        measured=away,
                        proposals=(
                            *started(run, facts.layout.scene, ("shared", "even", "high"))[:3],
                            *joints_moved(facts.layout, run),
                        ),
                    )
                    break


def _seams(facts: Facts, drips: list[_Drip]) -> Iterator[Finding]:
    """Yield one finding for the seams of a face that lie along under a drip."""
    least = facts.layout.limits.number(RULE)
    for number in range(len(facts.layout.roof.faces)):
        found = []
        for panel in facts.layout.panels_of(number):
            for seam in panel.seams:
                foot = np.asarray(seam)
                way = foot[1, :2] - foot[0, :2]
                way = way / max(float(np.linalg.norm(way)), 1e-9)
                line = shapely.LineString(foot[:, :2])
                found += [
                    (float(line.distance(drip.line)), drip, panel, foot)
                    for drip in drips
                    if abs(float(way @ drip.way)) > ALONG and foot[:, 2].max() < drip.height - BELOW
                ]
        near = sorted((one for one in found if one[0] < least), key=lambda one: one[0])
        if near:
            away, drip, panel, foot = near[0]
            told = message(
                "the {drip} drips along its seam, {away} from it", drip=drip.run.words, away=Length(away)
            )
            yield Finding(
                RULE,
                SEVERITY,
                panel.name,
                at_place(message("{panel} panel", panel=panel.name), and_more(told, len(near))),
                (),
                foot.mean(axis=0),
                away,
                facts.limit(RULE),
                message(
                    "Give the panels another first seam, or hang a gutter from the {drip}.",
                    drip=drip.run.words,
                ),
                proposals=seams_elsewhere(facts.layout),
            )
