"""Close-ups: each corner as it is set, and with the piece on top lifted off, so that its cuts are seen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from trimwright.model.edge_kinds import KINDS
from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Listed, Message, message
from trimwright.model.roof.build import gathered

from .body import Kind
from .camera import UP, looking_at
from .ends import lies
from .features import end_label, end_points, tab_label, work_at
from .notes import Label, NoteLine
from .view import BESIDE, HOUSE, LEFT_OFF, METAL, PANELS, LegendPart, ViewPoint


@dataclass(frozen=True, slots=True)
class Look:
    """How a kind of corner is looked at.

    Attributes:
        title: What its picture is called.
        reach: How far in along each piece is seen, inches.
        rise: How steeply the eye looks down, as rise over run.
        turn: How far the eye is turned to the right of straight on, radians.
        panels: Whether panels are shown.
    """

    title: Message
    reach: float
    rise: float
    turn: float
    panels: bool


LOOKS: Mapping[str, Look] = {
    "eave-rake": Look(message("Eave and rake"), 7.0, 0.42, 0.0, False),
    "outside corner": Look(message("Outside corner of the eaves"), 7.0, 0.42, 0.0, False),
    "inside corner": Look(message("Inside corner of the eaves"), 8.0, 0.6, 0.0, False),
    "porch corner": Look(message("Eave at the side of a porch"), 8.0, 0.6, 0.0, False),
    "valley foot": Look(message("Foot of the valley"), 16.0, 0.9, 0.0, False),
    "rake at a valley": Look(message("Rake at a valley"), 9.0, 0.6, 0.3, False),
    "valley foot at a rake": Look(message("Foot of the valley at a rake"), 16.0, 0.9, 0.0, False),
    "peak": Look(message("Peak"), 8.0, 0.3, 0.35, False),
    "ridge end": Look(message("End of the ridge cap"), 11.0, 0.5, 0.55, True),
    "hip at a gable": Look(message("End of a hip at a gable"), 11.0, 0.5, 0.55, True),
    "high edge at a hip": Look(message("High edge at a hip"), 11.0, 0.5, 0.3, True),
    "hip at a high edge": Look(message("End of a hip at a high edge"), 11.0, 0.5, 0.3, True),
    "hip foot": Look(message("Foot of the hip cap"), 11.0, 0.75, 0.0, True),
    "hip head": Look(message("Head of the hip caps"), 15.0, 1.0, 0.3, True),
    "valley head": Look(message("Head of the valley"), 16.0, 1.2, 0.3, False),
    "ridge at a slope": Look(message("End of a ridge on a slope"), 16.0, 1.0, 0.3, True),
    "hip at a slope": Look(message("End of a hip on a slope"), 16.0, 1.0, 0.3, True),
    "break end": Look(message("End of the break's apron"), 11.0, 0.5, 0.55, True),
    "rake bend": Look(message("Bend of the rake"), 9.0, 0.4, 0.2, False),
    "high-rake": Look(message("High side and rake"), 9.0, 0.45, 0.0, True),
    "sealed end": Look(message("Ends sealed against each other"), 12.0, 0.8, 0.3, False),
}


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """One end of a piece at a corner."""

    part: Part
    end: End


def corner_views(layout: Layout, order: Mapping[str, int]) -> Iterator[ViewPoint]:
    """Yield each corner of each kind as it is set and apart; corners alike come after one that shows them."""
    for kind, look in LOOKS.items():
        for members in _corners(layout, kind):
            members = sorted(members, key=lambda one: order[one.part.mark])
            yield from _corner(layout, kind, look, members)


def lap_views(layout: Layout, order: Mapping[str, int]) -> Iterator[ViewPoint]:
    """Yield a lap of each kind of trim, as it is set and apart."""
    done: set[str] = set()
    for part in layout.parts:
        length = part.ends.high.lap
        if length is not None and part.run.trim not in done:
            done.add(part.run.trim)
            (other,) = map(layout.part, part.ends.high.others)
            members = [Member(part, part.ends.high), Member(other, other.ends.low)]
            members.sort(key=lambda one: order[one.part.mark])
            yield from _lap(layout, members, length)


def _corners(layout: Layout, kind: str) -> Iterator[list[Member]]:
    """Yield the ends that take part where joints of a kind are made: at each corner those that are of it, and
    those of the pieces that they meet there."""
    found: dict[int, list[Member]] = {}
    one_of = gathered(layout.roof)
    for part in layout.parts:
        for end in part.ends.corners:
            vertex = one_of[part.run.vertex(end.at)]
            found.setdefault(vertex, []).append(Member(part, end))
    for members in found.values():
        own = [one for one in members if one.end.kind.name == kind]
        marks = {mark for one in own for mark in (one.part.mark, *one.end.others)}
        if own:
            yield [one for one in members if one.part.mark in marks]


def _corner(layout: Layout, kind: str, look: Look, members: list[Member]) -> Iterator[ViewPoint]:
    marks = frozenset(one.part.mark for one in members)
    main = next((one for one in reversed(members) if one.end.kind.name == kind), members[-1])
    points = np.concatenate([end_points(one.part, one.end, look.reach) for one in members])
    way = _toward(members, look)
    trims = {one.part.run.trim for one in members}
    seen = trims | ({kind for kind, trim in KINDS.items() if trim.is_covered} if look.panels else set())
    hidden = frozenset(part.mark for part in layout.parts if part.run.trim not in seen)
    shows: frozenset[Kind] = HOUSE | METAL | (PANELS if look.panels else frozenset())
    labels = [end_label(one.part, one.end, _told(one), look.reach) for one in members]
    labels += [tab_label(one.part, one.end, tab) for one in members for tab in one.end.cut.tabs]
    notes = () if look.panels else (LEFT_OFF,)
    view = ViewPoint(
        f"corner {kind.replace(' ', '-')} {main.part.mark}",
        message("{corner}: {runs}", corner=look.title, runs=_names(members)),
        (looking_at(points, way, margin=1.25, lens=0.3),),
        shows,
        "pieces",
        notes=notes,
        focus=marks,
        hidden=hidden,
        labels=tuple(labels),
        caution=True,
        subject="corner",
        joint=kind,
    )
    yield view
    yield _apart(view, members, points, way, look.reach * 0.62)


def _lap(layout: Layout, members: list[Member], length: float) -> Iterator[ViewPoint]:
    over = members[-1].part
    run = over.run
    reach = length + 6.0
    points = np.concatenate([end_points(one.part, one.end, reach) for one in members])
    frame = run.frame[:3]
    way = frame[:, 1] * 0.9 + frame[:, 2] * 0.9 - frame[:, 0] * 0.55
    hidden = frozenset(p.mark for p in layout.parts if p.run is not run)
    labels = [end_label(one.part, one.end, _told(one), reach) for one in members]
    inner, outer = sorted(one.end.outermost for one in members)
    section = over.sheet.section
    leg = section.lying[0]
    v = section.v[leg.strip] * 0.35 + section.v[leg.strip + 1] * 0.65
    ends = np.array(
        [
            [
                u,
                *(
                    section.points[leg.strip]
                    + (section.points[leg.strip + 1] - section.points[leg.strip])
                    * (v - section.v[leg.strip])
                    / (section.v[leg.strip + 1] - section.v[leg.strip])
                ),
            ]
            for u in (inner, outer)
        ]
    )
    across = ends @ over.placement[:3, :3].T + over.placement[:3, 3] + frame[:, 2] * 0.15
    lines = [NoteLine(across, "measure", message("lap {length}", length=Length(length)))]
    view = ViewPoint(
        f"corner lap {over.mark}",
        message("Lap: {runs}", runs=_names(members)),
        (looking_at(points, way, margin=1.3, lens=0.3),),
        HOUSE | METAL,
        "pieces",
        notes=(LEFT_OFF,),
        focus=frozenset(one.part.mark for one in members),
        hidden=hidden,
        labels=tuple(labels),
        lines=tuple(lines),
        caution=True,
        subject="lap",
        joint="lap",
    )
    yield view
    yield _apart(view, members, points, way, reach * 0.4)


def _apart(view: ViewPoint, members: list[Member], points: Array, way: Array, step: float) -> ViewPoint:
    """Return a corner with each piece lifted off those under it, its cuts and folds numbered."""
    apart = {one.part.mark: _off(one.part) * step * level for level, one in enumerate(members) if level}
    labels: list[Label] = []
    lines: list[NoteLine] = []
    legend: list[LegendPart] = []
    for one in members:
        shift = apart.get(one.part.mark, np.zeros(3))
        label = end_label(one.part, one.end, one.part.mark, step * 1.6)
        numbers, cuts, told = work_at(one.part, one.end)
        labels += [replace(label, points=label.points + shift) for label in (label, *numbers)]
        lines += [replace(line, points=line.points + shift) for line in cuts]
        if told:
            legend.append(LegendPart(_heading(one), tuple(told)))
    moved = np.concatenate(
        [
            points,
            *(
                end_points(one.part, one.end, step * 1.6) + apart[one.part.mark]
                for one in members
                if one.part.mark in apart
            ),
        ]
    )
    notes = (*view.notes, message("the piece on top is lifted off its place"))
    return replace(
        view,
        name=f"{view.name} apart",
        title=message("{view}, apart", view=view.title),
        notes=notes,
        apart=apart,
        shots=(looking_at(moved, way, margin=1.12, lens=0.3, frame=(0.0, 0.0, BESIDE, 1.0)),),
        labels=tuple(labels),
        lines=tuple(lines),
        legend=tuple(legend),
    )


def _off(part: Part) -> Array:
    """Return the unit vector along which a piece is lifted off its place."""
    out, up = part.run.frame[:3, 1], part.run.frame[:3, 2]
    way = up if len(part.run.edge.faces) == 2 else out * 0.8 + up
    return np.asarray(way / np.linalg.norm(way))


def _toward(members: list[Member], look: Look) -> Array:
    """Return the direction from a corner to the eye: from outside and above."""
    level = np.zeros(3)
    for one in members:
        edge = one.part.run.edge
        if len(edge.faces) == 1:
            level += edge.outward * [1, 1, 0] / np.linalg.norm(edge.outward * [1, 1, 0])
        elif not any(len(other.part.run.edge.faces) == 1 for other in members):
            level += edge.direction * [1, 1, 0] * (-1 if one.end.at == "high" else 1)
    if np.linalg.norm(level) < 0.3:
        level = np.array([0.75, -1.0, 0.0])
    level /= np.linalg.norm(level)
    cos, sin = np.cos(look.turn), np.sin(look.turn)
    turned = np.array([cos * level[0] - sin * level[1], sin * level[0] + cos * level[1], 0.0])
    return turned + UP * look.rise


def _told(one: Member) -> Message | str:
    """Return a piece's mark and, below it, what it lies over or under at this end."""
    way = lies(one.end)
    return one.part.mark if way is None else message("{mark}\n{lies}", mark=one.part.mark, lies=way)


def _heading(one: Member) -> Message:
    """Return the same on one line."""
    way = lies(one.end)
    if way is None:
        return message("{mark}", mark=one.part.mark)
    return message("{mark}, {lies}", mark=one.part.mark, lies=way)


def _names(members: list[Member]) -> Listed:
    return Listed(tuple(dict.fromkeys(one.part.run.words for one in members)), "comma")
