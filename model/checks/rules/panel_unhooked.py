"""A panel does not reach far enough under the lip that holds it.

**Finds** a panel whose turned edge, where it is set, lies under the lip of the eave or rake trim, or of the cleat on
it, by less than the limit.

**Fix** Choose trim with a longer lip.

**Source** CDA handbook 9.7 and UFGS 07600 3.1.15: at least 3/4 in over the strip.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ...edge_kinds import KINDS
from ...geometry.arrays import Array
from ...layout import Layout
from ...message import Length, message
from ...panels.lips import lip_of
from ...panels.record import Panel
from ...runs import Run, frame_on
from ..facts import Facts
from ..panel_place import worst_of
from ..proposals import usual_profiles
from ..record import Finding, Severity
from .panel_end_open import TIP

RULE = "panel-unhooked"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("The panel slips off when it moves or lifts.")
CORNER = 2.0
"""So near to the end of a lip the edge beside it is hooked, and so far in from a lip nothing lies under it, inches."""

HAIR = 1 / 64
"""Less than this short of the limit is not worth a finding, inches."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run that some panel does not hook as it should."""
    layout = facts.layout
    least = facts.layout.limits.number(RULE)
    for run in layout.runs:
        lip = lip_of(run, layout.scene)
        if lip is None:
            continue
        found = []
        faces = [
            face for face in run.edge.faces if KINDS[run.trim].ending(face != run.edge.faces[0]) != "under"
        ]
        inward = {
            face: np.asarray(np.linalg.inv(frame_on(layout.roof, run.edge, face)), dtype=np.float64)
            for face in faces
        }
        spans = {face: _span(layout, run, face, inward[face]) for face in faces}
        hooked = [
            panel
            for face in faces
            for panel in layout.panels_of(face)
            if run.name in panel.borders and not _is_tip(panel, run.name)
        ]
        for panel, reach in zip(hooked, _reaches(spans, inward, hooked, lip), strict=True):
            if reach < least - HAIR:
                problem = message(
                    "its turned edge lies {reach} under the lip of the {run}, less than {least}",
                    reach=Length(max(reach, 0.0)),
                    run=run.words,
                    least=Length(least),
                )
                found.append((reach, panel, problem))
        found.sort(key=lambda one: one[0])
        remedy = message("Choose trim with a longer lip.")
        ways = usual_profiles([run], layout.scene)
        yield from worst_of(facts, RULE, SEVERITY, found, remedy, proposals=ways)


def _is_tip(panel: Panel, name: str) -> bool:
    """Return whether a panel comes to its tip at an edge: the cap over it and the seam beside it hold that."""
    along = [end.length for end in panel.ends if end.border == name]
    return "cut" in panel.edges and 0 < sum(along) < TIP


def _span(layout: Layout, run: Run, face: int, inward: Array) -> tuple[float, float]:
    """Return from where to where along a run its lip reaches on a face, inches; cleats may go past its end.

    Args:
        layout: The layout.
        run: The run.
        face: Index of the face.
        inward: ``(4, 4)``: from the scene frame into the run's on that face.
    """
    own = [cleat.solid.vertices for cleat in layout.cleats if cleat.at == run.name and cleat.face == face]
    if not own:
        return 0.0, run.length
    u = np.concatenate(own) @ inward[0, :3] + inward[0, 3]
    return float(u.min()), float(u.max())


def _reaches(
    spans: Mapping[int, tuple[float, float]],
    inward: Mapping[int, Array],
    panels: Sequence[Panel],
    lip: tuple[float, float],
) -> list[float]:
    """Return how far the metal of each panel reaches in under a lip, from the lip's tip, inches.

    Args:
        spans: From where to where along the run the lip reaches on each face, inches.
        inward: ``(4, 4)`` by face: from the scene frame into the run's.
        panels: What hooks it.
        lip: Its tip, ``(out, up)``, inches.
    """
    if not panels:
        return []
    sizes = np.array([len(panel.solid.vertices) for panel in panels])
    turns = np.repeat([inward[panel.face][:3] for panel in panels], sizes, axis=0)
    points = np.concatenate([panel.solid.vertices for panel in panels])
    u, out, up = np.einsum("nij,nj->in", turns[:, :, :3], points) + turns[:, :, 3].T
    first, last = np.repeat([spans[panel.face] for panel in panels], sizes, axis=0).T
    under = (up < lip[1]) & (out > lip[0] - CORNER) & (u > first + CORNER) & (u < last - CORNER)
    reaches = np.maximum.reduceat(np.where(under, lip[0] - out, -np.inf), np.cumsum(sizes) - sizes)
    found: list[float] = np.where(np.isfinite(reaches), reaches, np.inf).tolist()
    return found
