"""Two laps of a run, or a lap and a seam, are in one place.

**Finds** a piece so short that its two laps come nearer to each other than the limit, and the foot of a panel's seam
on a lap of the trim that it hooks.

**Fix** Make the piece longer or leave it out; give the panels another first seam, or the run another start.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...edge_kinds import KINDS
from ...message import Length, message
from ...runs import Run
from ...scene.draft import Changes
from ...tolerances import TAPE
from ..facts import Facts, PartSpan, and_more, is_sloping
from ..proposals import laid_out_again, seams_elsewhere, started, with_lengths
from ..record import Finding, Severity

RULE = "laps-in-one-place"
LIMITS = (RULE, "seam-on-lap")
SEVERITY: Severity = "warning"
WHY = message("So many sheets on each other stand up as a bump, and water finds the gaps beside it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each piece whose laps meet, and for each run with seams on its laps."""
    least = facts.layout.limits.number(RULE)
    for name, run in facts.runs.items():
        spans = facts.spans[name]
        for before, span, after in zip(spans, spans[1:], spans[2:], strict=False):
            apart = after.low - before.high
            if apart < least - TAPE:
                yield facts.found(
                    RULE,
                    SEVERITY,
                    run,
                    (before, span, after),
                    (span.low + span.high) / 2,
                    message(
                        "the laps at both ends of {mark} are {apart} apart",
                        mark=span.mark,
                        apart=Length(apart),
                    )
                    if apart >= 0
                    else message("the laps at both ends of {mark} lie on each other", mark=span.mark),
                    message(
                        "Make {mark} {more} longer, or leave it out.",
                        mark=span.mark,
                        more=Length(least - apart),
                    ),
                    measured=apart,
                    proposals=_proposals(facts, run, span, least - apart),
                )
        yield from _seams_on_laps(facts, run)


def _seams_on_laps(facts: Facts, run: Run) -> Iterator[Finding]:
    """Yield one finding for the seams whose foot stands on a lap of an eave's trim."""
    laps = list(facts.laps(run.name))
    if KINDS[run.trim].panels != "hook" or is_sloping(run) or not laps:
        return
    least = facts.layout.limits.number("seam-on-lap")
    feet = [
        float((np.asarray(panel.seams[0][0]) - run.edge.start) @ run.edge.direction)
        for panel in facts.layout.panels_of(run.edge.faces[0])
        if run.name in panel.borders and len(panel.seams)
    ]
    found: list[tuple[float, float, PartSpan, PartSpan]] = []
    for lower, upper in laps:
        away = [(abs(foot - (upper.low + lower.high) / 2), foot) for foot in feet]
        found += [(distance, foot, lower, upper) for distance, foot in away if distance < least - TAPE]
    if found:
        distance, foot, lower, upper = min(found, key=lambda one: one[0])
        told = message(
            "a seam of the panels stands on the lap, {distance} from its middle", distance=Length(distance)
        )
        yield facts.found(
            RULE,
            SEVERITY,
            run,
            (lower, upper),
            foot,
            and_more(told, len(found)),
            message("Give the panels another first seam, or the run another start."),
            measured=distance,
            proposals=(
                *seams_elsewhere(facts.layout)[:2],
                *started(run, facts.layout.scene, ("shared", "even")),
            ),
            limit=facts.limit("seam-on-lap"),
        )


def _proposals(facts: Facts, run: Run, between: PartSpan, more: float) -> tuple[Changes, ...]:
    """Return the changes that bring two laps apart: the piece between them longer, or laid out otherwise."""
    scene = facts.layout.scene
    if run.spec.pieces is None:
        return started(run, scene, ("shared", "even", "low"))
    return *with_lengths(run, scene, {between.part.piece.number: more}), laid_out_again(run, scene)
