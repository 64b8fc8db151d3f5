"""A screw has nothing to hold in.

**Finds** a screw of a cap that does not meet the flange of a closure under it.

**Fix** Move the screw off the seam and over the closure, or leave it to the layout.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...geometry.arrays import Array
from ...message import Length, message
from ...panels.closures import Closure
from ...sheet.sheet import Sheet
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import with_screws
from ..record import Finding, Severity

RULE = "screw-without-hold"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("A screw that holds nothing lets the cap lift, and water runs in along it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece with screws that hold nothing."""
    layout = facts.layout
    most = facts.layout.limits.number(RULE)
    under: dict[str, list[Closure]] = {}
    for closure in layout.closures:
        if closure.sheet.section.leg("flange") is None:
            continue
        under.setdefault(closure.at, []).append(closure)
    for name, spans in facts.spans.items():
        flanges = _flanges(under.get(name, []))
        for span in spans:
            capping = [screw for screw in layout.screws_of(span.mark) if screw.holds == "closure"]
            if not capping:
                continue
            away = _away(np.array([screw.point for screw in capping]), *flanges)
            loose = [
                screw for screw, beside in zip(capping, away.tolist(), strict=True) if beside > most + TAPE
            ]
            if loose:
                at = loose[0].at
                yield facts.found(
                    RULE,
                    SEVERITY,
                    span.part.run,
                    (span,),
                    span.low + at,
                    message("the screw {at} from its low end meets no closure", at=Length(at)),
                    message("Move it off the seam and over a closure."),
                    measured=float(len(loose)),
                    point=loose[0].point,
                    proposals=with_screws(layout, span.mark, ()),
                )


def _flanges(closures: list[Closure]) -> tuple[Array, Array]:
    """Return for ``n`` closures the way into their frames and where their flanges are.

    Returns:
        ``(n, 4, 4)`` from the scene frame to ``(u, out, up)``, and ``(n, 4) float, inches``: the lowest and highest
        ``u`` of the flange along its middle, and its two edges in ``out``.
    """
    inward = np.linalg.inv(np.array([closure.placement for closure in closures]).reshape(-1, 4, 4))
    sheets = {id(closure.sheet): closure.sheet for closure in closures}
    reach = {key: _flange(sheet) for key, sheet in sheets.items()}
    return inward, np.array([reach[id(closure.sheet)] for closure in closures]).reshape(-1, 4)


def _flange(sheet: Sheet) -> list[float]:
    """Return the lowest and highest ``u`` of a closure's flange along its middle, and its two edges in ``out``."""
    section = sheet.section
    strip = section.strip_of("flange")
    middle = float(section.v[strip] + section.v[strip + 1]) / 2
    ends = [float(np.interp(middle, line[:, 1], line[:, 0])) for line in (sheet.low.line, sheet.high.line)]
    return [*ends, *sorted(section.points[strip : strip + 2, 0].tolist())]


def _away(points: Array, inward: Array, reach: Array) -> Array:
    """Return how far each of ``(n, 3)`` points goes in beside the nearest flange, ``(n,) float, inches``."""
    if not len(reach):
        return np.full(len(points), np.inf)
    local = inward[:, :2, :3] @ points.T + inward[:, :2, 3:]
    low, high, first, last = reach.T[..., None]
    u, out = local[:, 0], local[:, 1]
    beside = np.maximum.reduce([low - u, u - high, first - out, out - last])
    return np.asarray(np.maximum(beside.min(axis=0), 0.0))
