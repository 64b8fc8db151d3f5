"""There is a slot under a cap that no closure fills.

**Finds** a gap wider than the limit between two closures under one wing of a cap, beyond the seam that stands there.

**Fix** Fill it with sealant or foam, or give the panels another first seam.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from ..message import Length, message
from ..panels.lay import stuff_of
from ..tolerances import CLEARANCE
from .facts import Facts
from .proposals import seams_elsewhere
from .record import Finding, Severity

RULE = "closure-gap"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Driven rain, snow and wasps come in.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each slot."""
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
