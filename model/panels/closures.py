"""Closures: strips between the seams that carry ridge, hip and high-side trim, and keep weather out under it.

A closure is a Z of sheet metal: its foot on the pan, its web as high as the trim over it, its flange under the row of
screws. It is cut square to the eave round the seams beside it, its web stepped where the fold along a seam's top leans
over. It reaches into the turned-down end of the trim, and is mitered where two caps meet.

Source: common practice, no source.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely

from ..fitting import Fitted
from ..geometry.arrays import Array
from ..metals import METALS
from ..profiles.section import Section, bend_legs
from ..runs import Run
from ..scene.trim import LegSpec
from ..screw_lines import insets
from ..sheet.cut import path, plane_cut
from ..sheet.fold import strip_fold
from ..sheet.sheet import Cut, Sheet
from ..sheet.solid import Solid, thicken, thicken_alike
from ..tolerances import CLEARANCE, POINT
from .caps import FLANGE_PAST, FOOT, WEB_BEHIND, hang_of
from .closure_ends import Plane, end_planes
from .flat import Border, Flat
from .record import Panel
from .seam import TIGHT
from .shape import Stuff

LEAST = 1 / 2
"""A closure shorter than this is left out, inches: sealant fills the place."""


@dataclass(frozen=True, slots=True, eq=False)
class Closure:
    """One closure.

    Attributes:
        name: ``ridge, front 3``: the run that it carries, and the panel that it stands on.
        at: Name of the run.
        panel: Name of the panel.
        face: Index of the face.
        line: ``(2, 3) float, inches, scene frame``: the foot of its web, from left to right.
        sheet: Its flat pattern and bends, back up: the side of the web that is seen is painted; ``u`` runs to
            the right.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet in the scene frame.
    """

    name: str
    at: str
    panel: str
    face: int
    line: Array
    sheet: Sheet
    placement: Array
    solid: Solid

    @property
    def length(self) -> float:
        """Length of its blank, inches."""
        low, high = self.sheet.extent
        return high - low


def held_along(
    closures: Sequence[Closure], runs: Sequence[Run]
) -> dict[tuple[str, int], tuple[float, float]]:
    """Return from where to where along each run the flanges of closures stand on each face, inches."""
    ends: dict[tuple[str, int], tuple[float, float]] = {}
    if not closures:
        return ends
    lines = {run.name: (run.edge.start, run.edge.direction) for run in runs}
    sheets = {id(closure.sheet): closure.sheet for closure in closures}
    flanges = {key: _flange_ends(sheet) for key, sheet in sheets.items()}
    start, way = np.array([lines[closure.at] for closure in closures]).transpose(1, 0, 2)
    place = np.array([closure.placement for closure in closures])
    corners = np.array([flanges[id(closure.sheet)] for closure in closures])
    u = np.einsum("ni,nij,nekj->nek", way, place[:, :3, :3], corners)
    u += ((place[:, :3, 3] - start) * way).sum(axis=1)[:, None, None]
    backward = u[:, 0].sum(axis=1) > u[:, 1].sum(axis=1)
    u[backward] = u[backward, ::-1]
    first, last = u[:, 0].max(axis=1), u[:, 1].min(axis=1)
    for closure, begin, end in zip(closures, first.tolist(), last.tolist(), strict=True):
        low, high = ends.get((closure.at, closure.face), (np.inf, -np.inf))
        ends[closure.at, closure.face] = min(low, begin), max(high, end)
    return ends


def _flange_ends(sheet: Sheet) -> Array:
    """Return the corners of a closure's flange, ``(2, 2, 3) float, inches``, in ``(u, out, up)``: low and high end."""
    section = sheet.section
    strip = section.strip_of("flange")
    fold, _ = strip_fold(section, strip)
    lines = (section.v[strip], section.v[strip + 1])
    cuts = (sheet.low.line, sheet.high.line)
    flat = np.array([[(np.interp(v, cut[:, 1], cut[:, 0]), v, 1.0) for v in lines] for cut in cuts])
    return np.asarray(flat @ fold.T)


@dataclass(frozen=True, slots=True, eq=False)
class _Stretch:
    """The line of closures under one wing of a run.

    Attributes:
        run: The run that they carry.
        border: The side of the face that it covers.
        section: Of the closures: ``out`` down the slope from the web, ``up`` off the deck.
        back: How far the web stands inside the deck's edge, inches.
        ends: Planes that bound it at the left and at the right.
    """

    run: Run
    border: Border
    section: Section
    back: float
    ends: tuple[Sequence[Plane], Sequence[Plane]]


def lay_closures(
    index: int,
    flat: Flat,
    rings: Sequence[Sequence[Border]],
    panels: Sequence[Panel],
    fitted: Mapping[str, Sequence[Fitted]],
    webs: Mapping[str, float],
    rows: int,
    stuff: Stuff,
) -> Iterator[Closure]:
    """Yield the closures on one face, edge by edge, from left to right.

    Args:
        index: Of the face.
        flat: Its plane.
        rings: Its sides.
        panels: Its panels.
        fitted: The pieces of every run, by its name.
        webs: How far inside the deck's edge the webs of the closures under each run stand, inches.
        rows: How many rows of screws a wing gets.
        stuff: What panels are made of; closures are made of the same.
    """
    for ring in rings:
        backs = [webs.get(border.edge.name) for border in ring]
        for k, border in enumerate(ring):
            back = backs[k]
            if back is None or abs(border.along[0]) < 1e-6:
                continue
            pieces = fitted[border.edge.name]
            run = pieces[0].run
            ends = [end_planes(flat, ring, backs, k, step, pieces, index) for step in (-1, 1)]
            if border.along[0] < 0:
                ends.reverse()
            height = hang_of(run, index) - CLEARANCE - (stuff.pan + stuff.thickness)
            reach = WEB_BEHIND + FLANGE_PAST + insets(10.0, rows)[-1] - insets(10.0, rows)[0]
            section = _z(stuff.metal, stuff.thickness, stuff.pan, round(height, 9), round(reach, 9))
            stretch = _Stretch(run, border, section, back, (ends[0], ends[1]))
            yield from _along(stretch, flat, panels, stuff)


@lru_cache(64)
def _z(metal: str, thickness: float, pan: float, height: float, flange: float) -> Section:
    """Return the section of a closure: its web at ``out`` 0, its foot on the pan, its flange down the slope."""
    legs = (
        LegSpec.model_construct(name="foot", width=FOOT, turn=None, direction="deck"),
        LegSpec.model_construct(name="web", width=height, turn=-90.0, direction=None),
        LegSpec.model_construct(name="flange", width=flange, turn=90.0, direction=None),
    )
    section = bend_legs("closure", legs, {"deck": 0.0}, METALS[metal], thickness, TIGHT * thickness)
    web = section.strip_of("web")
    shift = np.array([-section.points[web, 0], pan + 1.5 * thickness - section.points[0, 1]])
    return Section(
        section.profile,
        thickness,
        section.v,
        section.points + shift,
        section.legs,
        section.bends,
        section.nesting,
    )


def _along(stretch: _Stretch, flat: Flat, panels: Sequence[Panel], stuff: Stuff) -> Iterator[Closure]:
    """Yield the closures of a stretch from left to right; between two seams, clear of its ends, they are alike."""
    if not panels:
        return
    border = stretch.border
    along = border.along if border.along[0] > 0 else -border.along
    base = border.normal * (border.deck - stretch.back)
    outlines = [flat.flatten(panel.outline) for panel in panels]
    bounds = np.array([(ring[:, 0].min(), ring[:, 0].max()) for ring in outlines])
    reach = float(bounds[:, 0].min()), float(bounds[:, 1].max())
    feet = base + (bounds[:, :, None] - base[0]) / along[0] * along
    sides = _sides_of_ends(stretch, flat.raised(feet.reshape(-1, 2), 0.0).reshape(-1, 2, 3), along[0])
    owner = np.repeat(np.arange(len(outlines)), [len(ring) for ring in outlines])
    pans = shapely.polygons(shapely.linearrings(np.concatenate(outlines), indices=owner))
    crossed = shapely.contains_xy(pans, feet.mean(axis=1))
    alike: dict[object, tuple[Closure | None, int, list[int]]] = {}
    found: dict[int, Closure | None] = {}
    for number, panel in enumerate(panels):
        between = sides[number] is not None and {"over", "under"} == set(panel.edges)
        if between and not crossed[number]:
            continue
        key = (panel.edges, round(float(bounds[number, 1] - bounds[number, 0]), 7), sides[number])
        if between and key in alike:
            alike[key][2].append(number)
            continue
        found[number] = _on_panel(stretch, flat, panel, reach, stuff)
        if between:
            alike[key] = found[number], number, []
    across = flat.raised(feet[:, 0], 0.0)
    for like, first, others in alike.values():
        if like is not None and others:
            moved = _moved(like, [panels[number] for number in others], across[others] - across[first])
            found |= dict(zip(others, moved, strict=True))
    yield from (closure for _, closure in sorted(found.items()) if closure is not None)


def _sides_of_ends(stretch: _Stretch, feet: Array, slant: float) -> list[tuple[bool, ...] | None]:
    """Return on which side of each end of a stretch each panel stands; None where an end may cut what is on it.

    Args:
        stretch: The line of closures.
        feet: ``(n, 2, 3) float, inches, scene frame``: where it crosses the left and the right bound of each panel.
        slant: How far across the face it goes for each inch along it.
    """
    reach = float(np.abs(stretch.section.points).max()) * 2 / slant
    planes = list(itertools.chain(*stretch.ends))
    off = np.stack([(feet - point) @ normal for point, normal in planes], axis=1)
    clear = ((np.abs(off).min(axis=2) > reach) & (off[:, :, 0] * off[:, :, 1] > 0)).all(axis=1)
    return [
        tuple(one) if is_clear else None
        for one, is_clear in zip((off[:, :, 0] > 0).tolist(), clear.tolist(), strict=True)
    ]


def _moved(closure: Closure, panels: Sequence[Panel], shifts: Array) -> list[Closure]:
    """Return a closure moved onto other panels, by ``(n, 3) float, inches``."""
    placements = np.repeat(closure.placement[None], len(panels), axis=0)
    placements[:, :3, 3] += shifts
    lines = closure.line + shifts[:, None]
    return [
        Closure(
            f"{closure.at}, {panel.name}",
            closure.at,
            panel.name,
            closure.face,
            line,
            closure.sheet,
            placement,
            solid,
        )
        for panel, line, placement, solid in zip(
            panels, lines, placements, thicken_alike(closure.sheet, placements), strict=True
        )
    ]


def _on_panel(
    stretch: _Stretch, flat: Flat, panel: Panel, reach: tuple[float, float], stuff: Stuff
) -> Closure | None:
    """Return the closure of a stretch that stands on one panel; None where the stretch does not cross it.

    Args:
        stretch: The line of closures.
        flat: The face's plane.
        panel: The panel.
        reach: The least and the greatest ``x`` of all panels of the face, inches.
        stuff: What panels are made of.
    """
    border = stretch.border
    along = border.along if border.along[0] > 0 else -border.along
    base = border.normal * (border.deck - stretch.back)
    ring = flat.flatten(panel.outline)
    bounds = float(ring[:, 0].min()), float(ring[:, 0].max())
    beyond = reach[0] < bounds[0] - POINT, reach[1] > bounds[1] + POINT
    spots = []
    for side, (edge, bound, planes) in enumerate(zip(panel.edges, bounds, stretch.ends, strict=True)):
        if edge in ("over", "under") or beyond[side]:
            spots.append(_Spot.at_seam(flat, edge, bound, side, planes, stuff))
        else:
            spots.append(_Spot(side, planes, (), None))
    xs = [spot.x_on(flat, base, along, stuff) for spot in spots]
    middle = base + along * ((min(max(sum(xs) / 2, bounds[0]), bounds[1]) - base[0]) / along[0])
    if xs[1] - xs[0] < LEAST * along[0] or not shapely.Polygon(ring).contains(shapely.Point(middle)):
        return None
    feet = np.array([base + along * ((x - base[0]) / along[0]) for x in xs])
    placement = np.eye(4)
    placement[:3, :3] = np.column_stack([along @ flat.axes[:2], -border.normal @ flat.axes[:2], flat.axes[2]])
    placement[:3, 3] = flat.raised(feet[:1], 0.0)[0]
    low, high = (spot.cut(stretch.section, placement, stuff) for spot in spots)
    if high[:, 0].min() - low[:, 0].max() < LEAST / 4:
        return None
    sheet = Sheet(stretch.section, Cut(low), Cut(high))
    return Closure(
        f"{stretch.run.name}, {panel.name}",
        stretch.run.name,
        panel.name,
        panel.face,
        flat.raised(feet, stuff.pan + stuff.thickness),
        sheet,
        placement,
        thicken(sheet, placement),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Spot:
    """What one end of a closure comes up against.

    Attributes:
        side: 0 for the left end, 1 for the right end.
        end: The planes that bound the whole stretch there: the trim's end, or the miter with the next stretch.
        stem: The plane of the upright leg beside it, if there is one.
        fold: Above the foot of a fold that leans over it: the plane at which it ends there.
    """

    side: int
    end: Sequence[Plane]
    stem: Sequence[Plane]
    fold: Plane | None

    @staticmethod
    def at_seam(flat: Flat, edge: str, bound: float, side: int, end: Sequence[Plane], stuff: Stuff) -> _Spot:
        """Return what the left (0) or the right (1) end comes up against at the edge of its panel."""
        seam, inward = stuff.seam, 1.0 if side == 0 else -1.0

        def upright(off: float) -> Plane:
            return flat.raised(np.array([[bound + inward * (off + CLEARANCE), 0.0]]), 0.0)[0], flat.axes[0]

        if edge == "over":
            return _Spot(side, end, (upright(seam.beyond),), None)
        if edge == "under":
            stem = upright(seam.insets[0] + stuff.thickness)
            return _Spot(side, end, (stem,), upright(seam.reach))
        return _Spot(side, end, (upright(0.0),), None)

    def x_on(self, flat: Flat, base: Array, along: Array, stuff: Stuff) -> float:
        """Return where the end meets a line on the pans, as ``x``."""
        start = flat.raised(base[None], stuff.pan)[0]
        way = along @ flat.axes[:2]
        planes = (*self.end, *self.stem)
        shares = [float(normal @ (point - start) / (normal @ way)) for point, normal in planes]
        return float(base[0] + along[0] * (max(shares) if self.side == 0 else min(shares)))

    def _inner(self, *cuts: Array) -> Array:
        """Return of some cuts the one that leaves least of the closure, strip by strip."""
        inner = np.max(cuts, axis=0) if self.side == 0 else np.min(cuts, axis=0)
        return np.asarray(np.round(inner, 9), dtype=np.float64)

    def cut(self, section: Section, placement: Array, stuff: Stuff) -> Array:
        """Return the cut of one end, ``(k, 2) float, inches``."""
        bound = self._inner(*(plane_cut(section, placement, *plane) for plane in self.end))
        ends = self._inner(*(plane_cut(section, placement, *plane) for plane in self.stem), bound)
        if self.fold is None:
            return path(section, ends)
        fold = plane_cut(section, placement, *self.fold)
        leaning = self._inner(fold, bound)
        web = section.strip_of("web")
        height = stuff.pan + stuff.seam.fold_foot - CLEARANCE - section.points[web, 1]
        upright = ends[web].copy()
        ends[web, 1] = leaning[web, 1]
        ends[web + 1 :] = leaning[web + 1 :]
        v = round(float(section.v[web] + height), 9)
        if height <= POINT:
            ends[web] = leaning[web]
            return path(section, ends)
        share = (v - section.v[web]) / (section.v[web + 1] - section.v[web])
        beside = self._inner(*(one[web, :1] + share * np.diff(one[web]) for one in (fold, bound)))
        inside = [(round(float(upright[0] + share * (upright[1] - upright[0])), 9), v), (float(beside[0]), v)]
        return path(section, ends, {web: inside})
