"""A joint of the trim stands where people look at it, or walk under it.

**Finds** laps of eave, rake and high trim on the side of the street, and laps of level trim over a door or nearer to it
than the limit, where a scene says which side is the street's and where the doors are.

**Fix** Lay the run from longer stock, from another end, or with its lengths given by hand, so that the joint lands
elsewhere; where it has to stand there, accept the finding.

**Source** Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..edge_kinds import FACED, KINDS
from ..message import Message, message
from ..runs import Run
from ..scene.draft import Change, Changes
from ..scene.house import OpeningSpec, Side
from .facts import Facts, PartSpan
from .proposals import joints_elsewhere
from .record import Finding, Severity

RULE = "joint-in-sight"
LIMITS = (RULE,)
SEVERITY: Severity = "note"
WHY = message(
    "A lap is a line across the finish that everybody sees, and where it leaks it drips on whoever enters."
)

ALONG = {
    "front": np.array([1.0, 0.0]),
    "right": np.array([0.0, 1.0]),
    "back": np.array([-1.0, 0.0]),
    "left": np.array([0.0, -1.0]),
}
"""From left to right along a side of the house, in plan, seen from outside."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each lap over a door, and for each other lap on the street's side."""
    scene = facts.layout.scene
    all_doors = [one for one in scene.house.opening if one.kind == "door"]
    for run in facts.runs.values():
        side = _side_of(run)
        if KINDS[run.trim].legs != FACED or not (all_doors or side == scene.street):
            continue
        for lower, upper in facts.laps(run.name):
            doors = [door for door in all_doors if door.wall == side]
            if any(
                _away(facts, run, lower, upper, door) < facts.layout.limits.number(RULE) for door in doors
            ):
                yield _found(
                    facts, run, lower, upper, message("the lap is over a door"), _off_the_door(facts, run)
                )
            elif side == scene.street:
                yield _found(facts, run, lower, upper, message("the lap is on the side of the street"))


def _off_the_door(facts: Facts, run: Run) -> tuple[Changes, ...]:
    """Return the changes that put the joints of a run elsewhere."""
    ways = joints_elsewhere(facts.layout, run.name)
    return tuple((Change(("run", run.name, "pieces"), lengths),) for lengths in ways)


def _found(
    facts: Facts,
    run: Run,
    lower: PartSpan,
    upper: PartSpan,
    told: Message,
    proposals: tuple[Changes, ...] = (),
) -> Finding:
    """Return the finding of one lap."""
    remedy = message("Lay the run from longer stock or with lengths of your own, so that it lands elsewhere.")
    return facts.found(
        RULE,
        SEVERITY,
        run,
        (lower, upper),
        (upper.low + lower.high) / 2,
        told,
        remedy,
        proposals=proposals,
    )


def _side_of(run: Run) -> Side:
    """Return the side of the house that a run looks to."""
    x, y = run.edge.outward[:2]
    if abs(x) > abs(y):
        return "right" if x > 0 else "left"
    return "back" if y > 0 else "front"


def _away(facts: Facts, run: Run, lower: PartSpan, upper: PartSpan, door: OpeningSpec) -> float:
    """Return how far a lap is from a door on its side, level along the wall, inches; 0 over it."""
    roof = facts.layout.roof
    corners = np.concatenate(
        [ring[:, :2] for ring in roof.walls or tuple(face.outline for face in roof.faces)]
    )
    along = ALONG[door.wall]
    begin = float((corners @ along).min()) + door.at - door.width / 2
    ends = sorted(
        float((run.edge.start + u * run.edge.direction)[:2] @ along) for u in (upper.low, lower.high)
    )
    return max(begin - ends[1], ends[0] - begin - door.width, 0.0)
