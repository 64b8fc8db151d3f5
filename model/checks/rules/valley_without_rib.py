"""A valley has no rib, or one too low, though more water comes to it from one side.

**Finds** a valley between slopes of unequal pitch, or to which one side sheds more water than the other by more than
the limit allows, whose pan has a rib lower than the limit.

**Fix** Choose a profile with a rib along its middle, such as the W valley.

**Source** *Copper Flashings* (1925) sec. 33: a rib of 1 in where slopes or areas are unequal; CDA handbook 9.5 has 1
1/2 in, old editions of the UBC 3/4 in. From what ratio of areas on it counts is the project's own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...edge_kinds import KINDS
from ...message import Length, Message, Slope, message
from ...roof.record import Edge
from ...tolerances import TAPE
from ..facts import Facts
from ..proposals import for_run
from ..record import Finding, Severity
from ..valleys import drained, rib_of, valleys_of

RULE = "valley-without-rib"
FLOWS = "valley-without-rib-flows"
LIMITS = (RULE, FLOWS)
SEVERITY: Severity = "warning"
WHY = message("The stronger stream shoots across the valley and up under the panels on the other side.")
ALIKE = math.radians(0.5)
"""Slopes that differ by less throw their water alike."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each valley whose flows differ and whose rib is too low."""
    least = facts.layout.limits.number(RULE)
    for run, pans in valleys_of(facts):
        rib = rib_of(run.section)
        if rib >= least - TAPE or not pans:
            continue
        why = _differ(facts, run.edge)
        if why is not None:
            has = (
                message("its pan has no rib")
                if rib <= TAPE
                else message(
                    "the rib of its pan is {rib} high, less than {least}",
                    rib=Length(rib),
                    least=Length(least),
                )
            )
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                pans,
                run.length / 2,
                message("{why}, and {has}", why=why, has=has),
                message(
                    "Choose a profile with a rib of {least} or more, such as the W valley.",
                    least=Length(least),
                ),
                measured=rib,
                proposals=for_run(run, facts.layout.scene, "profile", KINDS[run.trim].profile),
                place=message("the whole run"),
            )


def _differ(facts: Facts, edge: Edge) -> Message | None:
    """Return how the water from the two sides of a valley differs; None where it does not."""
    roof = facts.layout.roof
    left, right = (roof.faces[face] for face in edge.faces)
    if abs(left.slope - right.slope) > ALIKE:
        steep, flat = sorted((left, right), key=lambda face: -face.slope)
        return message(
            "{steep} slopes {more} and {flat} {less}",
            steep=steep.words,
            flat=flat.words,
            more=Slope(steep.slope),
            less=Slope(flat.slope),
        )
    flows = zip(drained(roof, edge), (left.words, right.words), strict=True)
    small, large = sorted(flows, key=lambda flow: flow[0])
    times = large[0] / max(small[0], 1e-9)
    if times <= facts.layout.limits.number(FLOWS):
        return None
    return message(
        "{large} sheds {times} times as much into it as {small}",
        large=large[1],
        small=small[1],
        times=f"{times:.1f}",
    )
