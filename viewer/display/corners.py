"""Close-ups: each corner as it is set, and with the piece on top lifted off, so that its cuts are seen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from trimwright.model.layout import Layout, Part

from .body import Kind
from .camera import UP, looking_at
from .features import At, end_label, end_points, tab_label, tabs_at, work_at
from .notes import Label, Line
from .view import BESIDE, HOUSE, METAL, PANELS, ViewPoint

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Look:
    """How a kind of corner is looked at.

    Attributes:
        title: What its picture is called.
        trims: Kinds of trim that take part; other trim at the corner is left off.
        reach: How far in along each piece is seen, inches.
        rise: How steeply the eye looks down, as rise over run.
        turn: How far the eye is turned to the right of straight on, radians.
        panels: Whether panels are shown.
    """

    title: str
    trims: frozenset[str]
    reach: float
    rise: float
    turn: float
    panels: bool


LOOKS: Mapping[str, Look] = {
    "eave-rake": Look("Eave and rake", frozenset({"eave", "rake"}), 7.0, 0.42, 0.0, False),
    "outside corner": Look("Outside corner of the eaves", frozenset({"eave"}), 7.0, 0.42, 0.0, False),
    "peak": Look("Peak", frozenset({"rake"}), 8.0, 0.3, 0.35, False),
    "ridge end": Look("End of the ridge cap", frozenset({"ridge", "rake"}), 11.0, 0.5, 0.55, True),
    "hip foot": Look("Foot of the hip cap", frozenset({"hip", "eave"}), 11.0, 0.75, 0.0, True),
    "hip head": Look("Head of the hip caps", frozenset({"hip", "ridge"}), 15.0, 1.0, 0.3, True),
    "high-rake": Look("High side and rake", frozenset({"high", "rake"}), 9.0, 0.45, 0.0, True),
}


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """One end of a piece at a corner."""

    part: Part
    at: At


def corner_views(layout: Layout, order: Mapping[str, int]) -> Iterator[ViewPoint]:
    """Yield each corner of each kind as it is set and apart; corners alike come after one that shows them."""
    for kind, look in LOOKS.items():
        for members in _corners(layout, kind, look):
            members = sorted(members, key=lambda one: order[one.part.mark])
            yield from _corner(layout, kind, look, members)


def lap_views(layout: Layout, order: Mapping[str, int]) -> Iterator[ViewPoint]:
    """Yield a lap of each kind of trim, as it is set and apart."""
    parts = {part.mark: part for part in layout.parts}
    done: set[str] = set()
    for part in layout.parts:
        for lap in part.laps:
            if lap.at == "high" and part.run.trim not in done:
                done.add(part.run.trim)
                members = [Member(part, "high"), Member(parts[lap.other], "low")]
                members.sort(key=lambda one: order[one.part.mark])
                yield from _lap(layout, members, lap.length)


def _corners(layout: Layout, kind: str, look: Look) -> Iterator[list[Member]]:
    """Yield the ends of the pieces that take part at each vertex where a kind of joint is made."""
    found: dict[int, list[Member]] = {}
    kinds: dict[int, set[str]] = {}
    for part in layout.parts:
        for joint in part.joints:
            vertex = part.run.edge.vertices[0 if joint.at == "low" else 1]
            kinds.setdefault(vertex, set()).add(joint.kind)
            if part.run.trim in look.trims:
                found.setdefault(vertex, []).append(Member(part, joint.at))
    for vertex, names in kinds.items():
        if kind in names:
            yield found[vertex]


def _corner(layout: Layout, kind: str, look: Look, members: list[Member]) -> Iterator[ViewPoint]:
    tape = layout.scene.tape
    marks = frozenset(one.part.mark for one in members)
    main = next((one for one in reversed(members) if _joint_kind(one) == kind), members[-1])
    points = np.concatenate([end_points(one.part, one.at, look.reach) for one in members])
    way = _toward(members, look)
    hidden = frozenset(p.mark for p in layout.parts if p.run.trim not in look.trims)
    shows: frozenset[Kind] = HOUSE | METAL | (PANELS if look.panels else frozenset())
    labels = [end_label(one.part, one.at, _told(one), look.reach) for one in members]
    labels += [tab_label(one.part, tab, tape) for one in members for tab in tabs_at(one.part, one.at)]
    note = "" if look.panels else "panels left off"
    view = ViewPoint(
        f"corner {kind.replace(' ', '-')} {main.part.mark}", f"{look.title}: {', '.join(_names(members))}",
        (looking_at(points, way, margin=1.25, lens=0.3),), shows, "pieces", note=note, focus=marks, hidden=hidden,
        labels=tuple(labels), caution=True,
    )  # fmt: skip
    yield view
    yield _apart(view, layout, members, points, way, look.reach * 0.62)


def _lap(layout: Layout, members: list[Member], length: float) -> Iterator[ViewPoint]:
    over = members[-1].part
    under = members[0].part
    tape, run = layout.scene.tape, over.run
    reach = length + 6.0
    points = np.concatenate([end_points(one.part, one.at, reach) for one in members])
    frame = run.frame[:3]
    way = frame[:, 1] * 0.9 + frame[:, 2] * 0.9 - frame[:, 0] * 0.55
    hidden = frozenset(p.mark for p in layout.parts if p.run is not run)
    labels = [end_label(one.part, one.at, _told(one), reach) for one in members]
    inner, outer = sorted([(under.high if members[0].at == "high" else under.low),
                           (over.low if members[1].at == "low" else over.high)])  # fmt: skip
    section = over.sheet.section
    leg = next(leg for leg in section.legs if leg.fastened)
    v = section.v[leg.strip] * 0.35 + section.v[leg.strip + 1] * 0.65
    ends = np.array([[u, *(section.points[leg.strip] + (section.points[leg.strip + 1] - section.points[leg.strip])
                           * (v - section.v[leg.strip]) / (section.v[leg.strip + 1] - section.v[leg.strip]))]
                     for u in (inner, outer)])  # fmt: skip
    across = ends @ over.placement[:3, :3].T + over.placement[:3, 3] + frame[:, 2] * 0.15
    lines = [Line(across, "measure", f"lap {tape(length)}")]
    view = ViewPoint(
        f"corner lap {over.mark}", f"Lap: {', '.join(_names(members))}",
        (looking_at(points, way, margin=1.3, lens=0.3),), HOUSE | METAL, "pieces", note="panels left off",
        focus=frozenset(one.part.mark for one in members), hidden=hidden, labels=tuple(labels), lines=tuple(lines),
        caution=True,
    )  # fmt: skip
    yield view
    yield _apart(view, layout, members, points, way, reach * 0.4)


def _apart(
    view: ViewPoint, layout: Layout, members: list[Member], points: Array, way: Array, step: float
) -> ViewPoint:
    """Return a corner with each piece lifted off those under it, its cuts and folds numbered."""
    tape = layout.scene.tape
    apart = {one.part.mark: _off(one.part) * step * level for level, one in enumerate(members) if level}
    labels: list[Label] = []
    lines: list[Line] = []
    legend: list[str] = []
    for one in members:
        shift = apart.get(one.part.mark, np.zeros(3))
        label = end_label(one.part, one.at, one.part.mark, step * 1.6)
        numbers, cuts, told = work_at(one.part, one.at, tape)
        labels += [replace(label, points=label.points + shift) for label in (label, *numbers)]
        lines += [replace(line, points=line.points + shift) for line in cuts]
        if told:
            legend += [f"{_told(one).replace(chr(10), ', ')}:", *told]
    moved = np.concatenate([points, *(end_points(one.part, one.at, step * 1.6) + apart[one.part.mark]
                                      for one in members if one.part.mark in apart)])  # fmt: skip
    note = ", ".join(filter(None, [view.note, "the piece on top is lifted off its place"]))
    return replace(
        view, name=f"{view.name} apart", title=f"{view.title}, apart", note=note, apart=apart,
        shots=(looking_at(moved, way, margin=1.12, lens=0.3, frame=(0.0, 0.0, BESIDE, 1.0)),),
        labels=tuple(labels), lines=tuple(lines), legend=tuple(legend),
    )  # fmt: skip


def _off(part: Part) -> Array:
    """Return the unit vector along which a piece is lifted off its place."""
    out, up = part.run.frame[:3, 1], part.run.frame[:3, 2]
    way = up if len(part.run.edge.faces) == 2 else out * 0.8 + up
    return np.asarray(way / np.linalg.norm(way))


def _joint_kind(one: Member) -> str | None:
    return next((joint.kind for joint in one.part.joints if joint.at == one.at), None)


def _toward(members: list[Member], look: Look) -> Array:
    """Return the direction from a corner to the eye: from outside and above."""
    level = np.zeros(3)
    for one in members:
        edge = one.part.run.edge
        if len(edge.faces) == 1:
            level += edge.outward * [1, 1, 0] / np.linalg.norm(edge.outward * [1, 1, 0])
        elif not any(len(other.part.run.edge.faces) == 1 for other in members):
            level += edge.direction * [1, 1, 0] * (-1 if one.at == "high" else 1)
    if np.linalg.norm(level) < 0.3:
        level = np.array([0.75, -1.0, 0.0])
    level /= np.linalg.norm(level)
    cos, sin = np.cos(look.turn), np.sin(look.turn)
    turned = np.array([cos * level[0] - sin * level[1], sin * level[0] + cos * level[1], 0.0])
    return turned + UP * look.rise


def _told(one: Member) -> str:
    """Return a piece's mark and what it lies over or under at this end."""
    for joint in one.part.joints:
        if joint.at == one.at and joint.lies and joint.others:
            return f"{one.part.mark}\n{joint.lies} {', '.join(joint.others)}"
    for lap in one.part.laps:
        if lap.at == one.at:
            return f"{one.part.mark}\n{lap.lies} {lap.other}"
    return one.part.mark


def _names(members: list[Member]) -> list[str]:
    return list(dict.fromkeys(one.part.run.name for one in members))
