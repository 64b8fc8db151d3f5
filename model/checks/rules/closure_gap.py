"""There is a slot under a cap that no closure fills.

**Finds** a gap wider than the limit between two closures under one wing of a cap, beyond the seam that stands there;
and two lines of closures of one slope that end an inch or more apart at the corner where their caps meet.

**Fix** Fill it with sealant or foam, or give the panels another first seam.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise

import numpy as np
import shapely

from ...joints import sealed_end
from ...message import Length, message
from ...panels.lay import stuff_of
from ...tolerances import CLEARANCE
from ..facts import Facts
from ..proposals import seams_elsewhere
from ..record import Finding, Severity

RULE = "closure-gap"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Driven rain, snow and wasps come in.")


Line = tuple[int, str]
"""A line of closures: the index of its face, and its run's name."""

APART = 1.0
"""Two lines of closures that end so far apart leave more than sealant fills, inches: common practice, no source."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each slot."""
    yield from _in_lines(facts)
    yield from _between_lines(facts)


def _in_lines(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each slot between two closures of a line."""
    layout = facts.layout
    seam, t = stuff_of(layout.scene).seam, layout.scene.metal.thickness
    most = facts.layout.limits.number(RULE)
    stretches: dict[tuple[str, int], list[tuple[float, float]]] = {}
    for closure in layout.closures:
        run = facts.runs[closure.at]
        ends = (closure.line - run.edge.start) @ run.edge.direction
        stretches.setdefault((closure.at, closure.face), []).append((float(ends.min()), float(ends.max())))
    for (name, face), spans in stretches.items():
        run = facts.runs[name]
        up = np.array([0.0, 0.0, 1.0]) - layout.roof.faces[face].normal[2] * layout.roof.faces[face].normal
        slant = np.linalg.norm(np.cross(run.edge.direction, up / np.linalg.norm(up)))
        taken = (seam.beyond + seam.insets[0] + t + 2 * CLEARANCE) / float(slant)
        spans.sort()
        for before, after in pairwise(spans):
            gap = after[0] - before[1] - taken
            if gap > most:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (),
                    (before[1] + after[0]) / 2,
                    message("a slot of {gap} between two closures is open", gap=Length(gap)),
                    message("Fill it with sealant or foam, or let the first seam stand elsewhere."),
                    measured=gap,
                    proposals=seams_elsewhere(layout),
                )


def _between_lines(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each two lines on a slope that stay apart where their caps meet."""
    layout, covered = facts.layout, dict[tuple[int, str], list[shapely.Geometry]]()
    for closure in layout.closures:
        outline = shapely.MultiPoint(closure.solid.vertices[:, :2]).convex_hull
        covered.setdefault((closure.face, closure.at), []).append(outline)
    lines = {key: shapely.union_all(own) for key, own in covered.items()}
    for (first, second), vertex in _meeting(facts, lines):
        gap = float(lines[first].distance(lines[second]))
        if gap > APART:
            run, other = facts.runs[first[1]], facts.runs[second[1]]
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (),
                0.0 if run.edge.vertices[0] == vertex else run.length,
                message(
                    "its closures end {gap} from those under the {other}", gap=Length(gap), other=other.words
                ),
                message("Fill it with sealant or foam, or let the first seam stand elsewhere."),
                measured=gap,
                proposals=seams_elsewhere(layout),
            )


def _meeting(facts: Facts, lines: Iterable[Line]) -> Iterator[tuple[tuple[Line, Line], int]]:
    """Yield the pairs of lines on a slope whose caps meet in a joint, and the corner of the roof where they do."""
    for first, second in combinations(lines, 2):
        if first[0] == second[0]:
            corners = [_joined(facts, name) for _, name in (first, second)]
            for vertex in corners[0] & corners[1]:
                yield (first, second), vertex


def _joined(facts: Facts, name: str) -> set[int]:
    """Return the corners of the roof at which the trim of a run ends in a joint."""
    spans = facts.spans[name]
    ends = spans[0].part.ends.low, spans[-1].part.ends.high
    vertices = facts.runs[name].edge.vertices
    return {vertex for vertex, end in zip(vertices, ends, strict=True) if end.kind is not sealed_end.KIND}
