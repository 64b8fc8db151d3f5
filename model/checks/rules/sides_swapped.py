"""A house is much wider across its ridge than it is long.

**Finds** a gable or hip whose ridge is much shorter than the house is wide, and a shed whose eave is much shorter than
it is deep: length and width may have changed places.

**Fix** Give the side along the ridge, or along a shed's eave, as length. Where the house is so, accept the finding with
the reason.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, message
from ...scene.schema import GableSpec, HipSpec, ShedSpec
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import as_meant, at_key

RULE = "sides-swapped"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message("With its sides exchanged the ridge runs the wrong way, and no piece is as long as its edge.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding when the house is much wider than long."""
    scene = facts.layout.scene
    roof, most = scene.roof, facts.layout.limits.number(RULE)
    if isinstance(roof, GableSpec | HipSpec | ShedSpec) and roof.width > most * roof.length + 1e-6:
        exchanged = (
            as_meant(scene, ("roof", "length"), roof.width),
            as_meant(scene, ("roof", "width"), roof.length),
        )
        yield at_key(
            facts,
            RULE,
            SEVERITY,
            ("roof", "width"),
            message(
                "{width} across, and only {length} along the ridge or the eave",
                width=Length(roof.width),
                length=Length(roof.length),
            ),
            message("Exchange length and width if the long side lies along the ridge; if not, accept it."),
            measured=roof.width / roof.length,
            proposals=(tuple(change for way in exchanged for (change,) in way),),
        )
