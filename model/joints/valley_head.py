"""Valley head: the high end of a valley's pan, under the caps or where a wing's ridge runs out on a slope.

Each wing is cut along the ridge or hip that bounds its slope, and turned up there as a dam against blown water, under
the cap. Where two pans meet on one slope they are mitered on the line that halves the angle between them, and the one
that is set later runs on over the other as a lap.

Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..roof.record import Edge
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE
from .cap import HEM_SETBACK, MARGIN, Wing, hem_cuts, set_wing, wings
from .end import End, JointKind, Lies, step, trace
from .flap import flap, hinges, way_round
from .lift import levels
from .meeting import Meeting, Met, high_end
from .stand import Stand

KIND = JointKind("valley head", message("valley head"), aloft=True)
LAP = 4.0
"""How far the later pan runs on over the other one where two meet, inches: common practice, 4 to 6, no source."""

DAM = 1.0
"""How high the head is turned up under a cap, inches: common practice, no source."""

BACK = 1 / 16
"""How far the dam stays off the plumb plane through the ridge or hip, inches: the pan from the other side has room."""

UP = np.array([0.0, 0.0, 1.0])

MEETING = Meeting(
    ("hip", "ridge", "valley"),
    (high_end("valley"),),
    more=True,
    last=lambda run: run.code,
    turns=True,
    rests="stacked",
    overlap=LAP,
)


@dataclass(frozen=True, slots=True, eq=False)
class _Head:
    """How one wing ends.

    Attributes:
        wing: The wing.
        outer: ``u`` of its cut at its outer line, inches.
        inner: The same at its line beside the rib.
        hem: How far its hem is cut back from there, inches: all that another pan laps over it.
        lies: Over or under the pan that it meets; None under a cap.
        dam: What is turned up under a cap.
        plane: A point and the normal of the plane on which its half of the rib is cut.
    """

    wing: Wing
    outer: float
    inner: float
    hem: float
    lies: Lies | None
    dam: Tab | None
    plane: tuple[Array, Array]


def fit(met: Met) -> list[End]:
    """Cut the heads of all pans that end at one point."""
    pans = met.ends
    level = levels([pan.run for pan in pans])
    return [_fit_one(k, met, level) for k in range(len(pans))]


def _fit_one(k: int, met: Met, level: list[int]) -> End:
    pan = met.ends[k]
    section = pan.section
    ends = square_cut(section, 0.0)
    heads = [_head(k, wing, met, level) for wing in wings(pan)]
    for head in heads:
        set_wing(ends, head.wing, head.outer, head.inner, head.hem, pan.sign)
    _cut_rib(pan, heads, ends)
    dams = tuple(head.dam for head in heads if head.dam is not None)
    cut = Cut(path(section, ends, hinges(dams)), dams)
    lies = {head.lies for head in heads} - {None}
    return End(
        KIND,
        pan.at,
        lies.pop() if len(lies) == 1 else None,
        tuple(other.run.name for other in met.ends if other is not pan and _shared(pan, other)),
        cut,
        tuple(_steps(pan, heads, ends, cut.line)),
        sealed=True,
    )


def _cut_rib(pan: Stand, heads: list[_Head], ends: Array) -> None:
    """Cut each half of the rib on the plane of its own wing, so that it runs up to the point."""
    left, right = heads
    v, middle = pan.section.v, pan.section.width / 2
    for strip in range(left.wing.strip + 1, right.wing.strip):
        head = left if v[strip] + v[strip + 1] < 2 * middle else right
        ends[strip] = pan.cut(*head.plane)[strip]


def _shared(one: Stand, other: Stand) -> bool:
    return bool(set(one.run.edge.faces) & set(other.run.edge.faces))


def _head(k: int, wing: Wing, met: Met, level: list[int]) -> _Head:
    """Return how one wing of the pan ``k`` ends: on another pan, under a cap, or square where neither is."""
    pan = met.ends[k]
    beside = next((edge for edge in met.edges if edge is not pan.run.edge and wing.face in edge.faces), None)
    j = next((j for j, other in enumerate(met.ends) if j != k and wing.face in other.run.edge.faces), None)
    if j is not None:
        normal = met.ends[j].away - pan.away
        normal = normal / np.linalg.norm(normal)
        over = level[k] > level[j]
        outer, inner = _in_out(pan, wing, pan.corner - normal * (LAP if over else -CLEARANCE), normal)
        if over:
            inner = _in_out(pan, wing, pan.corner, normal)[1]
        rib = (pan.corner if over else pan.corner + normal * CLEARANCE, normal)
        hem = HEM_SETBACK if over else HEM_SETBACK + LAP / abs(float(normal @ pan.along))
        return _Head(wing, outer, inner, hem, "over" if over else "under", None, rib)
    if beside is None:
        outer, inner = _in_out(pan, wing, pan.corner, pan.away)
        return _Head(wing, outer, inner, HEM_SETBACK, None, None, (pan.corner, pan.away))
    normal = _toward(beside, met, wing)
    outer, inner = _in_out(pan, wing, pan.corner - normal * BACK, normal)
    v = pan.section.v
    sides = ((outer, float(v[wing.outer]), 1.0), (inner, float(v[wing.inner]), -1.0))
    way = 1.0 if v[wing.inner] > v[wing.outer] else -1.0
    slant = (inner - outer) / (v[wing.inner] - v[wing.outer])
    line = [(u + slant * side * way * MARGIN, at + side * way * MARGIN) for u, at, side in sides]
    hinge = np.array(line if wing.left else line[::-1])
    dam = flap(pan, wing.strip, hinge, DAM, UP, ("along", "along"))
    return _Head(wing, outer, inner, HEM_SETBACK, None, dam, (pan.corner - normal * BACK, normal))


def _toward(edge: Edge, met: Met, wing: Wing) -> Array:
    """Return the level unit vector square to an edge that bounds a wing's slope, away from the slope."""
    along = edge.direction
    square = np.array([along[1], -along[0], 0.0]) / np.hypot(along[0], along[1])
    middle = met.roof.faces[wing.face].outline.mean(axis=0)
    return np.asarray(square if square @ (middle - edge.start) < 0 else -square)


def _in_out(pan: Stand, wing: Wing, point: Array, normal: Array) -> tuple[float, float]:
    """Return ``u`` of a plane on the wing's outer line and on its line beside the rib."""
    first, last = pan.cut(point, normal)[wing.strip]
    return (float(first), float(last)) if wing.left else (float(last), float(first))


def _steps(pan: Stand, heads: list[_Head], ends: Array, line_of_cut: Array) -> list[Step]:
    steps = [one for head in heads for one in _head_steps(pan, head)]
    v = pan.section.v
    left, right = (wing for wing in wings(pan))
    steps.append(
        step(
            "cut",
            message(
                "Cut the hems away back to {at_left} from the blank's end on the left and {at_right} on the right, and "
                "the rib on the lines of both wings, up to its point.",
                at_left=Place(ends[0, 0]),
                at_right=Place(ends[-1, 0]),
            ),
            *hem_cuts(pan, ends),
            trace(line_of_cut, float(v[left.inner]), float(v[right.inner])),
        )
    )
    folds = [head.dam.hinge for head in heads if head.dam is not None]
    if folds:
        steps.append(step("fold", message("Turn the dams up until they stand plumb."), *folds))
    steps.append(
        step(
            "set",
            message("Nail it at this end alone, under what comes over it: the pan moves from here down."),
        )
    )
    steps.append(step("seal", message("Bed what laps here in sealant, and close the end of the rib.")))
    return steps


def _head_steps(pan: Stand, head: _Head) -> tuple[Step, Step]:
    """Return how one wing's head is marked and cut, and its dam freed."""
    wing, v = head.wing, pan.section.v
    line = [(head.outer, float(v[wing.outer])), (head.inner, float(v[wing.inner]))]
    mark = message(
        "On the {wing} draw the line of the head: {at_inner} from the blank's end at the rib and {at_outer} "
        "at the bend of the hem.",
        wing=wing.words,
        at_inner=Place(head.inner),
        at_outer=Place(head.outer),
    )
    if head.dam is None:
        return step("mark", mark, line), step(
            "cut", message("Cut the {wing} along it.", wing=wing.words), line
        )
    first, last = line if wing.left else line[::-1]
    free = message(
        "Cut the {wing} {dam} beyond it, and free the dam at both ends.",
        wing=wing.words,
        dam=Length(DAM),
    )
    return step("mark", mark, line), step("cut", free, [first, *way_round(head.dam), last])
