"""How closures are formed: a Z of sheet metal, plain or perforated, or an upright strip of foam."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np
import shapely

from ..geometry.arrays import Array
from ..metals import METALS
from ..profiles.section import Leg, Section, bend_legs
from ..scene.panels import ClosureSpec
from ..scene.trim import LegSpec
from ..sheet.solid import Solid
from .caps import FOOT, WEB_BEHIND
from .seam import TIGHT
from .stuff import Stuff

LEAST_LEG = 1 / 4
"""A foot or a flange narrower than this, inches, cannot be folded by hand."""

SLACK = 1 / 32
"""How much lower a strip of foam is than a Z, inches: a cap's laps are pressed into it."""

HAIR = 1e-4
"""Inches; no tape shows it."""

LEAST_EDGE = 1 / 8
"""The outer edge of a foot or a flange is at least so long, inches."""


def closure_section(kind: ClosureSpec, stuff: Stuff, height: float, flange: float) -> Section:
    """Return the section of closures of a kind: ``out`` down the slope from the web, ``up`` off the deck.

    Args:
        kind: What they are.
        stuff: What panels are made of; a Z is made of the same.
        height: From the pan's top to what they carry, inches.
        flange: Width of the flange of a Z, inches.
    """
    if kind.form == "strip":
        return _strip(kind.depth, round(stuff.pan + stuff.thickness, 9), round(height - SLACK, 9))
    return _z(stuff.metal, stuff.thickness, stuff.pan, round(height, 9), FOOT, round(flange, 9))


@lru_cache(64)
def _strip(depth: float, foot: float, height: float) -> Section:
    """Return the section of a strip of foam: one upright leg, as thick as the foam, in the middle under the screws."""
    points = np.array([(WEB_BEHIND, foot), (WEB_BEHIND, foot + height)])
    return Section(
        "closure",
        depth,
        np.array([0.0, height]),
        points,
        (Leg("web", 0, relieved=False, fastened=False),),
        (),
        np.zeros(2),
    )


@lru_cache(256)
def _z(metal: str, thickness: float, pan: float, height: float, foot: float, flange: float) -> Section:
    """Return the section of a Z: its web at ``out`` 0, its foot on the pan, its flange, if any, down the slope."""
    legs = (
        LegSpec.model_construct(name="foot", width=foot, turn=None, direction="deck"),
        LegSpec.model_construct(name="web", width=height, turn=-90.0, direction=None),
        *(
            [LegSpec.model_construct(name="flange", width=flange, turn=90.0, direction=None)]
            if flange
            else []
        ),
    )
    section = bend_legs("closure", legs, {"deck": 0.0}, METALS[metal], thickness, TIGHT * thickness)
    web = section.strip_of("web")
    shift = np.array([-section.points[web, 0], pan + 1.5 * thickness - section.points[0, 1]])
    return replace(section, points=section.points + shift)


def shortest(low: Array, high: Array) -> float:
    """Return how long a closure between two cuts, ``(k, 2) float, inches``, is where it is shortest, inches."""
    return float(_lengths(low, high, np.sort(np.concatenate([low[:, 1], high[:, 1]]))).min())


def narrowed(
    section: Section, stuff: Stuff, height: float, flange: float, low: Array, high: Array
) -> Section | None:
    """Return a Z whose foot and flange end before its two cuts meet in them; None where there is no room for one.

    Where there is none for a flange it has none: the caps' other closures carry it there.

    Args:
        section: The whole Z.
        stuff: What it is made of.
        height: Of its web, inches.
        flange: Width of the whole Z's flange, inches.
        low: The cut of its left end, ``(k, 2) float, inches``.
        high: The same of its right end.
    """
    if section.leg("flange") is None:
        return None
    web = section.strip_of("web")
    upright = section.v[[web, web + 1]]
    if (
        shortest(*(np.concatenate([_on(cut, upright), _within(cut, *upright)]) for cut in (low, high)))
        < LEAST_EDGE
    ):
        return None
    foot = FOOT - _lost(low, high, float(section.v[1]), 0.0)
    wide = flange - _lost(low, high, float(section.v[section.strip_of("flange")]), section.width)
    if foot < LEAST_LEG:
        return None
    kept = round(wide, 9) if wide >= LEAST_LEG else 0.0
    return _z(stuff.metal, stuff.thickness, stuff.pan, round(height, 9), round(foot, 9), kept)


def _lengths(low: Array, high: Array, v: Array) -> Array:
    first, last = (np.interp(v, cut[:, 1], cut[:, 0]) for cut in (low, high))
    return np.asarray(last - first)


def _on(cut: Array, v: Array) -> Array:
    return np.stack([np.interp(v, cut[:, 1], cut[:, 0]), v], axis=1)


def _within(cut: Array, first: float, last: float) -> Array:
    return np.asarray(cut[(cut[:, 1] > first) & (cut[:, 1] < last)])


def _lost(low: Array, high: Array, bend: float, edge: float) -> float:
    """Return how much of a leg, from its bend to its edge, lies beyond where its two cuts leave it an outer edge."""
    at_bend, at_edge = _lengths(low, high, np.array([bend, edge])).tolist()
    if at_edge >= LEAST_EDGE:
        return 0.0
    kept = (at_bend - LEAST_EDGE) / (at_bend - at_edge) if at_bend > LEAST_EDGE else 0.0
    return abs(edge - bend) * (1 - float(kept))


def _apart(cut: Array) -> Array:
    """Return a cut's corners, those that coincide set a hair apart: its other face may have a step there."""
    same = np.concatenate([[False], (np.diff(cut, axis=0) == 0).all(axis=1)])
    return np.asarray(cut + np.stack([np.zeros(len(cut)), same * HAIR], axis=1))


def strip_solid(section: Section, cuts: Sequence[tuple[Array, Array]], placement: Array) -> Solid:
    """Return a strip of foam in its place, each end cut on the skew where what it meets runs so.

    Args:
        section: Of the strip.
        cuts: Where its two ends are cut, ``(k, 2) float, inches`` each: on its face up the slope, and on that down it.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
    """
    rings = [np.concatenate([_apart(low), _apart(high)[::-1]]) for low, high in cuts]
    outs = section.points[0, 0] + np.array([-0.5, 0.5]) * section.thickness
    local = np.concatenate(
        [
            np.column_stack(
                [ring[:, 0], np.full(len(ring), out), section.points[0, 1] + ring[:, 1], np.ones(len(ring))]
            )
            for ring, out in zip(rings, outs, strict=True)
        ]
    )
    where = {tuple(corner): i for i, corner in enumerate(rings[0].tolist())}
    cells = shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.Polygon(rings[0])))
    corners = shapely.get_coordinates(cells).reshape(-1, 4, 2)[:, :3]
    top = np.array([[where[tuple(corner)] for corner in cell] for cell in corners.tolist()], dtype=np.int64)
    a, b, c = (rings[0][top[:, k]] for k in range(3))
    turned = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0] < 0
    top[turned] = top[turned][:, ::-1]
    n = len(rings[0])
    first = np.arange(n) if shapely.is_ccw(shapely.linearrings(rings[0])) else np.arange(n)[::-1]
    after = np.roll(first, -1)
    sides = np.concatenate(
        [np.stack([after, first, first + n], axis=1), np.stack([after, first + n, after + n], axis=1)]
    )
    faces = np.concatenate([top, top[:, ::-1] + n, sides])
    side = np.repeat(np.array([1, -1, 0], dtype=np.int8), [len(top), len(top), len(sides)])
    solid = Solid(local @ placement[:3].T, faces, side)
    return solid if solid.volume > 0 else Solid(solid.vertices, np.ascontiguousarray(faces[:, ::-1]), side)
