"""A corner's tab is missing or too small.

**Finds** the end of a piece whose face is mitered onto another one's (a rake on the eave trim, two eaves at
an outside corner, the high side on a rake) without a tab folded round the corner, or with one narrower than
the limit.

**Matters because** without the tab only sealant closes the corner, which the wind works at.

**Fix** Cut the rake's face beyond the miter line by the width of the tab.

**Source** Common practice, no source: 3/8 in.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..layout import Joint, Part
from ..tolerances import TAPE
from .facts import Facts
from .record import Finding, Severity

RULE = "tab-too-small"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
TABBED = ("eave-rake", "outside corner", "high-rake")
"""Kinds of corner where the piece on top folds a tab round onto the other one."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each corner without a good tab."""
    least = facts.layout.limits.number(RULE)
    for name, spans in facts.spans.items():
        for span in spans:
            for joint in span.part.joints:
                if joint.kind not in TABBED or joint.lies != "over":
                    continue
                width = _width(span.part, joint)
                if width >= least - TAPE:
                    continue
                small = f"is {facts.show(width)} wide, less than {facts.show(least)}"
                yield facts.found(
                    RULE, SEVERITY, facts.runs[name], (span,), span.low if joint.at == "low" else span.high,
                    f"the tab that closes the {joint.kind} corner {small if width else 'is missing'}",
                    f"Cut the face {facts.show(least)} beyond the miter line.",
                    measured=width,
                )  # fmt: skip


def _width(part: Part, joint: Joint) -> float:
    """Return how far the tab of a face reaches from its fold line at one end, inches; 0 for no tab."""
    face, middle = part.run.section.leg("face"), (part.low + part.high) / 2
    widths = [0.0]
    for tab in part.sheet.tabs:
        start, end = tab.hinge
        if face is None or tab.strip != face.strip or (start[0] < middle) != (joint.at == "low"):
            continue
        along = (end - start) / np.linalg.norm(end - start)
        beyond = tab.flap - start
        widths.append(float(np.abs(beyond[:, 0] * along[1] - beyond[:, 1] * along[0]).max()))
    return max(widths)
