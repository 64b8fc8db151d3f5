"""Panels: a face laid flat, cut into columns, each column made as a sheet and set in its place."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np
import shapely

from ..edge_kinds import KINDS
from ..fitting import Fitted
from ..geometry.arrays import Array
from ..limits.record import Limits
from ..roof.record import Edge as RoofEdge
from ..roof.record import Roof
from ..runs import PAN, pan_height
from ..scene.schema import Scene
from ..screw_lines import Asked, ScrewLine, asked_of, screw_rows
from ..screw_lines import rows as rows_of
from ..screws import crowding
from ..sheet.fold import in_scene
from ..tolerances import LEVEL, POINT, TAPE
from .caps import FOOT, fold_inside, web_back
from .catalogue import panel_profile_called
from .closure_lines import lay_closures
from .closures import Closure
from .columns import cut_columns, hooked_corners
from .first_seam import FaceEnd, Span, first_seams
from .flaps import HOOK
from .flat import Border, Flat, Lip, borders_of, inside_corners, laid_flat, pan_area
from .lips import lip_of
from .making import Maker
from .record import Edge, Panel
from .seam import seam_of
from .stuff import Stuff, panel_section

UPRIGHT = 1 / 20
"""What leans less than this off straight up the slope, as a share, runs along seams as a crooked rake does."""

UNHOOKED = 10
"""A corner that a seam leaves without room for a hook counts as many screws too near to seams: an order, no size."""


def stuff_of(scene: Scene, pan: float = PAN) -> Stuff:
    """Return what all panels of a scene are made of, their pans ``pan`` inches above the deck.

    Raises:
        SceneError: the scene names a panel profile that there is not.
    """
    profile = panel_profile_called(scene.panels.profile, scene.panel_profile)
    metal = scene.metal
    seam = seam_of(profile, scene.panels.seam, metal.thickness)
    return Stuff(metal.kind, metal.thickness, seam, profile.lock == "rib", pan)


def lay_panels(
    roof: Roof, scene: Scene, fitted: Sequence[Fitted], limits: Limits
) -> tuple[tuple[Panel, ...], tuple[Closure, ...]]:
    """Return the panels of every face, straight up the slope from its eave, and the closures that stand on them.

    Args:
        roof: The roof; its faces may have inside corners and openings.
        scene: What is asked of the panels.
        fitted: The trim: they hook the lips of eaves and rakes, and closures carry what lies over them.
        limits: What the rule set asks of screws and of panels.

    Raises:
        GeometryError: a panel that cannot be made; says which.
    """
    stuff = stuff_of(scene, pan_height(roof, scene))
    pieces: dict[str, list[Fitted]] = {}
    for one in fitted:
        pieces.setdefault(one.run.name, []).append(one)
    lips = {name: lip for name, own in pieces.items() if (lip := lip_of(own[0].run, scene)) is not None}
    asked, rows = asked_of(scene, limits), asked_of(scene, limits).rows
    maker = Maker(stuff, scene, limits.number("clip-spacing"))
    laid: dict[int, tuple[Flat, list[float]]] = {}
    panels: list[Panel] = []
    closures: list[Closure] = []
    for index, face in enumerate(roof.faces):
        flat = laid_flat(face)
        webs = {
            edge.name: web_back(pieces[edge.name][0].run, index, face, rows)
            for edge in roof.edges
            if _goes_under(edge, index) and edge.name in pieces
        }
        # Where two lines of closures meet, the foot of the one reaches nearer to the other's edge than its own does.
        share = 1 - FOOT / min(webs.values(), default=math.inf)
        feet = {name: web * share for name, web in webs.items()}
        rings = borders_of(roof, index, flat, lips, feet, _folds(roof, index, pieces), stuff.up)
        area = pan_area(rings)
        near = [one for edge in roof.edges if index in edge.faces for one in pieces.get(edge.name, ())]
        span = _span(rings[0], area, scene.panels.cover, stuff, limits, near, flat, asked)
        lines = [line for line in screw_rows(near, asked) if line.face == index]
        borders = list(itertools.chain(*rings))
        inside = flat.flatten(inside_corners(roof, index))[:, 0]
        crowds = _crowds(near, lines, flat, area, hooked_corners(area, borders), inside, stuff, limits)
        meeting = _meeting(roof, index, flat, laid) if scene.panels.aligned else None
        seams = first_seams(span, scene.panels.start, scene.panels.offset, meeting, crowds)
        laid[index] = (flat, seams)
        own = maker.panels(index, face, flat, cut_columns(area, seams, borders))
        panels += own
        closures += lay_closures(index, flat, rings, own, pieces, webs, rows, stuff, scene)
    return tuple(panels), tuple(closures)


def _goes_under(edge: RoofEdge, index: int) -> bool:
    """Return whether the panels of a face go under the trim of an edge."""
    kind = KINDS.get(edge.kind)
    return index in edge.faces and kind is not None and kind.ending(index != edge.faces[0]) == "under"


def _folds(roof: Roof, index: int, pieces: Mapping[str, Sequence[Fitted]]) -> dict[str, float]:
    """Return how far inside the deck's edge the fold of each break's apron lies on a face, inches."""
    return {
        edge.name: fold_inside(pieces[edge.name][0].run, index)
        for edge in roof.edges
        if index in edge.faces and edge.name in pieces and KINDS[edge.kind].lower is not None
    }


def seam_feet(panels: Sequence[Panel]) -> dict[int, Array]:
    """Return the foot lines of the seams by the index of their face, ``(n, 2, 3) float, inches, scene frame``."""
    faces = sorted({panel.face for panel in panels})
    own = {face: [seam for panel in panels if panel.face == face for seam in panel.seams] for face in faces}
    return {face: np.array(seams).reshape(-1, 2, 3) for face, seams in own.items()}


def _feet(flat: Flat, area: shapely.Geometry, seams: Sequence[float], stuff: Stuff) -> Array:
    """Return seams straight up the whole face, ``(n, 2, 3) float, inches, scene frame``."""
    _, low, _, high = area.bounds
    ends = np.array([[(x, low), (x, high)] for x in seams]).reshape(-1, 2)
    return flat.raised(ends, stuff.pan).reshape(-1, 2, 3)


def _crowds(
    fitted: Sequence[Fitted],
    lines: Sequence[ScrewLine],
    flat: Flat,
    area: shapely.Geometry,
    corners: Sequence[float],
    inside: Array,
    stuff: Stuff,
    limits: Limits,
) -> Callable[[list[float]], int]:
    """Return what counts the screws, laps and corners too near to seams of a face."""
    upright, off = _upright(lines, flat), limits.number("seam-too-close") + TAPE

    def crowds(seams: list[float]) -> int:
        count = _crowding(fitted, lines, _feet(flat, area, seams, stuff), limits)
        count += int((np.abs(np.array(seams)[:, None] - upright[None]) < off).sum())
        return count + UNHOOKED * _beside(corners, seams) + _on_corners(seams, inside, limits)

    return crowds


def _crowding(fitted: Sequence[Fitted], lines: Sequence[ScrewLine], feet: Array, limits: Limits) -> int:
    """Return how many screws and laps of level trim would be too near to seams at ``feet``."""
    count, least = crowding(lines, feet), limits.number("seam-on-lap")
    for lower, upper in itertools.pairwise(fitted):
        run = lower.run
        if upper.run is run and KINDS[run.trim].panels == "hook" and abs(run.edge.slope) < LEVEL:
            along = (feet[:, 0] - run.edge.start) @ run.edge.direction
            middle = (upper.sheet.extent[0] + lower.sheet.extent[1]) / 2
            count += int((np.abs(along - middle) < least).sum())
    return count


def _upright(lines: Sequence[ScrewLine], flat: Flat) -> Array:
    """Return where rows of screws run up the slope, beside seams, ``(n,) float, inches`` from the left."""
    if not lines:
        return np.zeros(0)
    ends = flat.flatten(np.concatenate([line.ends for line in lines])).reshape(-1, 2, 2)
    across, up = np.abs(ends[:, 1] - ends[:, 0]).T
    return np.asarray(ends[across < up * UPRIGHT].mean(axis=1)[:, 0])


def _beside(corners: Sequence[float], seams: Sequence[float]) -> int:
    """Return beside how many corners a seam leaves too little of one side for a hook."""
    away = np.abs(np.subtract.outer(np.array(corners), np.array(seams)))
    return int(((away > POINT) & (away < 2 * HOOK)).sum())


def _on_corners(seams: Sequence[float], corners: Array, limits: Limits) -> int:
    """Return how many seams would stand too near to inside corners, where no pan is left to turn over the eave."""
    away = np.abs(np.array(seams)[:, None] - corners[None])
    return int((away < limits.number("seam-too-close") + TAPE).sum())


def _span(
    ring: Sequence[Border],
    area: shapely.Geometry,
    cover: float,
    stuff: Stuff,
    limits: Limits,
    near: Sequence[Fitted],
    flat: Flat,
    asked: Asked,
) -> Span:
    """Return a face from its left to its right end."""
    ends = []
    for side, (pick, outward) in enumerate(((min, -1.0), (max, 1.0))):
        deck = float(pick(border.start[0] for border in ring))
        bound = float(area.bounds[2 * side]) if not area.is_empty else deck
        border = next((b for b in ring if _beside_seams(b, deck)), None)
        spare = min(_spare(b, side, cover, stuff) for b in ring if _reaches(b, deck))
        most = cover + spare - (bound - deck) * outward
        least, rows = 0.0, set[float]()
        if border is not None:
            least = limits.number("narrow-panel")
            beside = [one for one in near if one.run.edge is border.edge]
            rows = {row for one in beside for row in _inside(one, border, flat, asked)}
        ends.append(FaceEnd(deck, bound, most, least, tuple(sorted(rows))))
    return Span(ends[0], ends[1], cover, limits.number("seam-too-close"))


def _reaches(border: Border, x: float) -> bool:
    """Return whether a side of a face begins or ends where its deck does, inches from the left."""
    first = float(border.start[0])
    last = first + float(border.along[0]) * border.edge.length
    return min(abs(first - x), abs(last - x)) < POINT


def _spare(border: Border, side: int, cover: float, stuff: Stuff) -> float:
    """Return how much wider than ``cover`` the pan of an end panel may be, from what a whole panel's sheet leaves.

    A side straight up the slope takes the legs folded along it, one that leans the flaps that stand out over it.

    Args:
        border: A side that ends where the face does.
        side: 0 at the left end of the face, 1 at its right end.
        cover: From seam to seam, inches.
        stuff: What the panel is made of.
    """

    def sheet(end: Edge, lip: Lip | None) -> float:
        edges: tuple[Edge, Edge] = (end, "under") if side == 0 else ("over", end)
        return panel_section(stuff, edges, (lip, None) if side == 0 else (None, lip), cover).width

    whole = panel_section(stuff, ("over", "under"), (None, None), cover).width
    if abs(border.along[0]) * border.edge.length < POINT:
        return whole - sheet(border.ending, border.lip)
    out = float(border.normal[0]) * (-1.0 if side == 0 else 1.0)
    return whole - sheet("cut", None) - max(out, 0.0) * stuff.stands_out(border.ending, border.lip)


def _beside_seams(border: Border, deck: float) -> bool:
    """Return whether a side of a face runs along seams where its deck ends, inches from the left."""
    return abs(border.along[0]) < UPRIGHT and _reaches(border, deck)


def _inside(one: Fitted, border: Border, flat: Flat, asked: Asked) -> Iterator[float]:
    """Yield how far inside a border the first row of screws of a piece along it runs, inches; a valley's has none."""
    for across, strip in itertools.islice(rows_of(one, asked.rows), 1):
        point = in_scene(one.run.section, strip, one.run.frame, np.array([[0.0, across]]))
        yield round(border.deck - float(border.normal @ flat.flatten(point)[0]), 3)


def _meeting(
    roof: Roof, index: int, flat: Flat, laid: Mapping[int, tuple[Flat, list[float]]]
) -> float | None:
    """Return where a seam of a slope that is laid already meets this one at their ridge; None where there is none."""
    for edge in roof.edges:
        if edge.kind == "ridge" and index in edge.faces:
            other = next(face for face in edge.faces if face != index)
            if other in laid and laid[other][1]:
                beside, seams = laid[other]
                start, end = beside.flatten(np.array([edge.start, edge.end]))
                share = (seams[0] - start[0]) / (end[0] - start[0])
                return float(flat.flatten((edge.start + share * (edge.end - edge.start))[None])[0, 0])
    return None


def whole_width(scene: Scene) -> float:
    """Return the width of the sheet of a whole panel, inches."""
    return panel_section(stuff_of(scene), ("over", "under"), (None, None), scene.panels.cover).width
