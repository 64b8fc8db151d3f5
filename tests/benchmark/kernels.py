"""A roof's metal made by general-purpose kernels, the way they are used.

A straight extrusion of the section, what the cuts take off it where an end is not square, and the tabs put on. They
are spared the holes, and setting what they made in its place.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import manifold3d
import numpy as np
from build123d import Face, Polyline, Solid, Vector, Wire
from shapely import LineString
from shapely.geometry.polygon import orient

from trimwright.model.layout import Layout
from trimwright.model.sheet.fold import facets, strip_fold
from trimwright.model.sheet.sheet import Sheet
from trimwright.model.sheet.solid import Solid as Ours

SPARE = 12.0
"""How far an extrusion reaches past an end that is still to be cut, inches."""


class Made(Protocol):
    """A piece of trim, a panel, a closure or a cleat."""

    sheet: Sheet
    solid: Ours


def made_of(layout: Layout) -> list[Made]:
    """Return all that is made of sheet metal."""
    return [*layout.parts, *layout.panels, *layout.closures, *layout.cleats]


@dataclass(frozen=True)
class Plate:
    """A flat plate: ``ring`` in ``(u, v)``, where ``fold`` carries it, half its thickness to both sides of that."""

    ring: np.ndarray
    fold: np.ndarray
    normal: np.ndarray
    half: float


@dataclass(frozen=True)
class Recipe:
    """How a general-purpose kernel makes a folded sheet.

    Attributes:
        band: Corners of its section's metal, ``(n, 2) float, inches``, counter-clockwise.
        start: Where the extrusion begins, inches.
        end: Where it ends.
        away: What is cut off it.
        tabs: What is put on.
    """

    band: np.ndarray
    start: float
    end: float
    away: list[Plate]
    tabs: list[Plate]


def recipe(sheet: Sheet) -> Recipe:
    """Return how a sheet is made: an end that is square is where the extrusion ends."""
    section, half = sheet.section, sheet.section.thickness / 2
    band = LineString(section.points).buffer(half, cap_style="flat", join_style="mitre", mitre_limit=20)
    away, limits = [], []
    for cut, sign in ((sheet.low.line, -1.0), (sheet.high.line, 1.0)):
        if np.ptp(cut[:, 0]) == 0.0:
            limits.append(float(cut[0, 0]))
            continue
        limits.append(float((cut[:, 0] * sign).max() * sign + sign * SPARE))
        for strip in range(section.strips):
            first, last = section.v[strip : strip + 2]
            line = cut[(cut[:, 1] >= first) & (cut[:, 1] <= last)]
            far = limits[-1] + sign * SPARE
            ring = np.concatenate([line, [[far, last], [far, first]]])
            away.append(Plate(ring, *strip_fold(section, strip), half * 1.001))
    tabs = [Plate(facet.ring, facet.fold, facet.normal, half) for facet in facets(sheet) if facet.tab]
    return Recipe(np.array(orient(band).exterior.coords)[:-1], limits[0], limits[1], away, tabs)


def with_manifold(sheets: Sequence[Sheet]) -> list[manifold3d.Manifold]:
    """Build sheets with manifold3d."""

    def plate(one: Plate) -> manifold3d.Manifold:
        shape = manifold3d.CrossSection([one.ring], manifold3d.FillRule.NonZero)
        place = np.column_stack([one.fold[:, :2], one.normal, one.fold[:, 2] - one.normal * one.half])
        return manifold3d.Manifold.extrude(shape, 2 * one.half).transform(place)

    result = []
    for sheet in sheets:
        way = recipe(sheet)
        along = np.array([[0.0, 0, 1, way.start], [1, 0, 0, 0], [0, 1, 0, 0]])
        band = manifold3d.CrossSection([way.band])
        solid = manifold3d.Manifold.extrude(band, way.end - way.start).transform(along)
        if way.away:
            solid -= manifold3d.Manifold.batch_boolean(
                [plate(one) for one in way.away], manifold3d.OpType.Add
            )
        if way.tabs:
            tabs = [plate(one) for one in way.tabs]
            solid = manifold3d.Manifold.batch_boolean([solid, *tabs], manifold3d.OpType.Add)
        solid.num_tri()  # booleans are put off until something is asked
        result.append(solid)
    return result


def with_opencascade(sheets: Sequence[Sheet]) -> list[Any]:
    """Build sheets with OpenCascade."""

    def extruded(corners: np.ndarray, way: np.ndarray) -> Solid:
        wire = Wire(Polyline([Vector(*corner) for corner in corners.tolist()], close=True).edges())
        return Solid.extrude(Face(wire), Vector(*way.tolist()))

    def plate(one: Plate) -> Solid:
        middle = one.ring @ one.fold[:, :2].T + one.fold[:, 2]
        return extruded(middle - one.normal * one.half, 2 * one.half * one.normal)

    result = []
    for sheet in sheets:
        way = recipe(sheet)
        start = np.column_stack([np.full(len(way.band), way.start), way.band])
        solid = extruded(start, np.array([way.end - way.start, 0.0, 0.0]))
        if way.away:
            solid = solid.cut(*(plate(one) for one in way.away))
        if way.tabs:
            solid = solid.fuse(*(plate(one) for one in way.tabs))
        result.append(solid)
    return result


def once(sheets: Sequence[Sheet]) -> list[Sheet]:
    """Return sheets without those that are like one before, only elsewhere."""
    return list({id(sheet): sheet for sheet in sheets}.values())
