"""Ridge end: where a ridge cap closes over the rakes of a gable.

The cap runs on past the hook lips of the rakes; each wing's end is turned down plumb over them. Where the rakes
have no trim the end is cut square, flush with the deck.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..sheet.cut import path
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from .cap import (
    END_OVERHANG,
    HEM_SETBACK,
    MARGIN,
    Wing,
    close_middle,
    hang,
    hem_cuts,
    reach_past,
    seal_slit,
    set_wing,
    wings,
)
from .end import End, JointKind, step
from .flap import flap, hinges
from .meeting import Meeting, Met, either_end, high_end
from .stand import Stand

KIND = JointKind("ridge end", message("ridge end"), aloft=True)
MEETING = Meeting(("rake", "rake", "ridge"), (either_end("ridge"),), around=high_end("rake"))
COVER = 0.75
"""How far the turned-down end hangs below the panels, over the rakes' hook lips, inches."""


def fit(met: Met) -> tuple[End]:
    """Cut one end of a ridge cap over the rakes below it."""
    (ridge,) = met.ends
    return (_end(ridge, met.around),)


def _end(ridge: Stand, rakes: tuple[Stand, ...]) -> End:
    square = ridge.away
    over = reach_past(ridge, rakes, square) + END_OVERHANG
    ends = ridge.cut(ridge.corner + square * over, square)
    at = float(ends[0, 0])
    depth = hang(ridge) + COVER
    for wing in wings(ridge):
        set_wing(ends, wing, at, at, HEM_SETBACK, ridge.sign)
    close_middle(ends, ridge)
    left, right = (_turn_down(ridge, wing, at, depth) for wing in wings(ridge))
    cut = Cut(path(ridge.section, ends, hinges((left, right))), (left, right))
    steps = (
        step(
            "mark",
            message(
                "Mark the fold line square across, {at_fold} from the blank's end, and the end "
                "{depth} beyond it.",
                at_fold=Place(at),
                depth=Length(depth),
            ),
            [(at, 0.0), (at, ridge.section.width)],
        ),
        *_cuts(ridge, ends, at, at + ridge.sign * depth, left, right),
        step(
            "fold",
            message("Turn both flaps down 90 degrees over the hook lips of the rakes."),
            left.hinge,
            right.hinge,
        ),
        seal_slit(),
    )
    return End(KIND, ridge.at, "over", tuple(rake.run.name for rake in rakes), cut, steps, sealed=True)


def _turn_down(ridge: Stand, wing: Wing, at: float, depth: float) -> Tab:
    """Return the flap that closes one wing, kept clear of the bends at both its ends."""
    v = ridge.section.v
    first, last = sorted((float(v[wing.outer]), float(v[wing.inner])))
    hinge = np.array([[at, first + MARGIN], [at, last - MARGIN]])
    return flap(ridge, wing.strip, hinge, depth, np.array([0.0, 0.0, -1.0]), ("plumb", "plumb"))


def _cuts(ridge: Stand, ends: Array, at: float, end: float, left: Tab, right: Tab) -> tuple[Step, Step, Step]:
    """Return how the end is cut, and its two flaps freed at the hems and from each other."""
    section = ridge.section
    return (
        step("cut", message("Cut straight across at the end."), [(end, 0.0), (end, section.width)]),
        step(
            "cut",
            message(
                "Cut the hems away back to {at_hem} from the blank's end, and free the flaps along their bends.",
                at_hem=Place(at - ridge.sign * HEM_SETBACK),
            ),
            *hem_cuts(ridge, ends),
            [left.flap[1], left.hinge[0], (at, section.v[section.strip_of("left wing")])],
            [right.flap[0], right.hinge[1], (at, section.v[section.strip_of("right wing") + 1])],
        ),
        step(
            "cut",
            message(
                "Snip from the end to the fold line at the middle bend, and taper both flaps "
                "there so that their inner edges will hang plumb."
            ),
            [left.flap[0], left.hinge[1], right.hinge[0], right.flap[1]],
        ),
    )
