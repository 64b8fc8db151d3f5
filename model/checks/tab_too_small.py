"""A corner's tab is missing or too small.

**Finds** the low end of a rake piece, where it is mitered onto the eave trim, without a tab folded round
the corner, or with one narrower than the limit.

**Matters because** without the tab only sealant closes the corner, which the wind works at.

**Fix** Cut the rake's face beyond the miter line by the width of the tab.

**Source** Common practice, no source: 3/8 in.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..sheet.sheet import Tab
from ..tolerances import POINT
from .facts import Facts
from .record import Finding, Severity

RULE = "tab-too-small"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each eave-rake corner without a good tab."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        for span in spans:
            if run.trim != "rake" or not any(joint.kind == "eave-rake" for joint in span.part.joints):
                continue
            width = max((_width(tab) for tab in span.part.sheet.tabs), default=0.0)
            if width < least - POINT:
                what = (
                    f"is {facts.show(width)} wide, less than {facts.show(least)}" if width else "is missing"
                )
                yield facts.found(
                    RULE, SEVERITY, run, (span,), max(span.low, 0.0),
                    f"the tab that closes the eave corner {what}",
                    f"Cut the face {facts.show(least)} beyond the miter line.",
                    measured=width,
                )  # fmt: skip


def _width(tab: Tab) -> float:
    """Return how far a tab reaches from its fold line, inches."""
    start, end = tab.hinge
    along = (end - start) / np.linalg.norm(end - start)
    beyond = tab.flap - start
    return float(np.abs(beyond[:, 0] * along[1] - beyond[:, 1] * along[0]).max())
