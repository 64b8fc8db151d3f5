"""Continuous cleats: strips screwed down over eave and rake trim that has no lip of its own, for the panels to hook.

A cleat is a flange on the trim's top leg with its outer edge folded back under itself. Lengths are butted, not lapped:
water never runs on them.

Source: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from ..edge_kinds import KINDS
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..metals import METALS
from ..profiles.section import Section, bend_legs
from ..roof.record import Edge, Roof
from ..runs import CLEAT_LIP, Run
from ..scene.schema import Scene
from ..scene.trim import LegSpec
from ..sheet.cut import path, plane_cut, square_cut
from ..sheet.fold import strip_fold
from ..sheet.sheet import Cut, Sheet
from ..sheet.solid import Solid, thicken
from ..tolerances import LEVEL
from .seam import TIGHT

ON_DECK = 2.0
"""How much of the flange lies on the deck, inches."""

BACK = 7 / 8
"""Width of the edge that is folded back, inches."""

BUTT = 1 / 8
"""Room between two lengths, inches: they move."""

LAYERS = (2, 3)
"""Sheets that may lie under a level cleat, at a lap of the trim, and under a sloping one, which begins over it."""

SCREWS_APART = 12.0
"""The most between two screws of a cleat, inches."""

FROM_END = 1.0
"""Distance of the end screws from the ends of a cleat, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Cleat:
    """One length of continuous cleat.

    Attributes:
        mark: What is written on it: ``E1-K2`` is the second from the low end of run ``E1``.
        at: Name of the run that it lies on.
        face: Index of the face whose panels hook it.
        start: Run distance of its low end, inches.
        screws: Distances of its screws, or on a valley's pan of its rivets, from its low end, inches.
        points: ``(n, 3) float, inches, scene frame``: where they go in.
        sheet: Its flat pattern and bends.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet in the scene frame.
    """

    mark: str
    at: str
    face: int
    start: float
    screws: tuple[float, ...]
    points: Array
    sheet: Sheet
    placement: Array
    solid: Solid

    @property
    def screws_flat(self) -> tuple[tuple[float, float], ...]:
        """Where its screws or rivets go through its flat sheet, ``(u, v)`` each, inches."""
        section = self.sheet.section
        out = (np.linalg.inv(self.placement) @ [*self.points[0], 1.0])[1]
        across = abs(float(out - section.points[0, 0]))
        return tuple((at - self.sheet.extent[0], across) for at in self.screws)

    @property
    def length(self) -> float:
        """Inches."""
        return self.sheet.length


def is_cleated(run: Run) -> bool:
    """Return whether panels hook a cleat on this run, because its trim has no lip."""
    return KINDS[run.trim].panels == "hook" and run.section.lip is None


def cleat_section(run: Run, scene: Scene) -> Section:
    """Return the section of the cleats on a run, in its own ``(out, up)``."""
    metal = scene.metal
    return _bent(metal.kind, metal.thickness, LAYERS[run.edge.slope > LEVEL])


def lay_cleats(roof: Roof, runs: Sequence[Run], scene: Scene) -> Iterator[Cleat]:
    """Yield the cleats of all runs that need some, from their low ends.

    Args:
        roof: Its hips say where cleats are mitered.
        runs: The trim.
        scene: Its metal and stock lengths are the cleats' too.
    """
    stock = max(scene.metal.stock)
    for run in runs:
        if not is_cleated(run):
            continue
        section = cleat_section(run, scene)
        count = math.ceil((run.length + BUTT) / (stock + BUTT) - 1e-9)
        each = (run.length + BUTT) / count - BUTT
        start = 0.0
        for number in range(1, count + 1):
            end = start + each if number < count else run.length
            yield _cleat(roof, run, section, f"{run.code}-K{number}", start, end)
            start = end + BUTT


def _cleat(roof: Roof, run: Run, section: Section, mark: str, start: float, end: float) -> Cleat:
    placement = run.frame.copy()
    placement[:3, 3] = (run.frame @ [start, 0.0, 0.0, 1.0])[:3]
    corners = (
        run.edge.vertices[0] if start == 0.0 else None,
        run.edge.vertices[1] if end == run.length else None,
    )
    cuts = []
    for u, corner, sign in zip((0.0, end - start), corners, (-1.0, 1.0), strict=True):
        near = [edge for edge in roof.edges if corner in edge.vertices]
        hip = next((edge for edge in near if edge.kind == "hip"), None)
        side = _beside_porch(near)
        ends = square_cut(section, u)
        if side is not None:
            ends = sign * np.minimum(sign * plane_cut(section, placement, *side) - BUTT / 2, sign * u)
        elif hip is not None:
            ends = _miter(section, placement, hip) - sign * BUTT / 2
            for other in near:
                if other.kind == "eave" and other is not run.edge:
                    ends = sign * np.minimum(sign * ends, sign * _past(section, placement, hip, other))
        cuts.append(path(section, ends))
    sheet = Sheet(section, Cut(cuts[0]), Cut(cuts[1]))
    inside = max(end - start - 2 * FROM_END, 0.0)
    gaps = max(1, math.ceil(inside / SCREWS_APART - 1e-9))
    at = tuple(min(FROM_END, (end - start) / 2) + inside * k / gaps for k in range(gaps + 1))
    fold, _ = strip_fold(section, 0)
    local = np.array([(u, ON_DECK / 2, 1.0) for u in at]) @ fold.T
    points = local @ placement[:3, :3].T + placement[:3, 3]
    return Cleat(
        mark, run.name, run.edge.faces[0], start, at, points, sheet, placement, thicken(sheet, placement)
    )


def _beside_porch(near: Sequence[Edge]) -> tuple[Array, Array] | None:
    """Return a point and the normal of the plane that halves the corner of an eave and the top of a porch's rake."""
    kinds = {one.kind: one for one in near}
    if (
        len(near) != 2
        or set(kinds) != {"eave", "rake"}
        or kinds["rake"].vertices[1] not in kinds["eave"].vertices
    ):
        return None
    eave, rake = kinds["eave"], kinds["rake"]
    away = eave.direction if eave.vertices[1] == rake.vertices[1] else -eave.direction
    return rake.end, rake.direction - away


def _miter(section: Section, placement: Array, hip: Edge) -> Array:
    """Return where the plumb plane of a hip meets each strip: the cleats of two eaves meet there."""
    return plane_cut(section, placement, hip.start, cross(hip.direction, [0.0, 0.0, 1.0]))


def _past(section: Section, placement: Array, hip: Edge, other: Edge) -> Array:
    """Return where the line of the other eave's cleats meets each strip: no lip stands out past theirs."""
    out = other.outward * [1.0, 1.0, 0.0]
    out /= np.linalg.norm(out)
    return plane_cut(section, placement, hip.start + out * CLEAT_LIP, out)


@lru_cache(64)
def _bent(metal: str, thickness: float, layers: int) -> Section:
    """Return the section of a cleat, its flange ``layers`` sheets above the deck."""
    out = CLEAT_LIP + thickness
    legs = (
        LegSpec.model_construct(name="flange", width=ON_DECK + out, turn=None, direction="deck"),
        LegSpec.model_construct(name="return", width=BACK, turn=180.0, direction=None),
    )
    section = bend_legs("cleat", legs, {"deck": 0.0}, METALS[metal], thickness, TIGHT * thickness)
    shift = np.array([-ON_DECK, (layers + 0.5) * thickness])
    return replace(section, points=section.points + shift)
