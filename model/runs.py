"""Runs: one trim along one edge, with the cross-section that the roof's own angles give it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import Literal

import numpy as np

from .edge_kinds import KINDS, EdgeKind
from .errors import GeometryError, Key, Problem, SceneError
from .geometry.arrays import Array
from .geometry.vectors import cross
from .limits.record import Limits
from .message import Listed, Message, message
from .metals import METALS
from .profiles.catalogue import catalogue, profile_called
from .profiles.section import Section, bend_section
from .roof.build import takes_trim
from .roof.record import Edge, Roof
from .scene.schema import ProfileSpec, Scene, TrimOverride, TrimSpec
from .tolerances import CLEARANCE

PAN = 1 / 8
"""How far the panels' pans lie above the deck, inches: they clear the trim and its laps under them."""

UNDER_PAN = 9
"""Where panels hook the cleats on a valley's pan, so many sheets are under them: the pan and its lap, whose ribs keep
them apart, the hook with room above and below, the lip. A roof with valleys has all its pans as high."""

UNDER_CLEATED = 5
"""Where panels hook cleats screwed down over trim, so many sheets are under their pans: the trim and its lap, at a rake
the level cleat that a sloping one begins over, the cleat and its own lap."""

CLEAT_LIP = 1.0
"""How far the lip of a cleat stands out past the deck's edge where the trim has none for panels to hook, inches."""


RIB = math.atan(2)
"""How steep the sides of a valley's rib are, radians from the middle between its two decks: as high as it is wide."""


VALLEY_LAPS = (
    (6 / 12, "valley-lap-too-short-from-6-in-12"),
    (3 / 12, "valley-lap-too-short-from-3-in-12"),
    (0.0, "valley-lap-too-short-below-3-in-12"),
)
"""The limit for the laps of a valley's pan, by the least slope of the valley itself, as rise over run."""


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """One trim along one edge.

    Attributes:
        name: The edge's name: a run is known by where it is.
        code: Letter and number that its pieces' marks begin with: ``R2``.
        edge: The edge it lies on.
        trim: Kind of trim: the kind of its edge.
        spec: What the scene asks of it.
        section: Its cross-section, bends and developed width.
        frame: ``(4, 4)`` matrix from ``(u, out, up)`` in inches to the scene frame, before any piece is
            lifted over its neighbor. Columns are the edge's direction, ``out`` and ``up``.
    """

    name: str
    code: str
    edge: Edge
    trim: EdgeKind
    spec: TrimSpec
    section: Section
    frame: Array

    @property
    def words(self) -> Message | str:
        """What it is called in words: as its edge."""
        return self.edge.words

    @property
    def length(self) -> float:
        """Length of the edge, inches."""
        return self.edge.length

    @property
    def hand(self) -> str | None:
        """``left`` or ``right`` for a rake, else None."""
        return self.edge.hand

    def vertex(self, at: Literal["low", "high"]) -> int:
        """Return the vertex of the roof at one of its ends."""
        return self.edge.vertices[0 if at == "low" else 1]


def pan_height(roof: Roof, scene: Scene) -> float:
    """Return how far the panels' pans lie above the deck of a roof, inches."""
    known = {**catalogue(), **scene.profile}
    sheets = 0
    for edge in roof.edges:
        spec = scene.trim_for(edge.kind, edge.name) if edge.kind in KINDS else None
        if spec is None:
            continue
        if KINDS[edge.kind].panels == "on":
            sheets = max(sheets, UNDER_PAN)
        elif KINDS[edge.kind].panels == "hook" and spec.profile in known:
            lips = [leg.name for leg in known[spec.profile].legs[1:]]
            sheets = max(sheets, 0 if "return" in lips else UNDER_CLEATED)
    return max(PAN, sheets * scene.metal.thickness)


def lay_runs(roof: Roof, scene: Scene, limits: Limits) -> tuple[tuple[Run, ...], tuple[str, ...]]:
    """Return a run for every edge that is to have trim, and the names of the edges that are to stay bare.

    Raises:
        SceneError: a profile is unknown or does not suit its edge, or a run is named that does not exist.
    """
    problems = [*_unknown_runs(roof, scene), *_unknown_under(roof, scene), *_idle_closures(roof, scene)]
    runs: list[Run] = []
    bare: list[str] = []
    count: dict[str, int] = {}
    pan = pan_height(roof, scene)
    for edge in roof.edges:
        trimmed = edge.kind in KINDS and takes_trim(edge)
        spec = scene.trim_for(edge.kind, edge.name) if trimmed else None
        if spec is None:
            bare += [] if edge.is_neck else [edge.name]
            continue
        spec = _lapped(edge, spec, limits)
        place: Key = ("run", edge.name) if edge.name in scene.run else ("trim", edge.kind)
        try:
            section = section_of(roof, edge, spec, scene, pan, place)
        except SceneError as error:
            problems += error.problems
            continue
        except GeometryError as error:
            problems += [replace(one, key=place) for one in error.problems]
            continue
        letter = KINDS[edge.kind].mark
        count[letter] = count.get(letter, 0) + 1
        runs.append(
            Run(edge.name, f"{letter}{count[letter]}", edge, edge.kind, spec, section, frame_of(roof, edge))
        )
    if problems:
        raise SceneError(*dict.fromkeys(problems))
    return tuple(runs), tuple(bare)


def valley_lap(slope: float) -> str:
    """Return the name of the limit for the laps of a valley that slopes so, radians."""
    return next(name for least, name in VALLEY_LAPS if math.tan(slope) >= least - 1e-9)


def _lapped(edge: Edge, spec: TrimSpec, limits: Limits) -> TrimSpec:
    """Return what is asked of an edge's trim; a valley's laps are as long as its slope wants, where nothing is said."""
    if edge.kind != "valley" or "lap" in spec.model_fields_set:
        return spec
    return spec.model_copy(update={"lap": limits.number(valley_lap(edge.slope))})


def frame_of(roof: Roof, edge: Edge) -> Array:
    """Return the ``(4, 4)`` frame of an edge: along it, outward and up, with its start as origin."""
    out = edge.outward
    if len(edge.faces) == 1:
        up = roof.faces[edge.faces[0]].normal
    else:
        up = cross(out, edge.direction)
        up = up if up[2] > 0 else -up
    frame = np.eye(4)
    frame[:3] = np.column_stack([edge.direction, out, up, edge.start])
    return frame


def frame_on(roof: Roof, edge: Edge, face: int) -> Array:
    """Return the ``(4, 4)`` frame of an edge on one of its faces: along it, out of the face in its plane, and up."""
    normal = roof.faces[face].normal
    away = edge.outward if edge.faces[0] == face else -edge.outward
    out = cross(edge.direction, normal)
    frame = np.eye(4)
    frame[:3] = np.column_stack([edge.direction, out if out @ away > 0 else -out, normal, edge.start])
    return frame


def directions_of(roof: Roof, edge: Edge) -> dict[str, float]:
    """Return the angle of each named direction at an edge, radians below the outward axis."""
    frame = frame_of(roof, edge)
    out, up = frame[:3, 1], frame[:3, 2]
    down = np.array([0.0, 0.0, -1.0])
    angles = {"deck": 0.0, "square": math.pi / 2, "plumb": math.atan2(-down @ up, down @ out)}
    if len(edge.faces) == 2:
        for name, face in zip(("deck", "far deck"), edge.faces, strict=True):
            across = cross(roof.faces[face].normal, edge.direction)
            across = across if across @ out > 0 else -across
            angles[name] = math.atan2(-across @ up, across @ out)
        middle = (angles["deck"] + angles["far deck"]) / 2
        angles |= {"rib up": middle - RIB, "rib down": middle + RIB}
    return angles


def section_of(
    roof: Roof, edge: Edge, spec: TrimSpec, scene: Scene, pan: float, place: Key, deeper: float = 0.0
) -> Section:
    """Return the section of the trim on an edge.

    Args:
        roof: Its faces say at which angles the trim is bent.
        edge: The edge.
        spec: What is asked of its trim.
        scene: For its metal, its own profiles and the height of the panels' seams.
        pan: How far the panels' pans lie above the deck, inches.
        place: What is blamed where the profile is not known, or does not suit the edge.
        deeper: How much wider than asked its face is, inches.

    Raises:
        SceneError: the profile is unknown or does not suit the edge.
        GeometryError: the profile cannot be bent, or cannot lie over itself at a lap.
    """
    profile = _with_face(profile_called(spec.profile, scene.profile, edge.kind, place), spec.face, deeper)
    covering = not KINDS[edge.kind].is_covered
    over_seams = pan + scene.panels.seam + scene.metal.thickness
    rise = over_seams if covering else 0.0
    directions = tuple(sorted((name, round(angle, 12)) for name, angle in directions_of(roof, edge).items()))
    metal, standoff = scene.metal, CLEARANCE if covering else 0.0
    bent = partial(
        _bent, spec.profile, profile, directions, metal.kind, metal.thickness, metal.radius, standoff=standoff
    )
    section = bent(rise=rise)
    if covering:
        section = bent(rise=rise + _hem_depth(section, profile))
    elif KINDS[edge.kind].lower == "under":
        section = bent(rise=rise, far_rise=over_seams + _hem_depth(section, profile))
    if np.isnan(section.nesting).any():
        raise GeometryError(
            message(
                "profile '{profile}' cannot lie over itself at a lap; "
                "mark legs that face each other relieved = true",
                profile=spec.profile,
            )
        )
    return section


def _with_face(profile: ProfileSpec, width: float | None, deeper: float) -> ProfileSpec:
    """Return a profile whose face is ``width`` wide, or its own width where none is asked, and ``deeper`` more."""
    if width is None and not deeper:
        return profile
    legs = (
        leg.model_copy(update={"width": (leg.width if width is None else width) + deeper})
        if leg.name == "face"
        else leg
        for leg in profile.legs
    )
    return profile.model_copy(update={"legs": tuple(legs)})


def _hem_depth(section: Section, profile: ProfileSpec) -> float:
    """Return how far the hems under a cap's edges hang below its wings, inches: they clear the seams too."""
    depths = [0.0]
    for leg in profile.legs:
        strip = section.strip_of(leg.name)
        heights = section.points @ section.normals[strip]
        if leg.direction == "far deck":
            depths += (heights[strip] - heights[strip + 1 :]).tolist()
        elif leg.direction == "deck":
            depths += (heights[strip] - heights[:strip]).tolist()
    return max(depths)


@lru_cache(maxsize=256)
def _bent(
    name: str,
    profile: ProfileSpec,
    directions: tuple[tuple[str, float], ...],
    metal: str,
    thickness: float,
    radius: float,
    rise: float,
    standoff: float,
    far_rise: float | None = None,
) -> Section:
    return bend_section(
        name,
        profile,
        dict(directions),
        METALS[metal],
        thickness,
        radius,
        rise=rise,
        standoff=standoff,
        far_rise=far_rise,
    )


def _unknown_runs(roof: Roof, scene: Scene) -> list[Problem]:
    names = tuple(edge.name for edge in roof.edges)
    told = message("this roof has no such edge; it has: {names}", names=Listed(names, "comma"))
    return [Problem(told, ("run", name)) for name in scene.run if name not in names]


def _idle_closures(roof: Roof, scene: Scene) -> Iterator[Problem]:
    """Yield closures that are asked of trim that lies over no panels."""
    kinds = {edge.name: edge.kind for edge in roof.edges}
    asked: list[tuple[Key, EdgeKind, TrimSpec | TrimOverride | None]] = [
        (("trim", kind), kind, spec) for kind, spec in scene.trim.items()
    ]
    asked += [(("run", name), kinds[name], spec) for name, spec in scene.run.items() if name in kinds]
    for place, kind, spec in asked:
        over = kind in KINDS and "under" in (KINDS[kind].panels, KINDS[kind].lower)
        if spec is not None and "closure" in spec.model_fields_set and not over:
            told = message(
                "trim of the kind {kind} lies over no panels and has no closures; leave this key out",
                kind=kind,
            )
            yield Problem(told, (*place, "closure"))


def _unknown_under(roof: Roof, scene: Scene) -> Iterator[Problem]:
    """Yield what ``over`` names that is neither a kind of edge nor an edge that meets the one that says it."""
    edges = {edge.name: edge for edge in roof.edges}
    for kind, trim in scene.trim.items():
        for name in trim.over if trim is not None else ():
            if name not in KINDS and name not in edges:
                told = message(
                    "'{name}' is neither a kind of edge nor an edge of this roof; give one", name=name
                )
                yield Problem(told, ("trim", kind, "over"))
    for own, override in scene.run.items():
        if own not in edges or override is None:
            continue
        mine = edges[own]
        meets = tuple(
            edge.name for edge in roof.edges if edge is not mine and set(edge.vertices) & set(mine.vertices)
        )
        for name in override.over or ():
            if name not in KINDS and name not in meets:
                told = message(
                    "'{name}' does not meet it; it meets: {meets}", name=name, meets=Listed(meets, "comma")
                )
                yield Problem(told, ("run", own, "over"))
