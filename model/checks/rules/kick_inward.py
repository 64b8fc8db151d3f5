"""A drip leg turns toward the wall.

**Finds** trim of eaves, rakes and high sides whose lowest leg that runs down under the face leads inward: past the
limit from the face.

**Fix** Turn the leg out: give it the opposite turn, such as -45 for 45.

**Source** Common practice, no source: the kick throws the water off the wall.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...edge_kinds import FACED, KINDS
from ...message import Length, message
from ...profiles.leg_words import leg_words
from ...runs import Run
from ...scene.draft import Change, Changes
from ..facts import Facts
from ..record import Finding, Severity

RULE = "kick-inward"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Water then runs along the metal to the wall instead of dripping clear of it.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each run whose drip leads inward."""
    most = facts.layout.limits.number(RULE)
    for run in facts.runs.values():
        face = run.section.leg("face")
        below = [leg for leg in run.section.legs if face is not None and leg.strip > face.strip]
        if KINDS[run.trim].legs != FACED or not below:
            continue
        inward, down = _way(run, below[0].strip)
        if inward > most and down > inward / 4:
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                facts.spans[run.name],
                run.length / 2,
                message(
                    "its {leg} leads {inward} inward, toward the wall",
                    leg=leg_words(below[0].name),
                    inward=Length(inward),
                ),
                message(
                    "Turn leg '{leg}' the other way in profile '{profile}'.",
                    leg=leg_words(below[0].name),
                    profile=run.section.profile,
                ),
                measured=inward,
                place=run.section.profile,
                proposals=_proposals(facts, run, below[0].name),
            )


def _way(run: Run, strip: int) -> tuple[float, float]:
    """Return how far a strip leads toward the wall, level, and how far down, inches."""
    over, up = np.diff(run.section.points[strip : strip + 2], axis=0)[0]
    way = over * run.frame[:3, 1] + up * run.frame[:3, 2]
    outward = run.frame[:2, 1] / np.linalg.norm(run.frame[:2, 1])
    return -float(way[:2] @ outward), -float(way[2])


def _proposals(facts: Facts, run: Run, leg: str) -> tuple[Changes, ...]:
    """Return the change that turns a leg of the scene's own profile the other way."""
    profile = facts.layout.scene.profile.get(run.spec.profile)
    if profile is None:
        return ()
    at, turn = next((number, one.turn) for number, one in enumerate(profile.legs) if one.name == leg)
    key = ("profile", run.spec.profile, "legs", at, "turn")
    return () if turn is None else ((Change(key, -turn),),)
