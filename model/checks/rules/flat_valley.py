"""A valley is too flat for a pan that is plainly lapped.

**Finds** a valley that rises less than the limit. Between two slopes of 6 in 12 it rises 4.24 in 12. As a note where
its pan has a rib, its laps are in sealant, and they are as long as `valley-lap-too-short` asks; as a warning where
the scene has it otherwise.

**Fix** Leave profile, laps and sealant of the valley as they are by themselves, or make the roof steeper.

**Source** CDA handbook 9.5: the plain open valley, for 4 1/2 in per ft and more. What is done below that is common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...message import Length, Message, Slope, Value, message
from ...runs import Run, valley_lap
from ...scene.draft import Change, Changes
from ...tolerances import TAPE
from ..facts import Facts, rising
from ..proposals import said_at
from ..record import Finding, Severity
from ..valleys import rib_of, rise_of, valleys_of

RULE = "flat-valley"
LIMITS = (RULE,)
SEVERITY: Severity = "warning"
WHY = message(
    "In a flat valley water runs slowly and stands deep, and creeps up under laps that only lie on each other."
)


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each valley that is too flat for plain laps."""
    least = facts.layout.limits.number(RULE)
    for run, pans in valleys_of(facts):
        rise = rise_of(run.edge)
        if rise >= least - 1e-6 or not pans:
            continue
        lap = facts.layout.limits.number(valley_lap(run.edge.slope))
        mended = rib_of(run.section) > TAPE and run.spec.sealed and run.spec.lap >= lap - TAPE
        yield facts.found(
            RULE,
            "note" if mended else SEVERITY,
            run,
            pans,
            run.length / 2,
            _made(run, least),
            message(
                "Leave it a pan with a rib and laps of {lap} in sealant, or make the roof steeper.",
                lap=Length(lap),
            ),
            measured=rise,
            place=message("the whole run"),
            proposals=() if mended else _proposals(facts, run, lap),
        )


def _proposals(facts: Facts, run: Run, lap: float) -> tuple[Changes, ...]:
    """Return the change that gives a valley the usual pan with its rib, and laps that are long enough and sealed."""
    scene, asked = facts.layout.scene, run.spec
    better: dict[str, object] = {}
    if rib_of(run.section) <= TAPE:
        better["profile"] = None
    if not asked.sealed:
        better["sealed"] = True
    if asked.lap < lap - TAPE:
        better["lap"] = scene.tape.typed(scene.tape.up(lap))
    return (tuple(Change(said_at(run, scene, key), value) for key, value in better.items()),)


def _made(run: Run, least: float) -> Message:
    """Return how flat a valley is, and how its pan is made for that."""
    values: dict[str, Value] = {
        "slope": Slope(run.edge.slope),
        "least": rising(least),
        "lap": Length(run.spec.lap),
    }
    match rib_of(run.section) > TAPE, run.spec.sealed:
        case True, True:
            return message(
                "it slopes {slope}, less than the {least} for plain laps: its pan has a rib, and laps of {lap} in "
                "sealant",
                **values,
            )
        case True, False:
            return message(
                "it slopes {slope}, less than the {least} for plain laps, and its laps of {lap} are dry",
                **values,
            )
    return message(
        "it slopes {slope}, less than the {least} for plain laps, and its pan has no rib; its laps are {lap}",
        **values,
    )
