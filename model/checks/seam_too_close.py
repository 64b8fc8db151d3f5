"""A panel's seam comes too close to a screw or a leg of trim.

**Finds** a seam whose foot passes a screw of the trim, or runs along a rake's edge, nearer than the limit.

**Matters because** there is no room to fold the seam beside a screw's head, and a seam on the rake's leg
cannot hook.

**Fix** Give the panels another start offset.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from ..panels import Panel
from .facts import Facts
from .record import Finding, Severity

Array = NDArray[np.float64]

RULE = "seam-too-close"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each seam that is too close to a screw, or to a rake's edge."""
    least = facts.layout.limits.number(RULE)
    edges = facts.layout.roof.edges
    by_mark = {part.mark: part for part in facts.layout.parts}
    for panel in facts.layout.panels:
        if not panel.seams:
            continue
        feet = np.array(panel.seams)
        near = [screw for screw in facts.layout.screws if panel.face in by_mark[screw.mark].run.edge.faces]
        if near:
            distance = _to_segments(np.array([screw.point for screw in near]), feet)
            closest = int(distance.argmin())
            if distance[closest] < least:
                screw = near[closest]
                yield _finding(
                    facts,
                    panel,
                    (screw.mark,),
                    screw.point,
                    float(distance[closest]),
                    f"a screw of {screw.mark}",
                )
        for edge in edges:
            if edge.kind != "rake" or panel.face not in edge.faces:
                continue
            distance = _to_segments(feet.mean(axis=1), np.array([[edge.start, edge.end]]))
            if distance.min() < least:
                yield _finding(
                    facts,
                    panel,
                    (),
                    feet.mean(axis=(0, 1)),
                    float(distance.min()),
                    f"the edge of the {edge.name}",
                )


def _finding(
    facts: Facts, panel: Panel, marks: tuple[str, ...], point: Array, distance: float, what: str
) -> Finding:
    """Return the finding of one seam."""
    return Finding(
        RULE,
        SEVERITY,
        panel.name,
        f"{panel.name} panel: its seam comes within {facts.show(distance)} of {what}.",
        marks,
        point,
        distance,
        facts.limit(RULE),
        "Give the panels another start offset.",
    )


def _to_segments(points: Array, segments: Array) -> Array:
    """Return ``(n,)`` how near ``(n, 3)`` points come to the nearest of ``(m, 2, 3)`` segments, inches."""
    start, along = segments[:, 0], segments[:, 1] - segments[:, 0]
    beyond = points[:, None] - start
    share = np.clip((beyond * along).sum(axis=2) / np.maximum((along**2).sum(axis=1), 1e-12), 0, 1)
    return np.asarray(np.linalg.norm(beyond - share[..., None] * along, axis=2).min(axis=1))
