"""Water in a valley has no way out.

**Finds** a valley that rises less than the limit, or at whose low end the roof rises on all sides.

**Fix** Let the valley fall to an eave: raise one end, or build a cricket; a box gutter or a drain is no work of trim.

**Source** The least slope is that of standing seams in IBC 2012 1507.4.2 (pub2).
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Slope, message
from ...roof.record import Edge, Roof
from ...tolerances import LEVEL
from ..facts import Facts, at_place, rising
from ..record import Finding, Severity
from ..valleys import rise_of

RULE = "dead-valley"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Standing water finds every seam and lap, freezes there, and rots the deck.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each valley that holds its water, whether it has a pan or not."""
    roof, least = facts.layout.roof, facts.layout.limits.number(RULE)
    for edge in roof.edges:
        if edge.kind != "valley":
            continue
        rise = rise_of(edge)
        if rise < least - 1e-6:
            told = message(
                "it slopes {slope}, less than {least}: water stands in it",
                slope=Slope(edge.slope),
                least=rising(least),
            )
        elif _is_sink(roof, edge):
            told = message("the roof rises on all sides of its low end: water has no way out")
        else:
            continue
        yield Finding(
            RULE,
            SEVERITY,
            edge.name,
            at_place(message("{valley}", valley=edge.words), told),
            tuple(part.mark for part in facts.layout.parts_of(edge.name)),
            edge.start,
            rise,
            facts.limit(RULE),
            message(
                "Build a cricket over its low end, or raise its other end, so that it falls to an eave; a box gutter "
                "is no work of trim."
            ),
        )


def _is_sink(roof: Roof, valley: Edge) -> bool:
    """Return whether everything that ends at the low end of a valley rises from there."""
    vertex = valley.vertices[0]
    meeting = [edge for edge in roof.edges if vertex in edge.vertices]
    outer = any(len(edge.faces) == 1 and edge.kind != "step" for edge in meeting)
    falls = any(edge.vertices[1] == vertex and edge.slope > LEVEL for edge in meeting)
    return not outer and not falls
