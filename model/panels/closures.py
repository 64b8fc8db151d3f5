"""Closures: strips between the seams that carry ridge, hip and high-side trim, and keep weather out under it.

A closure is a Z of sheet metal: its foot on the pan, its web as high as the trim over it, its flange under the row of
screws; or a strip of foam as high. It is cut square to the eave round the seams beside it, its web stepped where the
fold along a seam's top leans over. It reaches into the turned-down end of the trim, and is mitered where two caps meet.
Where its two ends would meet in its foot or its flange, that is made narrower.

Source: common practice, no source.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from ..fitting import Fitted
from ..geometry.arrays import Array
from ..profiles.section import Section
from ..runs import Run
from ..scene.panels import ClosureSpec
from ..scene.schema import Scene
from ..screw_lines import insets
from ..sheet.fold import strip_fold
from ..sheet.sheet import Cut, Sheet
from ..sheet.solid import Solid, thicken
from ..tolerances import CLEARANCE, POINT, TAPE
from .caps import FLANGE_PAST, WEB_BEHIND, hang_of
from .catalogue import closure_called
from .closure_cuts import ClosureEnd
from .closure_ends import Plane, end_planes
from .closure_forms import LEAST_EDGE, closure_section, narrowed, shortest, strip_solid
from .flat import Border, Flat
from .record import Panel
from .stuff import Stuff

LEAST = 1 / 2
"""A closure shorter than this is left out, inches: sealant fills the place."""

LEAST_FOAM = 1 / 4
"""The same of a strip of foam, which is cut with a knife."""


@dataclass(frozen=True, slots=True, eq=False)
class Closure:
    """One closure.

    Attributes:
        name: ``ridge, front 3``: the run that it carries, and the panel that it stands on.
        at: Name of the run.
        panel: Name of the panel.
        face: Index of the face.
        kind: What it is called.
        foam: It is a strip of foam, which holds no screw.
        open_share: How much of its web lets air through, a share of 1.
        line: ``(2, 3) float, inches, scene frame``: the foot of its web, from left to right.
        sheet: Its flat pattern and bends, back up: the side of the web that is seen is painted; ``u`` runs to
            the right. A strip of foam is one upright leg as thick as the foam, as long as its longer side.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet, or the block of foam, in the scene frame.
    """

    name: str
    at: str
    panel: str
    face: int
    kind: str
    foam: bool
    open_share: float
    line: Array
    sheet: Sheet
    placement: Array
    solid: Solid

    @property
    def length(self) -> float:
        """Length of its blank, inches."""
        return self.sheet.length

    @property
    def free_area(self) -> float:
        """Area of the holes in its web, square inches."""
        if not self.open_share:
            return 0.0
        section = self.sheet.section
        web = section.strip_of("web")
        left, right = self.sheet.extent
        upright = shapely.box(left, section.v[web], right, section.v[web + 1])
        return self.open_share * float(shapely.area(shapely.intersection(self.sheet.pattern, upright)))


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
    widths: dict[str, float] = {}
    for closure in closures:
        widths[closure.at] = max(widths.get(closure.at, 0.0), closure.sheet.section.width)
    start, way = np.array([lines[closure.at] for closure in closures]).transpose(1, 0, 2)
    place = np.array([closure.placement for closure in closures])
    corners = np.array([flanges[id(closure.sheet)] for closure in closures])
    u = np.einsum("ni,nij,nekj->nek", way, place[:, :3, :3], corners)
    u += ((place[:, :3, 3] - start) * way).sum(axis=1)[:, None, None]
    backward = u[:, 0].sum(axis=1) > u[:, 1].sum(axis=1)
    u[backward] = u[backward, ::-1]
    first, last = u[:, 0].max(axis=1), u[:, 1].min(axis=1)
    for closure, begin, end in zip(closures, first.tolist(), last.tolist(), strict=True):
        if closure.sheet.section.width < widths[closure.at] - TAPE:
            continue  # no row of screws stands on a narrow flange
        low, high = ends.get((closure.at, closure.face), (np.inf, -np.inf))
        ends[closure.at, closure.face] = min(low, begin), max(high, end)
    return ends


def _flange_ends(sheet: Sheet) -> Array:
    """Return the corners of what holds a cap's screws, ``(2, 2, 3) float, inches``, in ``(u, out, up)``.

    That is the flange of a Z, and a strip of foam as a whole: its low and its high end.
    """
    section = sheet.section
    strip = section.legs[-1].strip
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
        spec: What they are.
        section: Of the closures: ``out`` down the slope from the web, ``up`` off the deck.
        height: From the pan's top to what they carry, inches.
        flange: Width of the flange of a Z, where nothing narrows it, inches.
        back: How far the web stands inside the deck's edge, inches.
        ends: Planes that bound it at the left and at the right.
    """

    run: Run
    border: Border
    spec: ClosureSpec
    section: Section
    height: float
    flange: float
    back: float
    ends: tuple[Sequence[Plane], Sequence[Plane]]

    @property
    def along(self) -> Array:
        """``(2,)`` unit vector along it on the face, to the right."""
        return self.border.along if self.border.along[0] > 0 else -self.border.along

    @property
    def base(self) -> Array:
        """``(2,) float, inches``: a point on the face under its webs."""
        return self.border.normal * (self.border.deck - self.back)


def lay_closures(
    index: int,
    flat: Flat,
    rings: Sequence[Sequence[Border]],
    panels: Sequence[Panel],
    fitted: Mapping[str, Sequence[Fitted]],
    webs: Mapping[str, float],
    rows: int,
    stuff: Stuff,
    scene: Scene,
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
        stuff: What panels are made of; a Z is made of the same.
        scene: Its own kinds of closure.

    Raises:
        SceneError: a run asks for closures that there are not.
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
            spec = closure_called(run.spec.closure, scene.closure, ("trim", run.trim, "closure"))
            section = closure_section(spec, stuff, height, reach)
            stretch = _Stretch(run, border, spec, section, height, reach, back, (ends[0], ends[1]))
            yield from _along(stretch, flat, panels, stuff)


def _along(stretch: _Stretch, flat: Flat, panels: Sequence[Panel], stuff: Stuff) -> Iterator[Closure]:
    """Yield the closures of a stretch from left to right; between two seams, clear of its ends, they are alike."""
    if not panels:
        return
    along, base = stretch.along, stretch.base
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
    solid = closure.solid
    moved = []
    for panel, shift in zip(panels, shifts, strict=True):
        placement = closure.placement.copy()
        placement[:3, 3] += shift
        moved.append(
            replace(
                closure,
                name=f"{closure.at}, {panel.name}",
                panel=panel.name,
                line=closure.line + shift,
                placement=placement,
                solid=Solid(solid.vertices + shift, solid.faces, solid.side),
            )
        )
    return moved


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
    along, base = stretch.along, stretch.base
    ring = flat.flatten(panel.outline)
    bounds = float(ring[:, 0].min()), float(ring[:, 0].max())
    beyond = reach[0] < bounds[0] - POINT, reach[1] > bounds[1] + POINT
    spots = []
    for side, (edge, bound, planes) in enumerate(zip(panel.edges, bounds, stretch.ends, strict=True)):
        if edge in ("over", "under") or beyond[side]:
            spots.append(ClosureEnd.at_seam(flat, edge, bound, side, planes, stuff))
        else:
            spots.append(ClosureEnd(side, planes, (), None))
    xs = [spot.x_on(flat, base, along, stuff) for spot in spots]
    least = LEAST_FOAM if stretch.spec.form == "strip" else LEAST
    if xs[1] - xs[0] < least * along[0]:
        return None
    feet = np.array([base + along * ((x - base[0]) / along[0]) for x in xs])
    if stretch.run.name not in panel.borders and _length_on(ring, feet) < least / 4:
        return None
    placement = np.eye(4)
    placement[:3, :3] = np.column_stack([along @ flat.axes[:2], -border.normal @ flat.axes[:2], flat.axes[2]])
    placement[:3, 3] = flat.raised(feet[:1], 0.0)[0]
    made = _made(stretch, spots, placement, stuff)
    if made is None:
        return None
    return Closure(
        f"{stretch.run.name}, {panel.name}",
        stretch.run.name,
        panel.name,
        panel.face,
        stretch.run.spec.closure,
        stretch.spec.form == "strip",
        stretch.spec.open_share,
        flat.raised(feet, stuff.pan + stuff.thickness),
        made[0],
        placement,
        made[1],
    )


def _length_on(ring: Array, feet: Array) -> float:
    """Return how much of a web's foot lies on a panel, inches: at a hip's foot a web may be all past a sliver's end."""
    return float(shapely.length(shapely.intersection(shapely.LineString(feet), shapely.Polygon(ring))))


def _made(
    stretch: _Stretch, spots: Sequence[ClosureEnd], placement: Array, stuff: Stuff
) -> tuple[Sheet, Solid] | None:
    """Return a closure between two ends, flat and in its place; None where there is no room for one."""
    section = stretch.section
    if stretch.spec.form == "strip":
        return _strip(section, spots, placement, stuff)
    low, high = (spot.cut(section, placement, stuff) for spot in spots)
    if shortest(low, high) < LEAST / 4:
        narrow = narrowed(section, stuff, stretch.height, stretch.flange, low, high)
        if narrow is None:
            return None
        low, high = (spot.cut(narrow, placement, stuff) for spot in spots)
        section = narrow
    sheet = Sheet(section, Cut(low), Cut(high))
    return sheet, thicken(sheet, placement)


def _strip(
    section: Section, spots: Sequence[ClosureEnd], placement: Array, stuff: Stuff
) -> tuple[Sheet, Solid] | None:
    """Return a strip of foam between two ends, less deep where these meet in it; None where there is no room."""

    def cut(off: float) -> tuple[Array, Array]:
        moved = replace(section, points=section.points + np.array([off, 0.0]))
        low, high = (spot.cut(moved, placement, stuff) for spot in spots)
        return low, high

    half = section.thickness / 2
    offs = [-half, half]
    lengths = [shortest(*cut(off)) for off in offs]
    near, far = int(lengths[1] < lengths[0]), int(lengths[1] >= lengths[0])
    if lengths[near] < LEAST_EDGE:
        if lengths[far] <= LEAST_EDGE:
            return None
        share = (lengths[far] - LEAST_EDGE) / (lengths[far] - lengths[near])
        offs[near] = offs[far] + (offs[near] - offs[far]) * share
    if offs[1] - offs[0] < LEAST_FOAM:
        return None
    middle = np.array([sum(offs) / 2, 0.0])
    cuts = [cut(off) for off in offs]
    section = replace(section, points=section.points + middle, thickness=offs[1] - offs[0])
    low, high = (pick(cuts[0][k], cuts[1][k]) for k, pick in enumerate((np.minimum, np.maximum)))
    return Sheet(section, Cut(low), Cut(high)), strip_solid(section, cuts, placement)
