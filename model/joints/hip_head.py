"""Hip head: where hip caps and a ridge cap meet, or the hips alone on a pyramid.

On each face two caps meet; they are mitered on the line that halves the angle between them. The one on top runs
on over the other as a lap, as long as the laps along its run are, cut to that cap's middle bend. Where a valley
comes up between two caps, both end on it.

Source: common practice, no source; halving the angle: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..message import Length, Place, message
from ..roof.record import Edge, Roof
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE, POINT
from .cap import HEM_SETBACK, Wing, close_middle, hem_cuts, set_wing, wings
from .end import End, JointKind, Lies, step, trace
from .lift import levels
from .meeting import Meeting, Met, either_end
from .stand import Stand

KIND = JointKind("hip head", message("hip head"), aloft=True)
LAP = 4.0
"""How far caps are taken to lie over each other until their laps are cut, inches."""

OFF_BEND = 1 / 8
"""How far a lap keeps off the middle bend of a cap that turns away from under it, inches."""

CAP = either_end("hip") | either_end("ridge")
MEETING = Meeting(
    ("hip", "ridge", "valley"),
    (CAP, CAP),
    more=True,
    last=lambda run: (run.trim == "ridge", run.code),
    turns=True,
    rests="stacked",
    overlap=LAP,
)


def fit(met: Met) -> list[End]:
    """Cut the ends of all caps that meet at one point."""
    return fit_caps(met)


def fit_caps(met: Met, kind: JointKind = KIND) -> list[End]:
    """Cut the ends of caps that meet each other, and valleys, at one point."""
    caps = met.ends
    level = levels([cap.run for cap in caps])
    apex = _apex(caps, met.roof)
    valleys = [edge for edge in met.edges if edge.kind == "valley"]
    return [_fit_one(i, caps, level, apex, valleys, kind) for i in range(len(caps))]


def _apex(caps: Sequence[Stand], roof: Roof) -> Array:
    """Return the point where the wings' mid planes meet; of a single cap the one above its end."""
    corner = caps[0].corner
    normals, heights = [], []
    for cap in caps:
        strip = wings(cap)[0].strip
        out_up = cap.section.normals[strip]
        for face in cap.run.edge.faces:
            normals.append(roof.faces[face].normal)
            heights.append(float(cap.section.points[strip] @ out_up))
    return np.asarray(corner + np.linalg.lstsq(np.array(normals), np.array(heights), rcond=None)[0])


@dataclass(frozen=True, slots=True)
class Side:
    """How one wing is cut where it meets the wing of another cap.

    Attributes:
        wing: The wing.
        miter: ``u`` of the miter line on its outer line and at the middle bend, inches.
        cut: Points of its cut in ``(u, v)``, from its outer line to the middle bend.
        setback: How far its hem is cut back from there, inches.
        lap: How far it runs on past the miter line, inches; None where it lies underneath.
    """

    wing: Wing
    miter: tuple[float, float]
    cut: tuple[tuple[float, float], ...]
    setback: float
    lap: float | None


def _fit_one(
    i: int, caps: Sequence[Stand], level: list[int], apex: Array, valleys: Sequence[Edge], kind: JointKind
) -> End:
    cap = caps[i]
    section = cap.section
    ends = square_cut(section, 0.0)
    inside: dict[int, list[tuple[float, float]]] = {}
    others: list[str] = []
    over: list[bool] = []
    steps: list[Step] = []
    for wing in wings(cap):
        valley = next((edge for edge in valleys if wing.face in edge.faces), None)
        if valley is not None:
            steps.append(_on_valley(cap, wing, apex, valley, ends))
            continue
        j = next((j for j in range(len(caps)) if j != i and wing.face in caps[j].run.edge.faces), None)
        if j is None:
            u = float(cap.cut(apex, cap.away)[wing.strip].mean())
            set_wing(ends, wing, u, u, HEM_SETBACK, cap.sign)
            continue
        others.append(caps[j].run.name)
        side = _side(cap, caps[j], wing, apex, over=level[i] > level[j])
        over.append(side.lap is not None)
        steps += _side_steps(cap, side)
        set_wing(ends, wing, side.cut[0][0], side.cut[-1][0], side.setback, cap.sign)
        if len(side.cut) > 2:
            inside[wing.strip] = list(side.cut[1:-1])
    close_middle(ends, cap)
    cut = path(section, ends, inside)
    steps += _last_steps(cap, ends, cut)
    lies: Lies | None = None if len(set(over)) != 1 else "over" if over[0] else "under"
    return End(kind, cap.at, lies, tuple(dict.fromkeys(others)), Cut(cut), tuple(steps), sealed=True)


def _side(cap: Stand, other: Stand, wing: Wing, apex: Array, over: bool) -> Side:
    """Cut one wing where it meets ``other``: along the miter line, or over it as a lap."""
    v = cap.section.v
    normal = other.away - cap.away
    normal /= np.linalg.norm(normal)
    miter = _in_out(cap, wing, apex, normal)
    slant = (miter[1] - miter[0]) / (v[wing.inner] - v[wing.outer])
    setback = HEM_SETBACK + abs(slant) * (v[-1] - v[wings(cap)[1].outer] + 0.1)
    if not over:
        outer, inner = _in_out(cap, wing, apex + normal * CLEARANCE, normal)
        cut = ((outer, float(v[wing.outer])), (inner, float(v[wing.inner])))
        return Side(wing, miter, cut, setback, None)
    lap = cap.run.spec.lap
    lapped = _lapped(cap, other, wing, apex, apex - normal * lap, normal)
    return Side(wing, miter, lapped, setback + abs(lapped[0][0] - miter[0]), lap)


def _lapped(
    cap: Stand, other: Stand, wing: Wing, apex: Array, end: Array, normal: Array
) -> tuple[tuple[float, float], ...]:
    """Return the cut of a wing that runs on over ``other``: across at ``end``, and back along its middle bend."""
    v_outer, v_inner = float(cap.section.v[wing.outer]), float(cap.section.v[wing.inner])
    outer, inner = _in_out(cap, wing, end, normal)
    slant = (inner - outer) / (v_inner - v_outer)
    point = cap.on_sheet(wing.strip, apex)
    way = cap.toward(wing.strip, -other.away)
    if abs(way[1]) < POINT:
        return (outer, v_outer), (inner, v_inner)
    if (
        way[1] * (v_outer - v_inner) < 0
    ):  # the other one turns away from this wing: the lap keeps off its middle bend
        beside = v_inner + math.copysign(OFF_BEND, v_outer - v_inner)
        point_u = float(point[0]) - cap.sign * 2 * CLEARANCE
        return (outer, v_outer), (inner + slant * (beside - v_inner), beside), (point_u, v_inner)
    lean = way[0] / way[1]
    back = float(point[0] + (v_inner - point[1]) * lean) - cap.sign * 2 * CLEARANCE
    along = back + lean * (v_outer - v_inner)
    if (along - outer) * cap.sign <= 0:
        return (along, v_outer), (back, v_inner)
    if abs(lean - slant) < POINT:
        return (outer, v_outer), (back, v_inner)
    # Where the two lines cross: outer + slant (w - v_outer) = back + lean (w - v_inner).
    w = (outer - back - slant * v_outer + lean * v_inner) / (lean - slant)
    if not min(v_outer, v_inner) < w < max(v_outer, v_inner):
        return (outer, v_outer), (back, v_inner)
    return (outer, v_outer), (float(back + lean * (w - v_inner)), float(w)), (back, v_inner)


def _side_steps(cap: Stand, side: Side) -> list[Step]:
    """Return the work on one wing that meets another."""
    v, (outer, inner) = cap.section.v, side.miter
    mark = message(
        "On the {wing} draw the miter line, {at_inner} from the blank's end at the middle bend and {at_outer} at the "
        "bend of the hem.",
        wing=side.wing.words,
        at_inner=Place(inner),
        at_outer=Place(outer),
    )
    if side.lap is None:
        says = message("Cut the {wing} along it.", wing=side.wing.words)
    else:
        says = message(
            "Cut the {wing} {lap} beyond the miter line, then back along the other cap's middle bend to the point.",
            wing=side.wing.words,
            lap=Length(side.lap),
        )
    line = [(outer, v[side.wing.outer]), (inner, v[side.wing.inner])]
    return [step("mark", mark, line), step("cut", says, side.cut)]


def _last_steps(cap: Stand, ends: Array, cut: Array) -> list[Step]:
    """Return the cuts of the hems and over the middle bend, and what closes the joint."""
    v = cap.section.v
    left, right = wings(cap)
    hems = message(
        "Cut the hems away back to {at_left} from the blank's end on the left and {at_right} on the right, so that the "
        "laps lie flat.",
        at_left=Place(ends[0, 0]),
        at_right=Place(ends[-1, 0]),
    )
    return [
        step("cut", hems, *hem_cuts(cap, ends), trace(cut, v[left.inner], v[right.inner])),
        step("seal", message("Bed the laps in sealant and cover the point.")),
    ]


def _on_valley(cap: Stand, wing: Wing, apex: Array, valley: Edge, ends: Array) -> Step:
    """Cut one wing where it reaches the middle of a valley, and return the step that says so."""
    along = valley.direction
    square = np.array([along[1], -along[0], 0.0]) / np.hypot(along[0], along[1])
    square = square if square @ cap.away > 0 else -square
    outer, inner = _in_out(cap, wing, apex - square * CLEARANCE, square)
    v = cap.section.v
    setback = HEM_SETBACK + abs((inner - outer) / (v[wing.inner] - v[wing.outer])) * HEM_SETBACK
    set_wing(ends, wing, outer, inner, setback, cap.sign)
    return step(
        "cut",
        message(
            "Cut the {wing} along the middle of the valley: {at_inner} from the blank's end at the middle bend and "
            "{at_outer} at the bend of the hem.",
            wing=wing.words,
            at_inner=Place(inner),
            at_outer=Place(outer),
        ),
        [(outer, v[wing.outer]), (inner, v[wing.inner])],
    )


def _in_out(cap: Stand, wing: Wing, point: Array, normal: Array) -> tuple[float, float]:
    """Return ``u`` of a plane on the wing's outer line and on its line at the middle bend."""
    first, last = cap.cut(point, normal)[wing.strip]
    return (float(first), float(last)) if wing.left else (float(last), float(first))
