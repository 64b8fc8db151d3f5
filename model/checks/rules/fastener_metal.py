"""The screws' metal does not suit the trim's.

**Finds** screws of a metal that is not listed for the trim's metal.

**Fix** Use one of the metals listed for the trim. Within 3,000 ft of salt water, FEMA P-499 (2010) fact
sheet 7.6 asks for 300-series stainless on any metal; a scene does not know how near the sea is.

**Source** IBC 1507.4.4.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Listed, message
from ...metals import METAL_WORDS, METALS
from ...scene.draft import Change
from ..facts import ALL_TRIM, Facts, at_place, point_on
from ..record import Finding, Severity

RULE = "fastener-metal"
LIMITS = (RULE,)
SEVERITY: Severity = "error"
WHY = message("Two metals in the rain make a cell: the lesser one is eaten away, round the hole first.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield one finding when the scene's screws do not suit its metal."""
    scene = facts.layout.scene
    metal, screws = METALS[scene.metal.kind], scene.screws.kind
    if screws in metal.fasteners or not facts.layout.runs:
        return
    suits = Listed(tuple(METAL_WORDS[kind] for kind in metal.fasteners), "or")
    yield Finding(
        RULE,
        SEVERITY,
        ALL_TRIM,
        at_place(
            message("all trim"),
            message(
                "{screws} screws in {metal} corrode one another",
                screws=METAL_WORDS[screws],
                metal=metal.title,
            ),
        ),
        tuple(part.mark for part in facts.layout.parts),
        point_on(facts.layout.runs[0], 0.0),
        1.0,
        facts.limit(RULE),
        message("Use {suits} screws.", suits=suits),
        proposals=((Change(("screws", "kind"), metal.fasteners[0]),),),
    )
