"""A piece seen broadside: its folded sheet looked at square to the run, what is hidden left out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Part
from trimwright.model.message import Message, message
from trimwright.model.profiles.section import Section
from trimwright.model.runs import Run
from trimwright.model.sheet.fold import facets, strip_fold

from ..ink.drawing import Point


@dataclass(frozen=True, slots=True, eq=False)
class Aspect:
    """How a run is looked at.

    Attributes:
        upward: ``(2,)`` unit vector ``(out, up)``: what is up on the paper.
        toward: ``(2,)`` unit vector ``(out, up)``: toward the eye.
        words: Where the eye is.
        mirrored: The low end is on the right: so a right-hand rake is seen from outside.
    """

    upward: Array
    toward: Array
    words: Message
    mirrored: bool


@dataclass(frozen=True, slots=True)
class SeenSurface:
    """A part of a piece that is seen, in front of those listed before it.

    Attributes:
        ring: Run distance, and height on the paper before any scale; inches.
        painted: Its painted side is seen.
    """

    ring: tuple[Point, ...]
    painted: bool


def aspect_of(run: Run) -> Aspect:
    """Return how ``run`` is looked at: caps from above, other trim from outside and above, as from a ladder."""
    if len(run.edge.faces) == 2:
        upward, toward, words = np.array([-1.0, 0.0]), np.array([0.0, 1.0]), message("from above")
    else:
        half = math.sqrt(0.5)
        upward, toward = np.array([-half, half]), np.array([half, half])
        words = message("from outside and above")
    return Aspect(upward, toward, words, run.hand == "right")


def surfaces(part: Part, aspect: Aspect, span: tuple[float, float]) -> tuple[SeenSurface, ...]:
    """Return what is seen of ``part`` between two run distances, the farthest first."""
    section = part.run.section
    order = {strip: place for place, strip in enumerate(_far_to_near(section, aspect))}
    window = shapely.box(span[0], -1e3, span[1], 1e3)
    found = []
    for facet in sorted(facets(part.sheet), key=lambda facet: (order[facet.strip], facet.tab)):
        space = facet.to_space(facet.ring)
        shape = shapely.Polygon(np.column_stack([space[:, 0], space[:, 1:] @ aspect.upward]))
        if not shape.is_valid or shape.area < 1e-6:
            continue
        seen = shape.intersection(window)
        for piece in getattr(seen, "geoms", [seen]):
            if piece.geom_type == "Polygon" and piece.area > 1e-6:
                ring = tuple((float(x), float(y)) for x, y in piece.exterior.coords[:-1])
                painted = float(facet.normal[1:] @ aspect.toward) > 0
                found.append(SeenSurface(ring, painted))
    return tuple(found)


def outlines(seen: Sequence[SeenSurface]) -> tuple[tuple[Point, ...], ...]:
    """Return the outer border of all that is seen of a piece, as run distance and height, inches."""
    whole = shapely.union_all([shapely.Polygon(surface.ring).buffer(1e-6) for surface in seen])
    parts = getattr(whole, "geoms", [whole])
    return tuple(
        tuple((float(x), float(y)) for x, y in part.exterior.coords[:-1])
        for part in parts
        if not part.is_empty
    )


def extent(section: Section, aspect: Aspect) -> tuple[float, float]:
    """Return the lowest and highest place of a section on the paper before any scale, inches."""
    y = section.points @ aspect.upward
    return float(y.min()), float(y.max())


def height_of(section: Section, aspect: Aspect, across: float) -> float:
    """Return the place on the paper of a point that lies ``across`` the developed width, inches."""
    strip = min(int(np.searchsorted(section.v, across, side="right")) - 1, section.strips - 1)
    fold, _ = strip_fold(section, max(strip, 0))
    return float((fold @ [0.0, across, 1.0])[1:] @ aspect.upward)


def _far_to_near(section: Section, aspect: Aspect) -> list[int]:
    """Return the strips in an order in which none hides one that comes after it."""
    y, depth = section.points @ aspect.upward, section.points @ aspect.toward
    left = list(range(section.strips))
    order: list[int] = []
    while left:
        free = next((i for i in left if not any(_hides(i, j, y, depth) for j in left if j != i)), left[0])
        order.append(free)
        left.remove(free)
    return order


def _hides(near: int, far: int, y: Array, depth: Array) -> bool:
    """Return whether strip ``near`` lies before strip ``far`` where both are seen at one height."""
    low = max(min(y[near : near + 2]), min(y[far : far + 2]))
    high = min(max(y[near : near + 2]), max(y[far : far + 2]))
    if high - low < 1e-6:
        return False
    at = (low + high) / 2
    return _depth(near, at, y, depth) > _depth(far, at, y, depth)


def _depth(strip: int, at: float, y: Sequence[float] | Array, depth: Sequence[float] | Array) -> float:
    share = (at - y[strip]) / (y[strip + 1] - y[strip])
    return float(depth[strip] + share * (depth[strip + 1] - depth[strip]))
