"""Whether metal covers every corner of a roof but for the clearance there."""

from trimwright.model.checks.rules.gap_in_run import bare_at, broad_strips
from trimwright.model.layout import Layout
from trimwright.model.tolerances import CLEARANCE


def assert_covered(plan: Layout) -> None:
    """Check that what lies on the deck, and the face, each reach their corner but for the clearance there."""
    parts = {part.mark: part for part in plan.parts}
    for part in plan.parts:
        for end in part.ends.corners:
            for k in range(len(broad_strips(part.run.section))):
                bare = bare_at(part, end, k, parts)
                assert bare <= 3 * CLEARANCE + 0.01, (part.mark, end.at, end.kind.name, bare)
