"""A screw has nothing to hold in.

**Finds** a screw of a cap that does not meet the flange of a closure under it.

**Matters because** it holds nothing: the cap lifts, and water runs in along the screw.

**Fix** Move the screw off the seam and over the closure, or leave it to the layout.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..message import Length, message
from ..panels.closures import Closure
from ..screws import Screw
from .facts import Facts
from .record import Finding, Severity

RULE = "screw-without-hold"
LIMITS = (RULE,)
SEVERITY: Severity = "error"


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece with screws that hold nothing."""
    layout = facts.layout
    most = facts.layout.limits.number(RULE)
    under: dict[str, list[Closure]] = {}
    for closure in layout.closures:
        under.setdefault(closure.at, []).append(closure)
    for spans in facts.spans.values():
        for span in spans:
            run = span.part.run
            loose = [
                screw
                for screw in layout.screws_of(span.mark)
                if screw.holds == "closure" and _away(screw, under.get(run.name, [])) > most
            ]
            if loose:
                at = loose[0].at
                yield facts.found(
                    RULE, SEVERITY, run, (span,), span.low + at,
                    message("the screw {at} from its low end meets no closure", at=Length(at)),
                    message("Move it off the seam and over a closure, or leave it to the layout."),
                    measured=float(len(loose)),
                    point=loose[0].point,
                )  # fmt: skip


def _away(screw: Screw, closures: list[Closure]) -> float:
    """Return how far a screw goes in beside the nearest flange, inches."""
    best = np.inf
    for closure in closures:
        section = closure.sheet.section
        flange = section.strip_of("flange")
        local = np.linalg.inv(closure.placement) @ [*screw.point, 1.0]
        u, out = float(local[0]), float(local[1])
        low, high = (
            float(_at(cut.line, float(section.v[flange : flange + 2].mean())))
            for cut in (closure.sheet.low, closure.sheet.high)
        )
        first, last = sorted(section.points[flange : flange + 2, 0].tolist())
        best = min(best, max(low - u, u - high, first - out, out - last, 0.0))
    return float(best)


def _at(line: np.ndarray, v: float) -> float:
    """Return ``u`` of a cut at ``v``, inches."""
    return float(np.interp(v, line[:, 1], line[:, 0]))
