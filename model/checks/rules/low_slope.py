"""A face is too flat for its seams.

**Finds** a face that slopes less than the limit for the kind of seam; exactly at the limit passes.

**Fix** Seal the seams, choose standing seams, or make the roof steeper.

**Source** IBC 2012 1507.4.2 and IRC R905.10.2. The edge-metal tests of ANSI/SPRI ES-1 (IBC 1504.5) are for
low-slope membrane roofs; they are no rule for a steep standing-seam roof.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...message import Slope, message
from ...scene.draft import Change, Changes
from ..facts import Facts, at_place, rising
from ..record import Finding, Severity

RULE = "low-slope"
LIMITS = ("low-slope-standing-seam", "low-slope-lapped-and-sealed", "low-slope-lapped")
SEVERITY: Severity = "error"
WHY = message("Standing water gets through a seam that is made to shed it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each face that is too flat."""
    seam = facts.layout.scene.panels.seam_kind
    limit = facts.limit(f"{RULE}-{seam.replace(' ', '-')}")
    least = facts.layout.limits.number(limit.rule)
    for face in facts.layout.roof.faces:
        rise = 12 * math.tan(face.slope)
        if rise < least - 1e-6:
            yield Finding(
                RULE,
                SEVERITY,
                face.name,
                at_place(
                    message("{face} face", face=face.words),
                    message(
                        "it slopes {slope}, less than the {least} for {seam}",
                        slope=Slope(face.slope),
                        least=rising(least),
                        seam=seam,
                    ),
                ),
                (),
                face.outline.mean(axis=0),
                rise,
                limit,
                message("Seal the seams, choose standing seams, or make the roof steeper."),
                proposals=_proposals(facts),
            )


def _proposals(facts: Facts) -> tuple[Changes, ...]:
    """Return the kinds of seam that every face is steep enough for."""
    rise = min(12 * math.tan(face.slope) for face in facts.layout.roof.faces)
    return tuple(
        (Change(("panels", "seam_kind"), kind),)
        for kind in ("lapped and sealed", "standing seam")
        if rise >= facts.layout.limits.number(f"{RULE}-{kind.replace(' ', '-')}") - 1e-6
    )
