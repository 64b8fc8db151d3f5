"""Closures on a valley's pan: at its head the cap goes on past the panels, over the wings of the pan, to their rib.

From the edge of the panels to the rib one more closure stands on the wing, in line with those on the panels and higher
by as much as the panels lie over the pan. Its end follows the rib up, and over that it meets the closure that comes
from the other side, plumb over the middle of the valley.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from ..fitting import Fitted
from ..geometry.arrays import Array
from ..geometry.vectors import level_square
from ..profiles.section import Section
from ..sheet.cut import path, plane_cut
from ..sheet.fold import strip_fold
from ..tolerances import CLEARANCE, TAPE
from .caps import FOOT, wing_of
from .closure_cuts import ClosureEnd
from .closure_ends import Plane
from .closure_forms import closure_section
from .closure_stretch import Stretch, made
from .closures import Closure
from .flat import Border, Flat
from .record import Panel
from .stuff import Stuff


@dataclass(frozen=True, slots=True, eq=False)
class _RibEnd(ClosureEnd):
    """The end at a valley's rib: ``stem`` is the rib's flank, ``end`` the middle of the valley over it."""

    def cut(self, section: Section, placement: Array, stuff: Stuff) -> Array:
        """Return the cut, ``(k, 2) float, inches``: in the web it turns from the flank to the middle."""
        whole = ClosureEnd.cut(self, section, placement, stuff)
        if not self.stem:
            return whole
        cuts = [plane_cut(section, placement, *plane) for plane in (*self.stem, *self.end)]
        web = section.strip_of("web")
        before, after = (cuts[0] - cuts[len(self.stem)])[web]
        if before * after >= 0:
            return whole
        share = before / (before - after)
        u = self._inner(*(cut[web, 0] + share * (cut[web, 1] - cut[web, 0]) for cut in cuts))
        v = section.v[web] + share * (section.v[web + 1] - section.v[web])
        return path(section, self._inner(*cuts), {web: [(float(u), round(float(v), 9))]})


def on_valley(
    stretch: Stretch,
    side: int,
    flat: Flat,
    valley: Border,
    head: Fitted,
    panels: Sequence[Panel],
    stuff: Stuff,
) -> Iterator[Closure]:
    """Yield the closure on the pan of the valley that a stretch ends at; none where there is no room for one.

    Args:
        stretch: The line of closures.
        side: At which end of it the valley is: 0 at the left, 1 at the right.
        flat: The face's plane.
        valley: Its side at the valley.
        head: The highest piece of the valley's pan.
        panels: The face's panels, one or more.
        stuff: What panels are made of.
    """
    face = panels[0].face
    at_rib = (_middle(flat, valley, stretch, stuff), *stretch.ends[side][1:])
    end = _RibEnd(side, at_rib, _flank(head, face), None)
    beside = ClosureEnd(1 - side, (_beside_panels(flat, valley, head),), (), None)
    spots = [beside, end] if side else [end, beside]
    on_pan = _on_pan(stretch, flat, head, face, spots, stuff)
    ends = stretch.feet([spot.x_on(flat, stretch.base, stretch.along, on_pan) for spot in spots])
    pans = [shapely.Polygon(flat.flatten(panel.outline)) for panel in panels]
    on_panels = float(shapely.length(shapely.intersection(shapely.LineString(ends), pans)).sum())
    if (ends[1] - ends[0]) @ stretch.along < stretch.least or on_panels > TAPE:
        return
    placement = stretch.placement(flat, ends[0])
    formed = made(_higher(stretch, on_pan, stuff), spots, placement, on_pan)
    if formed is not None:
        nearest = int(shapely.distance(pans, shapely.Point(ends[1 - side])).argmin())
        yield Closure(
            f"{stretch.run.name}, {head.piece.mark}",
            stretch.run.name,
            panels[nearest].name,
            head.piece.mark,
            face,
            stretch.run.spec.closure,
            stretch.foam,
            stretch.spec.open_share,
            flat.raised(ends, on_pan.pan + on_pan.thickness),
            formed[0],
            placement,
            formed[1],
        )


def _beside_panels(flat: Flat, valley: Border, head: Fitted) -> Plane:
    """Return the plane before the folded edge of the panels, square to the deck."""
    room = head.run.section.thickness + CLEARANCE
    return flat.raised((valley.normal * (valley.pan + room))[None], 0.0)[0], valley.normal @ flat.axes[:2]


def _middle(flat: Flat, valley: Border, stretch: Stretch, stuff: Stuff) -> Plane:
    """Return the plumb plane over the middle of a valley, short of it by half the room between two closures."""
    beside, along = valley.normal @ flat.axes[:2], valley.along @ flat.axes[:2]
    away = level_square(along, beside)
    bevel = stuff.thickness / 2 * abs(float(stretch.border.normal @ flat.axes[:2] @ away))
    return flat.raised(valley.start[None], 0.0)[0] - away * (CLEARANCE / 2 + bevel), away


def _strip_plane(one: Fitted, strip: int) -> Plane:
    """Return the plane of the middle of the metal of one strip of a piece."""
    fold, normal = strip_fold(one.run.section, strip)
    middle = one.run.section.v[strip : strip + 2].mean()
    point = one.placement[:3, :3] @ (fold @ [0.0, middle, 1.0]) + one.placement[:3, 3]
    return point, one.placement[:3, :3] @ normal


def _on_pan(
    stretch: Stretch, flat: Flat, head: Fitted, face: int, spots: Sequence[ClosureEnd], stuff: Stuff
) -> Stuff:
    """Return what a closure stands on: like panels, but as high as the pan lies at most under its foot."""
    on_deck = replace(stuff, pan=-stuff.thickness)
    feet = stretch.feet([spot.x_on(flat, stretch.base, stretch.along, on_deck) for spot in spots])
    under = flat.raised(np.concatenate([feet, feet - FOOT * stretch.border.normal]), 0.0)
    point, normal = _strip_plane(head, wing_of(head.run, face)[0])
    lean = float(normal @ flat.axes[2])
    top = float(((point - under) @ normal / lean).max()) + head.run.section.thickness / 2 / abs(lean)
    return replace(stuff, pan=top - stuff.thickness)


def _higher(stretch: Stretch, on_pan: Stuff, stuff: Stuff) -> Stretch:
    """Return a stretch of closures as high as they are on a pan."""
    height = stretch.height + stuff.pan - on_pan.pan
    section = closure_section(stretch.spec, on_pan, height, stretch.flange)
    return replace(stretch, section=section, height=height)


def _flank(head: Fitted, face: int) -> tuple[Plane, ...]:
    """Return the plane before the side of a pan's rib toward one wing; none where the pan has no rib."""
    section = head.run.section
    wing, free = wing_of(head.run, face)
    is_left, middle = free == wing, section.width / 2
    lines = section.v if is_left else section.width - section.v[::-1]
    first = wing + 1 if is_left else section.strips - wing
    between = [k for k in range(first, section.strips) if lines[k + 1] <= middle]
    if not between:
        return ()
    widest = max(between, key=lambda k: float(lines[k + 1] - lines[k]))
    strip = widest if is_left else section.strips - 1 - widest
    point, normal = _strip_plane(head, strip)
    toward = _strip_plane(head, wing)[0] - point
    return ((point + normal * np.sign(normal @ toward) * (section.thickness / 2 + CLEARANCE), normal),)
