"""Screws go through a leg that does not lie on the roof.

**Finds** legs that a profile marks ``fastened`` though they stand off the deck by more than the limit, such as a face
or a kick, or are cut away at laps, such as a hem.

**Fix** Say ``fastened = true`` on the leg that lies on the deck, and nowhere else.

**Source** Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...edge_kinds import KINDS, WINGED
from ...message import Angle, message
from ...runs import Run, directions_of
from ...scene.draft import Change, Changes
from ..facts import Facts, fastening_legs
from ..proposals import usual_profiles
from ..record import Finding, Severity

RULE = "screw-in-wrong-leg"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message("Screws in sight rust and leak first, and there is no deck behind a face for them to hold in.")


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each leg of each run that should have no screws."""
    most = facts.layout.limits.number(RULE)
    for run in facts.runs.values():
        for leg in fastening_legs(run.section):
            off = _off_the_deck(facts, run, leg.strip)
            if math.degrees(off) <= most + 1e-6 and not leg.relieved:
                continue
            if leg.relieved:
                told = message("screws go through its {leg}, which is cut away at laps", leg=leg.name)
            else:
                told = message(
                    "screws go through its {leg}, which stands {angle} degrees off the deck",
                    leg=leg.name,
                    angle=Angle(off),
                )
            yield facts.found(
                RULE,
                SEVERITY,
                run,
                facts.spans[run.name],
                run.length / 2,
                told,
                message(
                    "Take fastened = true off leg '{leg}' of profile '{profile}', and say it on the leg that lies "
                    "on the deck.",
                    leg=leg.name,
                    profile=run.section.profile,
                ),
                measured=math.degrees(off),
                place=run.section.profile,
                proposals=_proposals(facts, run),
            )


def _proposals(facts: Facts, run: Run) -> tuple[Changes, ...]:
    """Return the ways to screw through the legs that lie on the deck: in the scene's own profile, or the usual one."""
    name, lying = run.spec.profile, KINDS[run.trim].legs
    profile = facts.layout.scene.profile.get(name)
    ways = usual_profiles([run], facts.layout.scene)
    if profile is None:
        return ways
    on_deck = lying if lying == WINGED else lying[:1]
    changes = tuple(
        Change(("profile", name, "legs", at, "fastened"), True if leg.name in on_deck else None)
        for at, leg in enumerate(profile.legs)
        if leg.fastened != (leg.name in on_deck)
    )
    return (changes, *ways)


def _off_the_deck(facts: Facts, run: Run, strip: int) -> float:
    """Return the angle between a strip and the face of the roof that it is nearest to lying on, radians."""
    over, up = np.diff(run.section.points[strip : strip + 2], axis=0)[0]
    below = -math.atan2(up, over)
    ways = directions_of(facts.layout.roof, run.edge)
    decks = [ways[name] for name in ("deck", "far deck") if name in ways]
    return min(abs(math.remainder(below - deck, math.pi)) for deck in decks)
