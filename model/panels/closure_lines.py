"""Lines of closures: what stands between the seams under each wing of a run, from one end of it to the other.

Source: common practice, no source.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np
import shapely

from ..fitting import Fitted
from ..geometry.arrays import Array
from ..scene.schema import Scene
from ..screw_lines import insets
from ..sheet.solid import Solid
from ..tolerances import CLEARANCE, POINT
from .caps import FLANGE_PAST, WEB_BEHIND, hang_of
from .catalogue import closure_called
from .closure_cuts import ClosureEnd
from .closure_ends import end_planes, is_valley, next_with_trim
from .closure_forms import closure_section
from .closure_stretch import Stretch, made
from .closures import Closure
from .flat import Border, Flat
from .record import Panel
from .stuff import Stuff
from .valley_closures import on_valley


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
            stretch = Stretch(run, border, spec, section, height, reach, back, (ends[0], ends[1]))
            yield from _along(stretch, flat, panels, stuff)
            for step in (-1, 1):
                valley = ring[next_with_trim(ring, k, step)]
                side = int((step > 0) == (border.along[0] > 0))
                if panels and is_valley(valley) and valley.edge.name in fitted:
                    head = fitted[valley.edge.name][-1]
                    yield from on_valley(stretch, side, flat, valley, head, panels, stuff)


def _along(stretch: Stretch, flat: Flat, panels: Sequence[Panel], stuff: Stuff) -> Iterator[Closure]:
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


def _sides_of_ends(stretch: Stretch, feet: Array, slant: float) -> list[tuple[bool, ...] | None]:
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
    stretch: Stretch, flat: Flat, panel: Panel, reach: tuple[float, float], stuff: Stuff
) -> Closure | None:
    """Return the closure of a stretch that stands on one panel; None where the stretch does not cross it.

    Args:
        stretch: The line of closures.
        flat: The face's plane.
        panel: The panel.
        reach: The least and the greatest ``x`` of all panels of the face, inches.
        stuff: What panels are made of.
    """
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
    if xs[1] - xs[0] < stretch.least * along[0]:
        return None
    feet = stretch.feet(xs)
    if stretch.run.name not in panel.borders and _length_on(ring, feet) < stretch.least / 4:
        return None
    placement = stretch.placement(flat, feet[0])
    formed = made(stretch, spots, placement, stuff)
    if formed is None:
        return None
    return Closure(
        f"{stretch.run.name}, {panel.name}",
        stretch.run.name,
        panel.name,
        None,
        panel.face,
        stretch.run.spec.closure,
        stretch.foam,
        stretch.spec.open_share,
        flat.raised(feet, stuff.pan + stuff.thickness),
        formed[0],
        placement,
        formed[1],
    )


def _length_on(ring: Array, feet: Array) -> float:
    """Return how much of a web's foot lies on a panel, inches: at a hip's foot a web may be all past a sliver's end."""
    return float(shapely.length(shapely.intersection(shapely.LineString(feet), shapely.Polygon(ring))))
