"""Progress: what one end of a piece looks like before each of its hand-tool steps, and what that step does to it.

The end begins as a straight end of stock. Every part of the finished edge belongs to the cut that passes nearest
to it, so that what comes off, and when, follows from the steps and the finished sheet alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Part
from trimwright.model.sheet.sheet import Tab
from trimwright.model.steps import Step

from ...data.pattern_lines import lines_of
from .formed import SHORTEST

SLIT = 0.004
"""Half the width that a cut takes in a picture, inches: enough to part the metal."""

GRID = 1e-6
"""Lines that are closer than this lie on each other, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class EndState:
    """An end before one step.

    Attributes:
        step: What is done next.
        metal: The sheet as it is then, flat, in ``(u, v)``; folded tabs are not in it.
        folded: Tabs that are folded by then.
        cuts: Lines that the step cuts.
        folds: Lines that it folds.
        marks: Lines that it draws.
        waste: What comes off with it.
    """

    step: Step
    metal: shapely.Polygon
    folded: tuple[Tab, ...]
    cuts: tuple[Array, ...]
    folds: tuple[Array, ...]
    marks: tuple[Array, ...]
    waste: shapely.Geometry


def end_states(part: Part, end: End) -> tuple[EndState, ...]:
    """Return one end of ``part`` before each of its steps."""
    tabs, finished = end.cut.tabs, part.sheet.pattern
    owned = _owned(end.cut.edge, end.steps)
    metal = _stock(part, end)
    folded: tuple[Tab, ...] = ()
    made: list[Array] = []
    result: list[EndState] = []
    for number, step in enumerate(end.steps):
        cuts = tuple(owned[number])
        folds = tuple(tab.hinge for tab in tabs if step.verb == "fold" and _folds(step, tab, tabs))
        after = metal
        if step.verb == "cut":
            made += [*cuts, *_outside(step, finished)]
            after = _parted(metal, made, finished)
        marks = lines_of(step) if step.verb == "mark" else ()
        if step.verb == "cut":
            cuts = _joined([*cuts, *_outside(step, finished)])
        flat = _without(metal, folded)
        if result and len(folded) == len(result[-1].folded) and flat.equals(result[-1].metal):
            flat = result[-1].metal
        waste = metal.difference(after.buffer(2 * SLIT, join_style="mitre"))
        result.append(EndState(step, flat, folded, cuts, folds, marks, waste))
        metal = after
        folded += tuple(tab for tab in tabs if any(tab.hinge is hinge for hinge in folds))
    return tuple(result)


def _without(metal: shapely.Polygon, folded: Sequence[Tab]) -> shapely.Polygon:
    """Return the flat sheet less its folded tabs."""
    return _largest(metal.difference(shapely.union_all([_flap(tab) for tab in folded]))) if folded else metal


def _stock(part: Part, end: End) -> shapely.Polygon:
    """Return the finished sheet with one end as it comes: straight across."""
    sheet = part.sheet
    ends = end.reach
    return _largest(
        shapely.union(shapely.Polygon(sheet.outline), shapely.box(ends[0], 0, ends[1], sheet.section.width))
    )


def _owned(edge: Array, steps: Sequence[Step]) -> list[list[Array]]:
    """Return, for every step, the parts of an end's edge that it cuts, joined where they go on."""
    lines = [
        (k, shapely.LineString(line))
        for k, step in enumerate(steps)
        if step.verb == "cut"
        for line in lines_of(step)
    ]
    parts: list[list[Array]] = [[] for _ in steps]
    if not lines:
        return parts
    for first, last in pairwise(edge):
        if np.linalg.norm(last - first) > 1e-9:
            middle = shapely.Point((first + last) / 2)
            owner = min((round(line.distance(middle), 6), k) for k, line in lines)[1]
            parts[owner].append(np.stack([first, last]))
    return [list(_joined(lines)) for lines in parts]


def _joined(lines: Sequence[Array]) -> tuple[Array, ...]:
    """Return lines joined where they go on or run over each other."""
    if not lines:
        return ()
    noded = shapely.union_all([shapely.LineString(line) for line in lines], grid_size=GRID)
    merged = shapely.simplify(shapely.line_merge(noded), 2 * GRID)
    return tuple(
        shapely.get_coordinates(line) for line in shapely.get_parts(merged) if line.length > SHORTEST
    )


def _outside(step: Step, finished: shapely.Polygon) -> tuple[Array, ...]:
    """Return the parts of a cut's lines that do not run through the finished piece."""
    core = finished.buffer(-2 * SLIT)
    return tuple(
        shapely.get_coordinates(part)
        for line in lines_of(step)
        for part in shapely.get_parts(shapely.LineString(line).difference(core))
        if part.length > 0.01
    )


def _parted(metal: shapely.Polygon, cuts: Sequence[Array], finished: shapely.Polygon) -> shapely.Polygon:
    """Return what hangs together with the finished piece once ``cuts`` are made."""
    slits = shapely.union_all([shapely.LineString(cut) for cut in cuts]).buffer(SLIT, cap_style="square")
    left = shapely.get_parts(metal.difference(slits.difference(finished)))
    kept = [part for part in left if part.intersection(finished).area > 1e-3]
    return _largest(shapely.union_all([*kept, finished]))


def _folds(step: Step, tab: Tab, tabs: Sequence[Tab]) -> bool:
    """Return whether a fold step folds ``tab``: it is the only one, or lies on the step's line."""
    middle = shapely.Point(tab.hinge.mean(axis=0))
    return len(tabs) == 1 or any(shapely.LineString(line).distance(middle) < 0.1 for line in lines_of(step))


def _flap(tab: Tab) -> shapely.Polygon:
    return shapely.Polygon(np.concatenate([tab.hinge, tab.flap]))


def _largest(shape: shapely.Geometry) -> shapely.Polygon:
    return max(shapely.get_parts(shape), key=lambda part: part.area)
