"""A panel's seam comes too close to a screw or a leg of trim.

**Finds** a seam whose foot passes a screw of the trim, runs along a rake's edge, or stands on an inside corner of the
eaves, nearer than the limit.

**Fix** Give the panels another start offset.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from ...geometry.arrays import Array
from ...message import Length, Message, message
from ...panels.flat import inside_corners, laid_flat
from ..facts import Facts, and_more, at_place
from ..proposals import seams_elsewhere
from ..record import Finding, Severity

RULE = "seam-too-close"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "There is no room to fold a seam beside a screw's head, and one on a rake's leg or in an inside corner cannot hook."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face with a seam too close to a screw, and for each rake with one too close."""
    layout = facts.layout
    for number, face in enumerate(layout.roof.faces):
        seams = [(panel.name, seam) for panel in layout.panels_of(number) for seam in panel.seams]
        if not seams:
            continue
        names, feet = [name for name, _ in seams], np.array([seam for _, seam in seams])
        screws = [screw for screw in layout.screws if number in layout.part(screw.mark).run.edge.faces]
        if screws:
            points = np.array([screw.point for screw in screws])
            beside = seams_beside(points, feet, face.normal)
            away = _distances(points[:, None], feet[beside])
            at = int(away.argmin()) // 2
            mark = screws[at].mark
            seam = int(beside[at, away[at].argmin()])
            close = len(set(beside[away < facts.layout.limits.number(RULE)].tolist()))
            distance = float(away.min())
            problem = message(
                "its seam comes within {distance} of a screw of {mark}", distance=Length(distance), mark=mark
            )
            yield from _told(facts, names[seam], distance, close, points[at], problem, (mark,))
        yield from _on_corners(facts, number, names, feet)
        for edge in layout.roof.edges:
            if edge.kind == "rake" and edge.faces == (number,):
                middles = feet.mean(axis=1)
                away = _distances(middles, np.array([edge.start, edge.end]))
                seam, close = int(away.argmin()), int((away < facts.layout.limits.number(RULE)).sum())
                distance = float(away.min())
                problem = message(
                    "its seam comes within {distance} of the edge of the {edge}",
                    distance=Length(distance),
                    edge=edge.words,
                )
                yield from _told(facts, names[seam], distance, close, middles[seam], problem, ())


def _on_corners(facts: Facts, number: int, names: list[str], feet: Array) -> Iterator[Finding]:
    """Yield a finding for a face with a seam on the inside corner of two eaves."""
    roof = facts.layout.roof
    corners = inside_corners(roof, number)
    if not len(corners):
        return
    flat = laid_flat(roof.faces[number])
    away = np.abs(flat.flatten(corners)[:, :1] - flat.flatten(feet[:, 0])[None, :, 0])
    at, seam = np.unravel_index(int(away.argmin()), away.shape)
    distance = float(away[at, seam])
    close = int((away < facts.layout.limits.number(RULE)).sum())
    problem = message(
        "its seam stands {distance} from the inside corner of the eaves", distance=Length(distance)
    )
    yield from _told(facts, names[int(seam)], distance, close, corners[at], problem, ())


def _told(
    facts: Facts,
    panel: str,
    distance: float,
    close: int,
    point: Array,
    problem: Message,
    marks: tuple[str, ...],
) -> Iterator[Finding]:
    """Yield the finding of the nearest seam, if it is too near; it speaks for all that are too ``close``."""
    if distance < facts.layout.limits.number(RULE):
        yield Finding(
            RULE,
            SEVERITY,
            panel,
            at_place(message("{panel} panel", panel=panel), and_more(problem, close)),
            marks,
            point,
            distance,
            facts.limit(RULE),
            message("Let the first seam stand elsewhere, so that this one keeps off."),
            proposals=seams_elsewhere(facts.layout),
        )


def seams_beside(points: Array, feet: Array, normal: Array) -> NDArray[np.int64]:
    """Return ``(n, 2)`` the seams left and right of each point; seams of a face are parallel, so no other is nearer.

    Args:
        points: ``(n, 3) float, inches``.
        feet: ``(m, 2, 3) float, inches``: the seams of one face.
        normal: ``(3,)`` of the face.
    """
    right = np.cross([0.0, 0.0, 1.0], normal)
    across = feet[:, 0] @ right
    order = np.argsort(across)
    after = np.searchsorted(across[order], points @ right)
    return np.asarray(order[np.clip(np.stack([after - 1, after], axis=1), 0, len(order) - 1)])


def _distances(points: Array, segments: Array) -> Array:
    """Return how near each point comes to its segment, inches: ``(..., 3)`` and ``(..., 2, 3)`` to ``(...)``."""
    start, along = segments[..., 0, :], segments[..., 1, :] - segments[..., 0, :]
    beyond = points - start
    share = np.clip((beyond * along).sum(axis=-1) / np.maximum((along**2).sum(axis=-1), 1e-12), 0, 1)
    return np.asarray(np.linalg.norm(beyond - share[..., None] * along, axis=-1))
