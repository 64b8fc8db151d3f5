"""Valley cleats: offset strips on both wings of a valley's pan, for the ends of the panels to hook.

A cleat's flange lies on the pan in sealant, under the panels, and is riveted to it through two sheets alone, so that
the pan still moves on the deck; its lip is set off the pan by the panels' folded ends, and turned to the middle of the
valley. Each pan has its own, one on each wing, which end where the next pan laps over: pans move on each other too.

Source: an offset cleat in sealant some inches up from the rib: MRCA magazine, January 2024 (pub); its sizes and the
rivets are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from ..edge_kinds import KINDS
from ..fitting import Fitted
from ..geometry.arrays import Array
from ..geometry.vectors import level_square
from ..joints.short_edge import head_normal
from ..metals import METALS
from ..profiles.section import Section, bend_legs
from ..roof.build import gathered
from ..roof.record import Roof
from ..runs import Run, frame_on
from ..scene.schema import Scene
from ..scene.trim import LegSpec
from ..sheet.cut import path, plane_cut, square_cut
from ..sheet.fold import in_scene
from ..sheet.sheet import Cut, Sheet
from ..sheet.solid import thicken
from .caps import fold_inside
from .cleats import BUTT, Cleat
from .flat import ROUND, Lip
from .seam import TIGHT

FLANGE = 1.5
"""Width of the flange on the pan, inches."""

LIP = 1.25
"""Width of the lip, inches: a panel's fold of 3/4 in under it does not reach the offset."""

SEAT = 5.25
"""How high the middle of the flange lies above the deck, sheets: on a pan whose rib lies over another's."""

OFFSET = 3.0
"""How high the lip stands above the flange, sheets, from middle to middle: the panel's fold has a sheet of room."""

OFF_EDGE = 0.5
"""How far cleats end short of the ridge, hip or valley at their head, inches: clear of the pan's dam."""

RIVETS_APART = 6.0
"""The most between two rivets, inches."""

FROM_END = 1.0
"""Distance of the end rivets from the ends of a cleat, inches."""

STEEPLY = 0.1
"""How much of its way a valley must go toward a cap to be cut off by it."""

SHORTEST = 3.0
"""A cleat shorter than this is left out, inches: no panel would hang on it."""


@dataclass(frozen=True, slots=True)
class _Laid:
    """What cleats are laid on.

    Attributes:
        roof: Its edges say how cleats are cut at the foot and at the head of a valley.
        runs: The runs with cleats, by name.
        scene: Its metal is the cleats' too.
    """

    roof: Roof
    runs: Mapping[str, Run]
    scene: Scene


def has_valley_cleats(run: Run) -> bool:
    """Return whether panels end on this run and hook cleats on it."""
    return KINDS[run.trim].panels == "on"


def short_of(run: Run) -> float:
    """Return how far pans stop short of the edge that a run lies along, inches: above the fold of a break's apron."""
    fold = 0.0 if KINDS[run.trim].lower is None else max(fold_inside(run, run.edge.faces[0]), 0.0)
    return KINDS[run.trim].short + fold


def valley_lip(run: Run, scene: Scene) -> Lip:
    """Return what panels hook on each wing of a valley's pan, or on the leg of a break's apron under them."""
    section = _section(run, scene)
    strip = section.strip_of("lip")
    half = section.thickness / 2
    return -short_of(run) - ROUND, float(section.points[strip, 1]) - half


def lay_valley_cleats(roof: Roof, fitted: Sequence[Fitted], scene: Scene) -> Iterator[Cleat]:
    """Yield the cleats on all pans, pan by pan from the foot, the left wing's before the right wing's.

    Args:
        roof: Its edges say how cleats are cut at the foot and at the head of a valley.
        fitted: The trim, run by run from its low end.
        scene: Its metal is the cleats' too.
    """
    pans: dict[str, list[Fitted]] = {}
    for one in fitted:
        if has_valley_cleats(one.run):
            pans.setdefault(one.run.name, []).append(one)
    on = _Laid(roof, {name: own[0].run for name, own in pans.items()}, scene)
    for name, own in pans.items():
        run = on.runs[name]
        starts = [0.0, *(one.piece.start for one in own[1:])]
        ends = [*(start - BUTT for start in starts[1:]), run.length]
        number = 0
        for k, (start, end) in enumerate(zip(starts, ends, strict=True)):
            for face in run.edge.faces if KINDS[run.trim].lower is None else run.edge.faces[:1]:
                cleat = _cleat(on, run, face, (start, end), (k == 0, k == len(own) - 1))
                if cleat is not None:
                    number += 1
                    yield replace(cleat, mark=f"{run.code}-K{number}")


def _cleat(
    on: _Laid, run: Run, face: int, span: tuple[float, float], last: tuple[bool, bool]
) -> Cleat | None:
    """Return the cleat on one wing of one pan, not yet marked; None where it would be too short.

    Args:
        on: What it is laid on.
        run: The valley's run.
        face: Index of the face whose panels hook it.
        span: From where to where along the run it reaches, inches.
        last: Whether it is the lowest one and whether it is the highest one.
    """
    section = _section(run, on.scene)
    placement = frame_on(on.roof, run.edge, face)
    cuts = []
    for u, is_last, sign in zip(span, last, (-1.0, 1.0), strict=True):
        planes = _end_planes(on, run, face, sign, placement) if is_last else []
        ends = [plane_cut(section, placement, *plane) for plane in planes] or [square_cut(section, u)]
        cuts.append(np.max(ends, axis=0) if sign < 0 else np.min(ends, axis=0))
    low, high = cuts
    start = float(low.min())
    if float((high - low).min()) < SHORTEST:
        return None
    placement[:3, 3] += run.edge.direction * start
    sheet = Sheet(section, Cut(path(section, low - start)), Cut(path(section, high - start)))
    flange = section.strip_of("flange")
    across = float(section.v[flange + 1]) / 2
    at = _rivets(float(low[flange].max()) - start, float(high[flange].min()) - start)
    points = in_scene(section, flange, placement, np.array([(u, across) for u in at]))
    return Cleat(
        mark="",
        at=run.name,
        face=face,
        start=start,
        laps=(),
        screws=at,
        points=points,
        sheet=sheet,
        placement=placement,
        solid=thicken(sheet, placement),
    )


def _rivets(first: float, last: float) -> tuple[float, ...]:
    """Return where a flange from ``first`` to ``last`` is riveted, inches."""
    inside = last - first - 2 * FROM_END
    gaps = max(1, math.ceil(inside / RIVETS_APART - 1e-9))
    return tuple(first + FROM_END + inside * k / gaps for k in range(gaps + 1))


def _end_planes(on: _Laid, run: Run, face: int, sign: float, placement: Array) -> list[tuple[Array, Array]]:
    """Return the planes that a cleat is cut on at the foot (-1) or at the head (1) of its valley.

    At the foot it ends above the edge of the deck; at the head short of what bounds the face there, and of caps farther
    off across its way. Where another valley bounds the face, or a break, their cleats meet where the folds of the
    panel do that hooks them both, on the line that halves the angle between them.
    """
    roof = on.roof
    vertex = run.edge.vertices[0 if sign < 0 else 1]
    corner = run.edge.start if sign < 0 else run.edge.end
    beside = next(
        edge for edge in roof.edges if edge is not run.edge and vertex in edge.vertices and face in edge.faces
    )
    if KINDS.get(beside.kind, KINDS["eave"]).ending(face != beside.faces[0]) == "on":
        away = beside.direction if beside.vertices[0] == vertex else -beside.direction
        normal = away + run.edge.direction * sign
        met = corner + _between(run, on.runs.get(beside.name, run), -run.edge.direction * sign, away)
        found = [(met - normal / np.linalg.norm(normal) * BUTT / 2, normal)]
    else:
        foot = level_square(beside.direction, -run.edge.direction)
        normal = head_normal(run, face, roof) if sign > 0 else foot
        found = [(corner - normal * (OFF_EDGE if sign > 0 else 0.0), normal)]
    one_of = gathered(roof)
    for edge in roof.edges:
        across_short_edge = one_of[vertex] in {one_of[end] for end in edge.vertices}
        under_cap = face in edge.faces and edge.kind in KINDS and KINDS[edge.kind].panels == "under"
        if sign > 0 and under_cap and vertex not in edge.vertices:
            normal = level_square(edge.direction, run.edge.direction)
            aside = (np.array([edge.start, edge.end]) - placement[:3, 3]) @ placement[:3, 1]
            if (
                aside.max() > -short_of(run) - ROUND - FLANGE - LIP
                and aside.min() < -short_of(run)
                and normal @ run.edge.direction > STEEPLY
                and (across_short_edge or (edge.start - corner) @ normal > -OFF_EDGE)
            ):
                found.append((edge.start - normal * OFF_EDGE, normal))
    return found


def _between(run: Run, other: Run, own: Array, away: Array) -> Array:
    """Return how far off their corner the folds of a panel meet that hooks the cleats of two runs.

    Args:
        run: The one.
        other: The other.
        own: ``(3,)`` unit vector from the corner along the one.
        away: The same along the other.
    """
    sine = max(float(np.linalg.norm(np.cross(own, away))), STEEPLY)
    return np.asarray(((short_of(other) + ROUND) * own + (short_of(run) + ROUND) * away) / sine)


def _section(run: Run, scene: Scene) -> Section:
    return _bent(scene.metal.kind, scene.metal.thickness, round(short_of(run), 9))


@lru_cache(64)
def _bent(metal: str, thickness: float, short: float) -> Section:
    """Return the section of a cleat on a wing, in ``(out, up)``: toward the middle of the valley, and off the deck."""
    legs = (
        LegSpec.model_construct(name="flange", width=FLANGE, turn=None, direction="deck"),
        LegSpec.model_construct(name="offset", width=(OFFSET + 1) * thickness, turn=-90.0, direction=None),
        LegSpec.model_construct(name="lip", width=LIP, turn=90.0, direction=None),
    )
    section = bend_legs("cleat", legs, {"deck": 0.0}, METALS[metal], thickness, TIGHT * thickness / 2)
    tip = float(section.points[-1, 0])
    shift = np.array([-short - ROUND - tip, SEAT * thickness])
    return replace(section, points=section.points + shift)
