"""Two pieces pass through each other.

**Finds** two folded pieces, thickness and all, that run into each other deeper than the limit where they
are set.

**Fix** Notch or relieve one of the pieces, or choose profiles that nest.

**Source** The project's own: less than half a sheet is taken up by pressing the metal together.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Fine, message
from ..facts import Facts
from ..proposals import usual_profiles
from ..record import Finding, Severity

RULE = "pieces-collide"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message(
    "Pieces in each other's way will not go together on the roof: one has to be hammered, and the joint "
    "stays open."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each two pieces that run into each other."""
    thickness = facts.layout.scene.metal.thickness
    spans = {span.mark: span for own in facts.spans.values() for span in own}
    parts = facts.layout.parts
    most = facts.layout.limits.number(RULE) * thickness
    for clash in facts.clashes:
        if clash.second >= len(parts) or clash.depth <= most:
            continue
        first, second = spans[parts[clash.first].mark], spans[parts[clash.second].mark]
        run = first.part.run
        u = float((clash.point - run.edge.start) @ run.edge.direction)
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            (first, second),
            u,
            message("the pieces run {depth} into each other", depth=Fine(clash.depth)),
            message("Notch or relieve one of them, or choose profiles that nest."),
            measured=clash.depth / thickness,
            proposals=usual_profiles((first.part.run, second.part.run), facts.layout.scene),
            point=clash.point,
        )
