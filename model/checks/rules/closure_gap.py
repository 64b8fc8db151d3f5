"""There is a slot under a cap that no closure fills.

**Finds** a gap wider than the limit between two closures under one wing of a cap, beyond the seam that stands there;
two lines of closures of one slope that end an inch or more apart at the corner where their caps meet; and a cap that
goes on over a valley's pan on which no closure stands.

**Fix** Fill it with sealant or foam, or give the panels another first seam.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise, product

import numpy as np
import shapely

from ...edge_kinds import KINDS
from ...geometry.vectors import level_square
from ...joints import sealed_end
from ...message import Length, message
from ...panels.closure_stretch import LEAST
from ...panels.closures import Closure
from ...panels.lay import stuff_of
from ...runs import Run
from ...tolerances import CLEARANCE, POINT
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
    yield from _at_valleys(facts)


def _in_lines(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each slot between two closures of a line."""
    layout = facts.layout
    seam, t = stuff_of(layout.scene).seam, layout.scene.metal.thickness
    most = facts.layout.limits.number(RULE)
    stretches: dict[tuple[str, int], list[tuple[float, float, Closure]]] = {}
    for closure in layout.closures:
        run = facts.runs[closure.at]
        ends = (closure.line - run.edge.start) @ run.edge.direction
        stretches.setdefault((closure.at, closure.face), []).append(
            (float(ends.min()), float(ends.max()), closure)
        )
    for (name, face), spans in stretches.items():
        run = facts.runs[name]
        up = np.array([0.0, 0.0, 1.0]) - layout.roof.faces[face].normal[2] * layout.roof.faces[face].normal
        slant = np.linalg.norm(np.cross(run.edge.direction, up / np.linalg.norm(up)))
        taken = (seam.beyond + seam.insets[0] + t + 2 * CLEARANCE) / float(slant)
        spans.sort(key=lambda span: span[0])
        for before, after in pairwise(spans):
            gap = after[0] - before[1] - taken
            # Beside a valley a panel may be too narrow for a closure of its own: sealant fills the place.
            on_pan = (before[2].pan is None) != (after[2].pan is None)
            if gap > (LEAST + taken if on_pan else most):
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


def _at_valleys(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each line of closures that ends at the panels' edge where its cap goes on to a valley."""
    layout = facts.layout
    lines: dict[Line, list[Closure]] = {}
    for closure in layout.closures:
        lines.setdefault((closure.face, closure.at), []).append(closure)
    valleys = [run for run in layout.runs if KINDS[run.trim].cleated]
    for ((face, name), own), valley in product(lines.items(), valleys):
        vertex, run = valley.edge.vertices[1], facts.runs[name]
        if face not in valley.edge.faces or vertex not in _joined(facts, name):
            continue
        marks = {part.mark for part in layout.parts_of(valley.name)}
        gap = min(_to_middle(closure, run, valley) for closure in own)
        if gap > APART and not any(closure.pan in marks for closure in own):
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (),
                0.0 if run.edge.vertices[0] == vertex else run.length,
                message(
                    "its closures end {gap} from the middle of the {valley}, and nothing stands on its pan",
                    gap=Length(gap),
                    valley=valley.words,
                ),
                message("Stand one more closure on the pan there, from the edge of the panels to the rib."),
                measured=gap,
            )


def _to_middle(closure: Closure, run: Run, valley: Run) -> float:
    """Return how far along its run a closure ends from the plumb plane over the middle of a valley, inches."""
    away = level_square(valley.edge.direction, np.array([1.0, 1.0, 0.0]))
    off = (closure.line - valley.edge.start) @ away
    return float(np.abs(off).min() / max(abs(float(run.edge.direction @ away)), POINT))


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
