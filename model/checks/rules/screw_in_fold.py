"""A screw stands in a fold.

**Finds** a screw whose head reaches a bend, or nearer to one than the limit.

**Fix** Move the screw to the flat of the leg.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...message import Fine, Message, Place, message
from ...profiles.section import Leg, Section
from ...tolerances import POINT
from ..facts import Facts, and_more, fastening_legs
from ..proposals import wider
from ..record import Finding, Severity

RULE = "screw-in-fold"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "On a fold the head does not lie flat, so that its washer does not seal and the bend is pressed open."
)

SHARE = 2 / 3
"""Of what a narrow leg is widened by, so much comes between its screws and the fold: they stand a third of it in."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece with a screw whose head touches a bend; the worst speaks for it."""
    clear = facts.layout.limits.number(RULE)
    radius = facts.layout.scene.screws.head / 2
    for name, spans in facts.spans.items():
        run = facts.runs[name]
        if not run.section.bends:
            continue
        lines = run.section.v
        first = lines[[bend.first for bend in run.section.bends]]
        last = lines[[bend.last for bend in run.section.bends]]
        for span in spans:
            at, across = facts.screws[span.mark].T
            away = np.maximum(first - across[:, None], across[:, None] - last).min(axis=1) - radius
            count = int((away < clear - POINT).sum())
            if not count:
                continue
            worst = int(away.argmin())
            place, distance = float(at[worst]), float(away[worst])
            problem = _in_fold(place) if distance <= -radius else _near_fold(place)
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                (span,),
                span.low + place,
                and_more(problem, count),
                message("Move it {far} off the fold.", far=Fine(clear - distance)),
                measured=distance,
                proposals=wider(
                    run,
                    facts.layout.scene,
                    _screwed(run.section, float(across[worst])),
                    (clear - distance) / SHARE,
                ),
            )


def _in_fold(place: float) -> Message:
    return message("the screw {place} from the low end stands in a fold", place=Place(place))


def _near_fold(place: float) -> Message:
    return message(
        "the screw {place} from the low end stands too near a fold for its head to lie flat",
        place=Place(place),
    )


def _screwed(section: Section, across: float) -> Leg:
    """Return the leg that a row of screws goes through."""
    return min(
        fastening_legs(section), key=lambda leg: abs(section.v[leg.strip : leg.strip + 2].mean() - across)
    )
