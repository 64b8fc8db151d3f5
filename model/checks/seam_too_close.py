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

from .facts import Facts, and_more
from .record import Finding, Severity

Array = NDArray[np.float64]

RULE = "seam-too-close"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
SCREW = "a screw of "


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with a seam too close to a screw, and for each rake with one."""
    runs = {part.mark: part.run for part in facts.layout.parts}
    for number in range(len(facts.layout.roof.faces)):
        panels = [panel for panel in facts.layout.panels if panel.face == number and panel.seams]
        if not panels:
            continue
        names = [panel.name for panel in panels for _ in panel.seams]
        feet = np.array([seam for panel in panels for seam in panel.seams])
        screws = [s for s in facts.layout.screws if number in runs[s.mark].edge.faces]
        if screws:
            away = _distances(np.array([screw.point for screw in screws]), feet)
            yield from _nearest(facts, names, away, [(s.mark, s.point) for s in screws], SCREW)
        for edge in facts.layout.roof.edges:
            if edge.kind == "rake" and edge.faces == (number,):
                middles = feet.mean(axis=1)
                away = _distances(middles, np.array([[edge.start, edge.end]])).T
                place = (edge.name, middles[int(away.argmin())])
                yield from _nearest(facts, names, away, [place], "the edge of the ")


def _nearest(
    facts: Facts, names: list[str], away: Array, places: list[tuple[str, Array]], what: str
) -> Iterator[Finding]:
    """Yield the finding of the seam that comes nearest to one of ``places``, if it is too near.

    Args:
        facts: The layout.
        names: The panel that each seam is on.
        away: ``(places, seams) float, inches``.
        places: Name and point of each place.
        what: Words before the place's name.
    """
    least = facts.layout.limits.number(RULE)
    place, seam = np.unravel_index(int(away.argmin()), away.shape)
    distance = float(away[place, seam])
    if distance >= least:
        return
    name, point = places[int(place)]
    more = and_more(int((away.min(axis=0) < least).sum()))
    yield Finding(
        RULE,
        SEVERITY,
        names[int(seam)],
        f"{names[int(seam)]} panel: its seam comes within {facts.show(distance)} of {what}{name}{more}.",
        (name,) if what == SCREW else (),
        point,
        distance,
        facts.limit(RULE),
        "Give the panels another start offset.",
    )


def _distances(points: Array, segments: Array) -> Array:
    """Return ``(n, m)`` how near ``(n, 3)`` points come to ``(m, 2, 3)`` segments, inches."""
    start, along = segments[:, 0], segments[:, 1] - segments[:, 0]
    beyond = points[:, None] - start
    share = np.clip((beyond * along).sum(axis=2) / np.maximum((along**2).sum(axis=1), 1e-12), 0, 1)
    return np.asarray(np.linalg.norm(beyond - share[..., None] * along, axis=2))
