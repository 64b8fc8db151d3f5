"""Valley head: the high end of a valley's pan, under the caps or where a wing's ridge runs out on a slope.

Each wing is cut along the ridge or hip that bounds its slope, and turned up there as a dam against blown water, under
the cap. Where the slope goes on above a wing, past a short edge, it stays flat: panels lie over it. Where two pans
meet on one slope they are mitered on the line that halves the angle between them, and the one that is set later runs
on over the other as a lap. Where a cap farther off comes within the reach of a wing, as where a wing's ridge dies just
below the main one, the wing's outer corner is cut along that cap too.

Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..message import Length, Message, Place, message
from ..roof.record import Edge, Roof
from ..sheet.cut import path, square_cut
from ..sheet.sheet import Cut, Tab
from ..steps import Step
from ..tolerances import CLEARANCE, POINT
from .cap import HEM_SETBACK, MARGIN, Wing, hem_cuts, set_wing, wings
from .end import End, JointKind, Lies, step, trace
from .flap import flap, way_round
from .lift import levels
from .meeting import Meeting, Met, high_end
from .short_edge import ALONG, STRAIGHT_ON, beside_head, head_normal, out_of
from .stand import Stand

KIND = JointKind("valley head", message("valley head"), aloft=True)
LAP = 4.0
"""How far the later pan runs on over the other one where two meet, inches: common practice, 4 to 6, no source."""

DAM = 1.0
"""How high the head is turned up under a cap, inches: common practice, no source."""

LEAST_DAM = 1 / 2
"""A shorter head is not turned up, inches: tongs cannot hold it."""

BACK = 1 / 16
"""How far the dam stays off the plumb plane through the ridge or hip, inches: the pan from the other side has room."""

RIDGE = 1 / 16
"""So near to the middle of the pan is the ridge of its rib, inches."""

UP = np.array([0.0, 0.0, 1.0])

MEETING = Meeting(
    ("hip", "ridge", "valley"),
    (high_end("valley"),),
    more=True,
    last=lambda run, _: run.code,
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
        corner: ``(u, v)`` where its cut turns to follow a cap farther off, out to its outer line; None where none is so
            near.
        farther: What is turned up under that cap.
    """

    wing: Wing
    outer: float
    inner: float
    hem: float
    lies: Lies | None
    dam: Tab | None
    plane: tuple[Array, Array]
    corner: tuple[float, float] | None = None
    farther: Tab | None = None

    @property
    def dams(self) -> tuple[Tab, ...]:
        """What is turned up, in the order of the cut."""
        both = (self.farther, self.dam) if self.wing.left else (self.dam, self.farther)
        return tuple(dam for dam in both if dam is not None)


def fit(met: Met) -> list[End]:
    """Cut the heads of all pans that end at one point."""
    pans = met.ends
    level = levels([(pan.run, pan.at) for pan in pans])
    return [_fit_one(k, met, level) for k in range(len(pans))]


def _fit_one(k: int, met: Met, level: list[int]) -> End:
    pan = met.ends[k]
    section = pan.section
    ends = square_cut(section, 0.0)
    back = BACK + level[k] * (pan.thickness + CLEARANCE)
    heads = [_cut_back(pan, _head(k, wing, met, level), met, back) for wing in wings(pan)]
    for head in heads:
        set_wing(ends, head.wing, head.outer, head.inner, head.hem, pan.sign)
    _cut_rib(pan, heads, ends)
    cut = Cut(
        path(section, ends, {head.wing.strip: _inside(head) for head in heads}),
        tuple(dam for head in heads for dam in head.dams),
    )
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


def _inside(head: _Head) -> list[tuple[float, float]]:
    """Return the points of a wing's cut between its two lines, in the order of the cut."""
    points = [(float(u), float(v)) for dam in head.dams for u, v in dam.hinge]
    if head.corner is not None:
        points.append(head.corner)
    return sorted(points, key=lambda point: point[1])


def _cut_back(pan: Stand, head: _Head, met: Met, back: float) -> _Head:
    """Return how a wing ends whose outer corner reaches under a cap farther off: cut along that one there.

    Its dam stays ``back`` inches off the plumb plane through the ridge or hip, clear of that of a pan under it.
    """
    wing, v = head.wing, pan.section.v
    v_outer, v_inner = float(v[wing.outer]), float(v[wing.inner])
    nearest: tuple[float, float, Edge] | None = None
    for edge in met.roof.edges:
        if (
            wing.face not in edge.faces
            or pan.run.edge.vertices[1] in edge.vertices
            or KINDS.get(edge.kind, KINDS["eave"]).panels != "under"
        ):
            continue
        normal = out_of(edge, wing.face)
        if normal @ pan.away <= ALONG:
            continue
        outer, inner = _in_out(pan, wing, edge.start - normal * back, normal)
        beside = edge in met.edges
        bites = (head.outer - outer) * pan.sign > back and (beside or (inner - head.inner) * pan.sign > 0)
        if not bites or (nearest is not None and (nearest[0] - outer) * pan.sign <= 0):
            continue
        ends = _along(pan, wing, edge, (outer, v_outer), _turn(pan, head, outer, inner))
        if max(ends) >= -MARGIN and min(ends) <= edge.length + MARGIN:
            nearest = outer, inner, edge
    if nearest is None:
        return head
    outer, inner, edge = nearest
    hem = HEM_SETBACK + max(0.0, _under_lap(pan, head, (outer, v_outer)))
    if (inner - head.inner) * pan.sign <= 4 * MARGIN:
        whole = _dam(pan, wing, (outer, v_outer), (inner, v_inner))
        return replace(head, outer=outer, inner=inner, hem=hem, dam=whole)
    corner = _turn(pan, head, outer, inner)
    dam = head.dam and _dam(pan, wing, corner, (head.inner, v_inner))
    tip = _on_edge(pan, wing, edge, (outer, v_outer), corner)
    free = _off_lap(pan, head, tip, corner)
    farther = None if free is None else _dam(pan, wing, tip, free)
    return replace(head, outer=outer, hem=hem, corner=corner, dam=dam, farther=farther)


def _turn(pan: Stand, head: _Head, outer: float, inner: float) -> tuple[float, float]:
    """Return ``(u, v)`` where a wing's cut meets a line across the wing; at its line beside the rib at the farthest."""
    v_outer, v_inner = (float(pan.section.v[line]) for line in (head.wing.outer, head.wing.inner))
    first, last = (head.outer - outer) * pan.sign, max(0.0, (inner - head.inner) * pan.sign)
    share = first / (first + last)
    return outer + (inner - outer) * share, v_outer + (v_inner - v_outer) * share


def _along(pan: Stand, wing: Wing, edge: Edge, *places: tuple[float, float]) -> tuple[float, ...]:
    """Return how far along an edge places ``(u, v)`` on a wing lie, inches."""
    return tuple(
        float((pan.scene_point(wing.strip, *place) - edge.start) @ edge.direction) for place in places
    )


def _on_edge(
    pan: Stand, wing: Wing, edge: Edge, outer: tuple[float, float], corner: tuple[float, float]
) -> tuple[float, float]:
    """Return the outer end of what is turned up along an edge toward a corner: not past the end of the edge."""
    first, last = _along(pan, wing, edge, outer, corner)
    if 0.0 <= first <= edge.length or first == last:
        return outer
    share = (min(max(first, 0.0), edge.length) - first) / (last - first)
    return outer[0] + (corner[0] - outer[0]) * share, outer[1] + (corner[1] - outer[1]) * share


def _under_lap(pan: Stand, head: _Head, at: tuple[float, float]) -> float:
    """Return how far within the lap of another pan over it a place ``(u, v)`` lies, inches; 0 or less off it."""
    if head.lies != "under":
        return 0.0
    wing, v, (point, normal) = head.wing, pan.section.v, head.plane
    outer, inner = _in_out(pan, wing, point + normal * LAP, normal)
    share = (at[1] - v[wing.outer]) / (v[wing.inner] - v[wing.outer])
    return float((at[0] - outer - (inner - outer) * share) * pan.sign)


def _off_lap(
    pan: Stand, head: _Head, outer: tuple[float, float], corner: tuple[float, float]
) -> tuple[float, float] | None:
    """Return how far in a dam goes from the outer line toward a corner: off the lap of the pan that lies over it.

    None where that leaves nothing to turn up.
    """
    first, last = _under_lap(pan, head, outer), _under_lap(pan, head, corner)
    if last > 0 and first >= 0:
        return None
    share = 1.0 if last <= 0 else first / (first - last)
    free = tuple(float(a + (b - a) * share) for a, b in zip(outer, corner, strict=True))
    return (free[0], free[1]) if abs(free[1] - outer[1]) > LEAST_DAM else None


def _cut_rib(pan: Stand, heads: list[_Head], ends: Array) -> None:
    """Cut each half of the rib on its own wing's plane, and on both at its ridge, which may lean over the middle."""
    left, right = heads
    v, middle, out = pan.section.v, pan.section.width / 2, pan.section.points[:, 0]
    planes = [pan.cut(*head.plane) * pan.sign for head in heads]
    both = np.min(planes, axis=0)
    for strip in range(left.wing.strip + 1, right.wing.strip):
        is_left = bool(v[strip] + v[strip + 1] < 2 * middle)
        lines = out[strip : strip + 2] * (-1.0 if is_left else 1.0)
        ends[strip] = np.where(lines < RIDGE, both[strip], planes[0 if is_left else 1][strip]) * pan.sign


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
        middle = (pan.corner + met.ends[j].corner) / 2
        outer, inner = _in_out(pan, wing, middle - normal * (LAP if over else -CLEARANCE), normal)
        if over:
            inner = _in_out(pan, wing, middle, normal)[1]
        rib = (middle if over else middle + normal * CLEARANCE, normal)
        hem = HEM_SETBACK if over else HEM_SETBACK + LAP / abs(float(normal @ pan.along))
        return _Head(wing, outer, inner, hem, "over" if over else "under", None, rib)
    if beside is None:
        outer, inner = _in_out(pan, wing, pan.corner, pan.away)
        return _Head(wing, outer, inner, HEM_SETBACK, None, None, (pan.corner, pan.away))
    normal = head_normal(pan.run, wing.face, met.roof)
    outer, inner = _in_out(pan, wing, pan.corner - normal * BACK, normal)
    dam = _dam_along(pan, wing, outer, inner, met.roof)
    return _Head(wing, outer, inner, HEM_SETBACK, None, dam, (pan.corner - normal * BACK, normal))


def _dam_along(pan: Stand, wing: Wing, outer: float, inner: float, roof: Roof) -> Tab | None:
    """Return what is turned up at a wing's head: as far as the edge goes that it is cut along; None where it is not.

    Past that edge, and where it goes off from the wing, the face goes on above the head: its panels lie over that.
    """
    edge, way = beside_head(pan.run, wing.face, roof)
    v_outer, v_inner = float(pan.section.v[wing.outer]), float(pan.section.v[wing.inner])
    ends = np.array(
        [pan.scene_point(wing.strip, outer, v_outer), pan.scene_point(wing.strip, inner, v_inner)]
    )
    far, near = (ends - pan.corner) @ way
    line = (ends[0] - ends[1]) / np.linalg.norm(ends[0] - ends[1])
    if far < near or np.linalg.norm(cross(line, way)) > STRAIGHT_ON:
        return None
    tip = outer, v_outer
    if edge.length < far:
        share = (edge.length - near) / (far - near)
        tip = inner + (outer - inner) * share, v_inner + (v_outer - v_inner) * share
    return _dam(pan, wing, tip, (inner, v_inner))


def _dam(pan: Stand, wing: Wing, outer: tuple[float, float], inner: tuple[float, float]) -> Tab:
    """Return what is turned up along the line from an outer to an inner point of a wing."""
    way = 1.0 if inner[1] > outer[1] else -1.0
    slant = (inner[0] - outer[0]) / (inner[1] - outer[1])
    line = [
        (u + slant * side * way * MARGIN, v + side * way * MARGIN)
        for (u, v), side in ((outer, 1), (inner, -1))
    ]
    hinge = np.array(line if wing.left else line[::-1])
    return flap(pan, wing.strip, hinge, DAM, UP, ("along", "along"))


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
    folds = [dam.hinge for head in heads for dam in head.dams]
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


def _head_steps(pan: Stand, head: _Head) -> tuple[Step, ...]:
    """Return how one wing's head is marked and cut, and its dam freed."""
    wing, v = head.wing, pan.section.v
    line = [(head.outer, float(v[wing.outer])), (head.inner, float(v[wing.inner]))]
    if head.corner is not None:
        return _turned_steps(head, line[0], line[1])
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
    if abs(np.abs(head.dam.hinge[:, 1] - v[wing.outer]).min() - MARGIN) < POINT:
        free = message(
            "Cut the {wing} {dam} beyond it, and free the dam at both ends.",
            wing=wing.words,
            dam=Length(DAM),
        )
    else:
        free = _cut_with_dams(wing)
    return step("mark", mark, line), step("cut", free, [first, *way_round(head.dam), last])


def _cut_with_dams(wing: Wing) -> Message:
    """Return how a wing's head is cut that is turned up along a part of it only."""
    return message(
        "Cut the {wing} along it, {dam} beyond it where it runs along a cap, and free the dams at their ends.",
        wing=wing.words,
        dam=Length(DAM),
    )


def _turned_steps(head: _Head, outer: tuple[float, float], inner: tuple[float, float]) -> tuple[Step, ...]:
    """Return how a wing's head is marked and cut that turns to follow a cap farther off."""
    wing, corner = head.wing, head.corner
    assert corner is not None
    mark = message(
        "On the {wing} draw the line of the head: {at_inner} from the blank's end at the rib and {at_turn} where it "
        "turns, {across} from the rib; from there on along the cap above, to {at_outer} at the bend of the hem.",
        wing=wing.words,
        at_inner=Place(inner[0]),
        at_turn=Place(corner[0]),
        at_outer=Place(outer[0]),
        across=Length(abs(corner[1] - inner[1])),
    )
    points: list[tuple[float, float]] = [outer, corner, inner]
    for dam in (head.farther, head.dam):
        if dam is not None:
            row = [(float(u), float(v)) for u, v in way_round(dam)]
            place = points.index(corner) if dam is head.farther else points.index(corner) + 1
            points[place:place] = row if wing.left else row[::-1]
    return step("mark", mark, [outer, corner, inner]), step("cut", _cut_with_dams(wing), points)
