"""At a corner the drip edges of two pieces hang at different heights.

**Finds** a corner of eave and rake trim where the lower bend of one face hangs below that of the other by more than
the limit. A rake's face is measured square to the rake, so it reaches deeper, plumb, the steeper the roof.

**Fix** Leave `face` out, so that the one is made as deep as the other; or give the piece that hangs less deep a wider
face, or close the corner with a piece of its own.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...drips import drip_height, drip_of
from ...geometry.arrays import Array
from ...layout import Part
from ...message import Length, message
from ..facts import Facts, and_more, outside_width
from ..proposals import for_run
from ..record import Finding, Severity

RULE = "drips-apart"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("The drip legs do not meet there: the corner between them stays open, and is seen from below.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for a roof with corners whose drip edges hang apart; the worst corner speaks for all."""
    most = facts.layout.limits.number(RULE)
    spans = {span.mark: span for own in facts.spans.values() for span in own}
    corners = [
        (
            _height(spans[mark].part, rake.part.run.edge.start)
            - _height(rake.part, rake.part.run.edge.start),
            rake,
            mark,
        )
        for rake in spans.values()
        if rake.part.run.trim == "rake" and rake.part.ends.low.kind.name == "eave-rake"
        for mark in rake.part.ends.low.others
    ]
    open_ones = [corner for corner in corners if abs(corner[0]) > most]
    if not open_ones:
        return
    apart, rake, mark = max(open_ones, key=lambda corner: abs(corner[0]))
    higher, lower = (spans[mark], rake) if apart > 0 else (rake, spans[mark])
    section, slope = higher.part.run.section, rake.part.run.edge.slope if higher is rake else 0.0
    face = section.legs[[leg.name for leg in section.legs].index("face")]
    scene = facts.layout.scene
    wanted = scene.tape.up(outside_width(section, face) + abs(apart) * math.cos(slope))
    problem = message(
        "the drip edge of {lower} hangs {apart} below that of {higher}, and the corner between them is open",
        lower=lower.mark,
        higher=higher.mark,
        apart=Length(abs(apart)),
    )
    yield facts.found(
        RULE,
        SEVERITY,
        rake.part.run,
        (higher, lower),
        rake.part.ends.low.outermost,
        and_more(problem, len(open_ones)),
        message(
            "Give the {run} a face of {face}, or close the corner with a piece of its own.",
            run=higher.part.run.words,
            face=Length(wanted),
        ),
        measured=abs(apart),
        point=_low_bend(rake.part, rake.part.ends.low.innermost),
        proposals=for_run(higher.part.run, scene, "face", scene.tape.typed(wanted)),
    )


def _height(part: Part, corner: Array) -> float:
    return drip_height(part.placement, drip_of(part.run.section), corner)


def _low_bend(part: Part, u: float) -> Array:
    """Return the point at ``u`` on the lower bend of a piece's face, ``(3,) float, inches, scene frame``."""
    return np.asarray((part.placement @ [u, *drip_of(part.run.section), 1.0])[:3])
