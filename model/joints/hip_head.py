"""Hip head: where hip caps and a ridge cap meet, or the hips alone on a pyramid.

On each face two caps meet; they are mitered on the line that halves the angle between them. The one on top runs
on over the other as a lap, as long as the laps along its run are, cut to that cap's middle bend. A hip that comes
down to a lower ridge lies over its cap, unless that is too short to be held down under laps. Where a valley comes up
between two caps, both end on it. A hip or ridge between them that is too short for a cap of its own is bridged: the
caps at its two ends meet as in one point, each cut along it where it runs past; a patch covers it.

Source: common practice, no source; halving the angle: Longfield, *Sheet Metal Drafting* (1921) ch. XII.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.arrays import Array
from ..geometry.vectors import level_square
from ..message import Length, Listed, Message, Place, message
from ..roof.record import Edge, Roof
from ..runs import Run
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut
from ..steps import Step
from ..tolerances import CLEARANCE, POINT
from .cap import HEM_SETBACK, Wing, close_middle, hem_cuts, set_wing, wings
from .end import End, JointKind, Lies, step, trace
from .lift import levels
from .meeting import Meeting, Met, comes_down, either_end
from .short_edge import Plane, bounds, crossing_above, held_inside
from .stand import Stand

KIND = JointKind("hip head", message("hip head"), aloft=True)
LAP = 4.0
"""How far caps are taken to lie over each other until their laps are cut, inches."""

IN_LINE = 0.01
"""Sine of the angle up to which two caps run in line, though laps tilt them: neither crosses the other's bend."""

OFF_BEND = 1 / 8
"""How far a lap keeps off the middle bend of a cap that turns away from under it, inches."""

SHORTEST_UNDER = 20.0
"""A shorter ridge cannot be held down under laps at both its ends, inches: twice the usual lap, and the cuts."""


def must_lie_over(run: Run) -> bool:
    """Return whether a cap is so short that it lies over all that it meets."""
    return run.trim == "ridge" and run.length < SHORTEST_UNDER


CAP = either_end("hip") | either_end("ridge")
MEETING = Meeting(
    ("hip", "ridge", "valley"),
    (CAP, CAP),
    more=True,
    last=lambda run, at: (must_lie_over(run), comes_down(run, at), run.trim == "ridge", run.code),
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
    level = levels([(cap.run, cap.at) for cap in caps])
    apex = _apex(caps, met.roof)
    return [_fit_one(i, met, level, apex, kind) for i in range(len(caps))]


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
class WingCut:
    """How one wing is cut where it meets the wing of another cap, or a valley.

    Attributes:
        cut: Points of its cut in ``(u, v)``, from its outer line to the middle bend.
        setback: How far its hem is cut back from there, inches.
        lap: How far it runs on past the miter line, inches; None where it lies underneath, or on no other cap.
        steps: The work on it.
    """

    cut: tuple[tuple[float, float], ...]
    setback: float
    lap: float | None
    steps: tuple[Step, ...] = ()


def _fit_one(i: int, met: Met, level: list[int], apex: Array, kind: JointKind) -> End:
    caps, cap = met.ends, met.ends[i]
    section = cap.section
    ends = square_cut(section, 0.0)
    inside: dict[int, list[tuple[float, float]]] = {}
    others: list[str] = []
    over: list[bool] = []
    steps: list[Step] = []
    for wing in wings(cap):
        beside = next(
            (edge for edge in met.edges if edge is not cap.run.edge and wing.face in edge.faces), None
        )
        if met.bridged:
            apex = _apex((cap,), met.roof) if beside is None else crossing_above(cap, beside, wing, met.roof)
        planes = bounds(cap, wing, met)
        j = next((j for j in range(len(caps)) if j != i and caps[j].run.edge is beside), None)
        if beside is not None and beside.kind == "valley":
            side = _on_valley(cap, wing, apex, beside, planes)
        elif j is not None:
            others.append(caps[j].run.name)
            side = _side(cap, caps[j], wing, apex, planes, over=level[i] > level[j])
            over.append(side.lap is not None)
        else:
            side = _square(cap, wing, apex, planes)
        steps += side.steps
        set_wing(ends, wing, side.cut[0][0], side.cut[-1][0], side.setback, cap.sign)
        inside[wing.strip] = sorted(side.cut[1:-1], key=lambda place: place[1])
    close_middle(ends, cap)
    cut = path(section, ends, inside)
    steps += _last_steps(cap, ends, cut, met.bridged)
    lies: Lies | None = None if len(set(over)) != 1 else "over" if over[0] else "under"
    return End(kind, cap.at, lies, tuple(dict.fromkeys(others)), Cut(cut), tuple(steps), sealed=True)


def _square(cap: Stand, wing: Wing, apex: Array, planes: Sequence[Plane]) -> WingCut:
    """Cut one wing square across, where what it would meet has no cap."""
    u = float(cap.cut(apex, cap.away)[wing.strip].mean())
    v = cap.section.v
    cut = held_inside(cap, wing, [(u, float(v[wing.outer])), (u, float(v[wing.inner]))], planes)
    return WingCut(tuple(cut), HEM_SETBACK, None)


def _side(cap: Stand, other: Stand, wing: Wing, apex: Array, planes: Sequence[Plane], over: bool) -> WingCut:
    """Cut one wing where it meets ``other``: along the miter line, or over it as a lap."""
    v = cap.section.v
    normal = other.away - cap.away
    normal /= np.linalg.norm(normal)
    miter = _in_out(cap, wing, apex, normal)
    slant = (miter[1] - miter[0]) / (v[wing.inner] - v[wing.outer])
    setback = HEM_SETBACK + abs(slant) * (v[-1] - v[wings(cap)[1].outer] + 0.1)
    if over:
        lap = cap.run.spec.lap
        cut = _lapped(cap, other, wing, apex, apex - normal * lap, normal)
        setback += abs(cut[0][0] - miter[0])
    else:
        lap = None
        outer, inner = _in_out(cap, wing, apex + normal * CLEARANCE, normal)
        cut = ((outer, float(v[wing.outer])), (inner, float(v[wing.inner])))
    cut = tuple(held_inside(cap, wing, cut, planes))
    return WingCut(cut, setback, lap, tuple(_side_steps(cap, wing, miter, cut, lap)))


def _lapped(
    cap: Stand, other: Stand, wing: Wing, apex: Array, end: Array, normal: Array
) -> tuple[tuple[float, float], ...]:
    """Return the cut of a wing that runs on over ``other``: across at ``end``, and back along its middle bend."""
    v_outer, v_inner = float(cap.section.v[wing.outer]), float(cap.section.v[wing.inner])
    outer, inner = _in_out(cap, wing, end, normal)
    slant = (inner - outer) / (v_inner - v_outer)
    point = cap.on_sheet(wing.strip, apex)
    way = cap.toward(wing.strip, -other.away)
    if abs(way[1]) < IN_LINE:
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


def _side_steps(
    cap: Stand,
    wing: Wing,
    miter: tuple[float, float],
    cut: tuple[tuple[float, float], ...],
    lap: float | None,
) -> list[Step]:
    """Return the work on one wing that meets another."""
    v, (outer, inner) = cap.section.v, miter
    mark = message(
        "On the {wing} draw the miter line, {at_inner} from the blank's end at the middle bend and {at_outer} at the "
        "bend of the hem.",
        wing=wing.words,
        at_inner=Place(inner),
        at_outer=Place(outer),
    )
    if lap is None:
        says = message("Cut the {wing} along the miter line.", wing=wing.words)
    else:
        says = message(
            "Cut the {wing} {lap} beyond the miter line, then back along the other cap's middle bend to the point.",
            wing=wing.words,
            lap=Length(lap),
        )
    line = [(outer, v[wing.outer]), (inner, v[wing.inner])]
    return [step("mark", mark, line), step("cut", says, cut)]


def _last_steps(cap: Stand, ends: Array, cut: Array, bridged: Sequence[Edge]) -> list[Step]:
    """Return the cuts of the hems and over the middle bend, and what closes the joint."""
    v = cap.section.v
    left, right = wings(cap)
    hems = message(
        "Cut the hems away back to {at_left} from the blank's end on the left and {at_right} on the right, so that the "
        "laps lie flat.",
        at_left=Place(ends[0, 0]),
        at_right=Place(ends[-1, 0]),
    )
    seal = message("Bed the laps in sealant and cover the point.")
    if bridged:
        seal = message(
            "Bed the laps in sealant. Cover the {edges}, too short for a cap, with a patch of the same metal bent over "
            "it, {patch} or more onto the caps, bedded in sealant.",
            edges=Listed(tuple(edge.name for edge in bridged)),
            patch=Length(LAP),
        )
    return [
        step("cut", hems, *hem_cuts(cap, ends), trace(cut, v[left.inner], v[right.inner])),
        step("seal", seal),
    ]


def _on_valley(cap: Stand, wing: Wing, apex: Array, valley: Edge, planes: Sequence[Plane]) -> WingCut:
    """Cut one wing where it reaches the middle of a valley."""
    square = level_square(valley.direction, cap.away)
    outer, inner = _in_out(cap, wing, apex - square * (CLEARANCE * float(square @ cap.away)), square)
    v = cap.section.v
    setback = HEM_SETBACK + abs((inner - outer) / (v[wing.inner] - v[wing.outer])) * HEM_SETBACK
    cut = tuple(
        held_inside(cap, wing, [(outer, float(v[wing.outer])), (inner, float(v[wing.inner]))], planes)
    )
    return WingCut(cut, setback, None, (step("cut", _valley_words(wing, cut), cut),))


def _valley_words(wing: Wing, cut: Sequence[tuple[float, float]]) -> Message:
    """Return how a wing is cut along a valley, and before that along a short edge where one lies between."""
    at_outer, at_inner = Place(cut[0][0]), Place(cut[-1][0])
    if len(cut) == 2:
        return message(
            "Cut the {wing} along the middle of the valley: {at_inner} from the blank's end at the middle bend and "
            "{at_outer} at the bend of the hem.",
            wing=wing.words,
            at_inner=at_inner,
            at_outer=at_outer,
        )
    return message(
        "Cut the {wing} from {at_inner} from the blank's end at the middle bend to {at_turn} where the valley begins, "
        "{across} from the bend, and on along the middle of the valley to {at_outer} at the bend of the hem.",
        wing=wing.words,
        at_inner=at_inner,
        at_turn=Place(cut[1][0]),
        across=Length(abs(cut[1][1] - cut[-1][1])),
        at_outer=at_outer,
    )


def _in_out(cap: Stand, wing: Wing, point: Array, normal: Array) -> tuple[float, float]:
    """Return ``u`` of a plane on the wing's outer line and on its line at the middle bend."""
    first, last = cap.cut(point, normal)[wing.strip]
    return (float(first), float(last)) if wing.left else (float(last), float(first))
