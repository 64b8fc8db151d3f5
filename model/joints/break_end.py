"""Break end: where the apron of a break ends over the rakes of a gable.

Its top leg lies on the top leg of the upper rake's trim and ends flush with the deck. The apron runs on past the hook
lip of the lower rake's trim, and its end is turned down over that.

Source: common practice, no source.
"""

from __future__ import annotations

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Message, Place, message
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE, TAPE
from .cap import END_OVERHANG, HEM_SETBACK, MARGIN, reach_past
from .end import End, JointKind, step
from .flap import flap, hinges, way_round
from .meeting import Meeting, Met, either_end, high_end, low_end
from .stand import Stand

KIND = JointKind("break end", message("break end"))
MEETING = Meeting(
    ("break", "rake", "rake"), (either_end("break"),), around=high_end("rake") | low_end("rake"), rests="upon"
)
COVER = 0.75
"""How far the turned-down end hangs below the panels, over the rake's hook lip, inches."""

DOWN = np.array([0.0, 0.0, -1.0])


def fit(met: Met) -> tuple[End]:
    """Cut one end of a break's apron over the rakes there."""
    (stand,) = met.ends
    section, v = stand.section, stand.section.v
    top, apron = section.strip_of("top"), section.strip_of("apron")
    lower = tuple(rake for rake in met.around if stand.run.edge.faces[-1] in rake.run.edge.faces)
    square = lower[0].outward if lower else stand.away
    over = reach_past(stand, lower, square) + END_OVERHANG
    flush = stand.cut(stand.corner - square * CLEARANCE, square)[top]
    at = stand.cut(stand.corner + square * over, square)[apron]
    ends = square_cut(section, float(flush[1]))
    ends[top], ends[apron] = flush, at
    ends[apron + 1 :] = at[1] - stand.sign * HEM_SETBACK
    depth = _hang(stand, apron) + COVER
    lines = v[apron : apron + 2] + np.array([MARGIN, -MARGIN])
    hinge = np.column_stack([np.interp(lines, v[apron : apron + 2], at), lines])
    tab = flap(stand, apron, hinge, depth, DOWN, ("plumb", "plumb"))
    cut = Cut(path(section, ends, hinges((tab,))), (tab,))
    steps = tuple(_steps(stand, tab, ends, depth))
    others = tuple(rake.run.name for rake in met.around)
    return (End(KIND, stand.at, "over", others, cut, steps, sealed=True),)


def _hang(stand: Stand, apron: int) -> float:
    """Return how far the apron's underside stands above the deck, plumb, inches."""
    section = stand.section
    _, normal = stand.plane(apron)
    return (float(section.points[apron] @ section.normals[apron]) - stand.thickness / 2) / float(normal[2])


def _steps(stand: Stand, tab: Tab, ends: Array, depth: float) -> list[Step]:
    v, top, apron = stand.section.v, stand.section.strip_of("top"), stand.section.strip_of("apron")
    flush, at = ends[top], ends[apron]
    return [
        step("mark", _fold_line(at, depth), tab.hinge),
        step(
            "cut",
            message(
                "Cut the apron at the end, taper the flap at both sides, and free the hem {hem} back.",
                hem=Length(HEM_SETBACK),
            ),
            [(flush[1], v[apron]), (at[0], v[apron]), *way_round(tab), (at[1], v[apron + 1])],
            [(at[1], v[apron + 1]), (ends[-1, 0], v[apron + 1]), (ends[-1, 0], v[-1])],
        ),
        step("cut", _across_top(flush), [(flush[0], 0.0), (flush[1], v[top + 1]), (flush[1], v[apron])]),
        step("fold", message("Turn the apron's end down over the rake's hook lip."), tab.hinge),
        step(
            "seal", message("Bed the top leg in sealant on the rake, and set the apron's end on a closure.")
        ),
    ]


def _fold_line(at: Array, depth: float) -> Message:
    """Return how the fold of the turned-down end is drawn: across, or slanting where the rake is not square to it."""
    if abs(at[1] - at[0]) < TAPE:
        return message(
            "Mark the fold line across the apron, {at_fold} from the blank's end, and the end {depth} beyond it.",
            at_fold=Place(float(at.mean())),
            depth=Length(depth),
        )
    return message(
        "Mark the fold line across the apron, {at_inner} from the blank's end at the middle bend and {at_outer} at the "
        "bend of the hem, and the end {depth} beyond it.",
        at_inner=Place(float(at[0])),
        at_outer=Place(float(at[1])),
        depth=Length(depth),
    )


def _across_top(flush: Array) -> Message:
    """Return how the top leg is cut, flush with the edge of the deck."""
    if abs(flush[1] - flush[0]) < TAPE:
        return message(
            "Cut the top leg square across, {at_top} from the blank's end.", at_top=Place(float(flush.mean()))
        )
    return message(
        "Cut the top leg in line with the rake, {at_outer} from the blank's end at its inboard edge and {at_inner} at "
        "the middle bend.",
        at_outer=Place(float(flush[0])),
        at_inner=Place(float(flush[1])),
    )
