"""What the rules about valleys have in common: how a pan lies, and how much water comes to it from each side."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely

from ..panels.flat import laid_flat
from ..profiles.section import Section
from ..roof.record import Edge, Roof
from ..runs import Run
from .facts import Facts, PartSpan

Pans = tuple[PartSpan, ...]
"""The pieces of a valley's run, from its foot."""


def valleys_of(facts: Facts) -> Iterator[tuple[Run, Pans]]:
    """Yield every valley that has a pan, with its pieces."""
    for run in facts.layout.runs:
        if run.trim == "valley":
            yield run, facts.spans[run.name]


def rise_of(edge: Edge) -> float:
    """Return how much an edge rises in 12 in level, inches."""
    return 12 * math.tan(edge.slope)


def reach_of(section: Section) -> float:
    """Return how far the narrower wing of a pan reaches from the middle of its valley, inches."""
    left, right = section.strip_of("left wing"), section.strip_of("right wing")
    away = np.linalg.norm(section.points, axis=1)
    return float(min(away[: left + 1].max(), away[right + 1 :].max())) + section.thickness / 2


def rib_of(section: Section) -> float:
    """Return how high a pan's rib stands over the line in which its wings would meet, inches; 0 without a rib."""
    left, right = section.strip_of("left wing"), section.strip_of("right wing")
    if right <= left + 1:
        return 0.0
    normals = section.normals[[left, right]]
    heights = (normals * section.points[[left, right]]).sum(axis=1)
    bottom = np.linalg.solve(normals, heights)
    return max(0.0, float(section.points[left + 1 : right + 1, 1].max() - bottom[1]))


def drained(roof: Roof, edge: Edge) -> tuple[float, float]:
    """Return how much of each of its two faces sheds its water straight into a valley, in plan, square inches."""
    found = []
    for index in edge.faces:
        face = roof.faces[index]
        flat = laid_flat(face)
        area = shapely.Polygon(flat.flatten(face.outline), [flat.flatten(hole) for hole in face.holes])
        (x0, y0), (x1, y1) = flat.flatten(np.array([edge.start, edge.end])).tolist()
        top = float(area.bounds[3]) + 1.0
        above = shapely.Polygon([(x0, y0), (x1, y1), (x1, top), (x0, top)])
        found.append(float(area.intersection(above).area) * math.cos(face.slope))
    left, right = found
    return left, right
