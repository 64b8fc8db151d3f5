"""Sight: which parts of flat facets, and of lines on them, are seen from one side, and which lie behind others.

Facets are plane and don't pass through each other; so of two that overlap in a picture one is in front wherever
they do, and a line on one of them is either in front of the other or behind it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.profiles.section import Section
from trimwright.model.sheet.fold import strip_fold, tab_fold
from trimwright.model.sheet.sheet import Tab

NEAR = 2e-3
"""How much nearer to the eye metal must be to hide a line, inches: far below the gap in a hem."""

GRID = 1e-6
"""What the corners of pictures are rounded to, inches, so that facets seen nearly edge-on stay sound."""

SPECK = 1e-5
"""Areas smaller than this are left out, square inches."""


@dataclass(frozen=True, slots=True, eq=False)
class LineOfSight:
    """How a piece is looked at: unit vectors in its own ``(u, out, up)``.

    Attributes:
        right: ``(3,)``: what is right on the paper.
        up: ``(3,)``: what is up on the paper.
        toward: ``(3,)``: toward the eye.
    """

    right: Array
    up: Array
    toward: Array


@dataclass(frozen=True, slots=True, eq=False)
class SeenFacet:
    """A flat part of the metal and its picture.

    Attributes:
        metal: It on the flat sheet, ``(u, v)``, inches.
        picture: It on the paper, before any scale; empty when it is seen edge-on.
        space: ``(3, 3)``: from ``(u, v, 1)`` to right, up and toward the eye, inches.
        depth: ``(3,)``: from ``(x, y, 1)`` of the picture to how far toward the eye it is, inches.
        normal: ``(3,)``: right, up and toward of its painted normal.
        strip: The strip that it is or that its tab hangs on.
        tab: It is a tab.
    """

    metal: shapely.Geometry
    picture: shapely.Geometry
    space: Array
    depth: Array
    normal: Array
    strip: int
    tab: bool

    @property
    def painted(self) -> bool:
        """Whether its painted side is seen."""
        return bool(self.normal[2] > 0)

    def pictured(self, flat: shapely.Geometry) -> shapely.Geometry:
        """Return what lies at ``flat`` on the sheet as it is on the paper."""
        return _pictured(flat, self.space)


def facets_of(
    section: Section, metal: shapely.Geometry, folded: Sequence[Tab], eye: LineOfSight
) -> list[SeenFacet]:
    """Return the facets of a folded sheet.

    Args:
        section: Its section.
        metal: The flat sheet in ``(u, v)``, without its folded tabs.
        folded: Tabs that are folded.
        eye: How it is looked at.
    """
    basis = np.stack([eye.right, eye.up, eye.toward])
    left, _, right, _ = metal.bounds
    result = []
    for strip in range(section.strips):
        band = shapely.box(left - 1, section.v[strip], right + 1, section.v[strip + 1])
        part = _plane(shapely.intersection(metal, band))
        if not part.is_empty:
            result.append(_facet(part, *strip_fold(section, strip), basis, strip, False))
    for tab in folded:
        flap = shapely.Polygon(np.concatenate([tab.hinge, tab.flap]))
        fold, normal = tab_fold(*strip_fold(section, tab.strip), tab)
        result.append(_facet(flap, fold, normal, basis, tab.strip, True))
    return result


def seen(facets: Sequence[SeenFacet]) -> list[shapely.Geometry]:
    """Return of each facet's picture what no other one hides."""
    pictures = np.array([facet.picture for facet in facets])
    first, second = shapely.STRtree(pictures).query(pictures)
    first, second = first[first < second], second[first < second]
    common = shapely.intersection(pictures[first], pictures[second])
    both = shapely.area(common) > SPECK
    first, second, spots = first[both], second[both], shapely.point_on_surface(common[both])
    at = np.stack([shapely.get_x(spots), shapely.get_y(spots), np.ones(len(spots))], axis=1)
    depths = np.array([facet.depth for facet in facets])
    nearer = np.einsum("ij,ij->i", at, depths[first] - depths[second]) > 0
    hiders: list[list[shapely.Geometry]] = [[] for _ in facets]
    for a, b, a_nearer in zip(first, second, nearer, strict=True):
        hiders[b if a_nearer else a].append(pictures[a if a_nearer else b])
    return [
        picture.difference(shapely.union_all(hiding)) if hiding else picture
        for picture, hiding in zip(pictures, hiders, strict=True)
    ]


def sorted_by_sight(lines: Array, facets: Sequence[SeenFacet]) -> list[tuple[list[Array], list[Array]]]:
    """Return for each straight line its parts that are seen, and those that metal hides.

    Args:
        lines: ``(n, 2, 3) float, inches``: two ends each: right, up and toward the eye.
        facets: The metal.

    Returns:
        Parts of two points each, ``(2, 2) float, inches``, on the paper.
    """
    if not len(lines):
        return []
    drawn = shapely.linestrings(lines[:, :, :2])
    pictures = np.array([facet.picture for facet in facets])
    line, other = shapely.STRtree(pictures).query(drawn)
    common = shapely.intersection(drawn[line], pictures[other])
    over = shapely.length(common) > 1e-6
    line, other, spots = line[over], other[over], shapely.centroid(common[over])
    at = np.stack([shapely.get_x(spots), shapely.get_y(spots), np.ones(len(spots))], axis=1)
    depths = np.array([facet.depth for facet in facets])
    start, way = lines[line, 0], lines[line, 1] - lines[line, 0]
    share = np.einsum("ij,ij->i", at[:, :2] - start[:, :2], way[:, :2]) / np.einsum(
        "ij,ij->i", way[:, :2], way[:, :2]
    )
    behind = np.einsum("ij,ij->i", at, depths[other]) > start[:, 2] + share * way[:, 2] + NEAR
    hiding: dict[int, list[shapely.Geometry]] = {}
    for k, j in zip(line[behind].tolist(), other[behind].tolist(), strict=True):
        hiding.setdefault(k, []).append(pictures[j])
    result: list[tuple[list[Array], list[Array]]] = []
    for k, whole in enumerate(drawn):
        if k not in hiding:
            result.append(([lines[k, :, :2]], []))
            continue
        cover = shapely.union_all(hiding[k])
        result.append((_parts(whole.difference(cover)), _parts(whole.intersection(cover))))
    return result


def _facet(
    metal: shapely.Geometry, fold: Array, normal: Array, basis: Array, strip: int, tab: bool
) -> SeenFacet:
    space = basis @ fold
    (a, b), (c, d) = space[:2, :2]
    if abs(a * d - b * c) < 1e-4:
        return SeenFacet(
            metal, shapely.Polygon(), space, np.array([0.0, 0.0, -np.inf]), basis @ normal, strip, tab
        )
    slope = space[2, :2] @ np.linalg.inv(space[:2, :2])
    depth = np.array([*slope, space[2, 2] - slope @ space[:2, 2]])
    return SeenFacet(metal, _pictured(metal, space), space, depth, basis @ normal, strip, tab)


def _pictured(flat: shapely.Geometry, space: Array) -> shapely.Geometry:
    there = shapely.transform(_plane(flat), lambda points: points @ space[:2, :2].T + space[:2, 2])
    sound = there if shapely.is_valid(there) else _plane(shapely.make_valid(there))
    return shapely.set_precision(shapely.set_precision(sound, GRID), 0.0)


def _plane(shape: shapely.Geometry) -> shapely.Geometry:
    """Return the plane parts of ``shape``; lines and points of it are left out."""
    if shape.geom_type in ("Polygon", "MultiPolygon"):
        return shape
    return shapely.union_all([part for part in shapely.get_parts(shape) if part.area > 0])


def _parts(shape: shapely.Geometry) -> list[Array]:
    return [
        shapely.get_coordinates(part)
        for part in shapely.get_parts(shape)
        if part.geom_type == "LineString" and part.length > 1e-3
    ]
