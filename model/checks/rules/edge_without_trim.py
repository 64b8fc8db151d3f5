"""An edge of the roof has no trim.

**Finds** an edge that the scene leaves bare, one for which no trim is laid out, and one too short for any.

**Fix** Give the edge a profile, or accept the finding with the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import Angle, Length, Message, message
from ...roof.build import LEAST_BEND, MOST_RISE, is_bridged, is_long_enough, takes_trim
from ...roof.record import Edge
from ...scene.draft import Changes
from ..facts import Facts, at_place
from ..proposals import given_trim
from ..record import Finding, Severity

RULE = "edge-without-trim"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("The deck's edge takes up water, and panels have nothing to hook on.")

LEAST = 0.5
"""A shorter edge between caps lies under their laps, inches."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each bare edge."""
    edges = {edge.name: edge for edge in facts.layout.roof.edges}
    for name in facts.layout.untrimmed:
        edge = edges[name]
        if is_bridged(edge) and edge.length < LEAST:
            continue
        yield Finding(
            RULE,
            SEVERITY,
            name,
            at_place(name, message("{length} of edge has no trim", length=Length(edge.length))),
            (),
            (edge.start + edge.end) / 2,
            1.0,
            facts.limit(RULE),
            _remedy(edge),
            proposals=_proposals(facts, edge),
        )


def _remedy(edge: Edge) -> Message:
    """Return what to do about a bare edge: where none can be laid out, to close it by hand."""
    if edge.kind == "break" and not takes_trim(edge):
        return message(
            "Aprons are laid out on breaks that bend by {least} degrees or more and rise by {most} or less from end to "
            "end: make it on the roof, and accept the finding.",
            least=Angle(LEAST_BEND),
            most=Angle(MOST_RISE),
        )
    if edge.kind not in KINDS:
        return message("No trim is laid out for such an edge: make it on the roof, and accept the finding.")
    if is_bridged(edge):
        return message(
            "It is too short for the cuts at both its ends, and the trim beside it is cut along it: cover it with a "
            "patch of the same metal bent over it, bedded in sealant, and accept the finding."
        )
    if not is_long_enough(edge):
        return message(
            "It is too short for the cuts at both its ends: close it with the trim beside it, and accept the finding."
        )
    return message(
        "Give {table} a profile, or accept the finding with the reason.", table=f"trim.{edge.kind}"
    )


def _proposals(facts: Facts, edge: Edge) -> tuple[Changes, ...]:
    """Return the change that takes away what leaves an edge bare, where trim can be laid out for it."""
    if edge.kind not in KINDS or not takes_trim(edge):
        return ()
    return ((given_trim(facts.layout.scene, edge),),)
