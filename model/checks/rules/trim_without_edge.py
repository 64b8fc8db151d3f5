"""The scene asks for trim on a kind of edge that the roof has not.

**Finds** a table under ``[trim]`` that asks something of a kind of edge that the roof has none of: hip caps on a
gable.

**Fix** Take the table out, or look at the roof's form: another one may be meant.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import message
from ...scene.draft import Change
from ...scene.schema import TrimSpec
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import at_key

RULE = "trim-without-edge"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message(
    "What was asked for is nowhere: either the words are left over, or the roof is not the one meant."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each kind of trim that something is asked of and that lies nowhere."""
    layout = facts.layout
    there = {edge.kind for edge in layout.roof.edges}
    for kind, trim in layout.scene.trim.items():
        if trim is not None and kind not in there and trim != TrimSpec(profile=KINDS[kind].profile):
            yield at_key(
                facts,
                RULE,
                SEVERITY,
                ("trim", kind),
                message("this roof has no {kind}, so nothing comes of it", kind=kind),
                message("Take the table out, or see whether another form of roof is meant."),
                measured=0.0,
                proposals=((Change(("trim", kind), None),),),
            )
