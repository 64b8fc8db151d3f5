"""Continuous cleats: strips screwed down over eave and rake trim that has no lip of its own, for the panels to hook.

A cleat is a flange on the trim's top leg with its outer edge folded back under itself. Its lengths come out of the
trim's stock and lap as the trim does, the upper one over the lower, so that panels find an edge to hook all along; the
one underneath loses its folded edge there, and one screw holds both. Laps keep off those of the trim below. At a hip,
and under the top of a porch's rake, cleats of two runs are butted with room to move.

Source: laps of edge strips in the direction of flow: CDA handbook 8.2A (pub); all sizes but the lap are common
practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from ..edge_kinds import KINDS
from ..fitting import Fitted
from ..geometry.arrays import Array
from ..geometry.vectors import cross
from ..joints import lap
from ..joints.end import At, End
from ..joints.lift import FLAT
from ..limits.record import Limits
from ..metals import METALS
from ..pieces import Piece, cut_pieces
from ..profiles.section import Section, bend_legs
from ..roof.record import Edge, Roof
from ..runs import CLEAT_LIP, Run
from ..scene.schema import Scene
from ..scene.trim import LegSpec, Start
from ..seats import seat_pieces
from ..sheet.cut import path, plane_cut, square_cut
from ..sheet.fold import in_scene
from ..sheet.sheet import Cut, Sheet, checked
from ..sheet.solid import Solid, thicken
from ..tolerances import LEVEL
from .seam import TIGHT

ON_DECK = 1.5
"""How much of the flange lies on the deck, inches: it ends short of the screws in the middle of a top leg of 4 in."""

BACK = 7 / 8
"""Width of the edge that is folded back, inches."""

BUTT = 1 / 8
"""Room between the cleats of two runs that meet, inches: they move."""

LAYERS = (2, 3)
"""Sheets that may lie under a level cleat, at a lap of the trim, and under a sloping one, which begins over it."""

SCREWS_APART = 12.0
"""The most between two screws of a cleat, inches."""

FROM_END = 1.0
"""Distance of the end screws from the ends of a cleat, inches."""

STARTS: tuple[Start, ...] = ("shared", "high", "even")
"""From where full lengths are laid, the usual way first: the next is taken where laps would lie on the trim's, or where
a length would be a stub, which a lap would lift off the trim at its corner."""

LAP = "cleat-lap"
"""The limit that says how far one length lies over the next."""


@dataclass(frozen=True, slots=True, eq=False)
class Cleat:
    """One length of continuous cleat.

    Attributes:
        mark: What is written on it: ``E1-K2`` is the second from the low end of run ``E1``.
        at: Name of the run that it lies on.
        face: Index of the face whose panels hook it.
        start: Run distance of its low end, inches.
        laps: Its ends that lap another length of its run, the low one first.
        screws: Distances of its screws, or on a valley's pan of its rivets, from its low end, inches; the one through
            a lap is that of the length on top.
        points: ``(n, 3) float, inches, scene frame``: where they go in.
        sheet: Its flat pattern and bends.
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        solid: The folded, thickened sheet in the scene frame.
    """

    mark: str
    at: str
    face: int
    start: float
    laps: tuple[End, ...]
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
        return tuple((at, across) for at in self.screws)

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


def lay_cleats(roof: Roof, fitted: Sequence[Fitted], scene: Scene, limits: Limits) -> Iterator[Cleat]:
    """Yield the cleats of all runs that need some, from their low ends.

    Args:
        roof: Its hips say where cleats are mitered.
        fitted: The trim, run by run from its low end.
        scene: Its metal, stock lengths and wind are the cleats' too.
        limits: How far cleats lap, how far off the trim's laps, and how short one may be.
    """
    trim: dict[str, list[Fitted]] = {}
    for one in fitted:
        if is_cleated(one.run):
            trim.setdefault(one.run.name, []).append(one)
    for own in trim.values():
        yield from _on_run(roof, own, scene, limits)


def _on_run(roof: Roof, trim: Sequence[Fitted], scene: Scene, limits: Limits) -> Iterator[Cleat]:
    """Yield the cleats over the trim of one run."""
    run = trim[0].run
    section = cleat_section(run, scene)
    corners = (_corner(roof, run, section, "low"), _corner(roof, run, section, "high"))
    line, pieces = _divided(replace(run, section=section), trim, corners, scene, limits)
    for k, (piece, placement) in enumerate(zip(pieces, seat_pieces(line, pieces, FLAT, FLAT), strict=True)):
        low = _lapped(section, pieces[k - 1], piece, "low") if k else None
        high = _lapped(section, piece, pieces[k + 1], "high") if k + 1 < len(pieces) else None
        cuts = (Cut(path(section, corners[0])), Cut(path(section, corners[1])))
        sheet = Sheet(section, low.cut if low else cuts[0], high.cut if high else cuts[1])
        sheet = checked(sheet, piece.mark, run.name)
        flange = (float(corners[0][0].max()), float(corners[1][0].min()))
        at = _screws(_held(piece.start, low, flange[0], 1.0), _held(piece.end, high, flange[1], -1.0))
        laps = (end for end in (low, high) if end is not None)
        yield Cleat(
            mark=piece.mark,
            at=run.name,
            face=run.edge.faces[0],
            start=piece.start,
            laps=tuple(end.from_blank(sheet.extent[end.at == "high"]) for end in laps),
            screws=tuple(u - piece.start for u in at),
            points=in_scene(section, 0, placement, np.array([(u, ON_DECK / 2) for u in at])),
            sheet=sheet,
            placement=placement,
            solid=thicken(sheet, placement),
        )


def _divided(
    line: Run, trim: Sequence[Fitted], corners: tuple[Array, Array], scene: Scene, limits: Limits
) -> tuple[Run, tuple[Piece, ...]]:
    """Return a run as one of cleats, and its lengths: without a stub if that can be, then with laps off the trim's."""
    (low, high), off = corners, limits.number("laps-in-one-place")
    reach, depth = (float(low.min()), float(high.max())), (float(np.ptp(low)), float(np.ptp(high)))
    below = [(two.piece.start, one.piece.end) for one, two in pairwise(trim)]
    least = limits.number("short-end-piece")
    ways: list[tuple[bool, bool, int, Run, tuple[Piece, ...]]] = []
    for order, start in enumerate(STARTS):
        asked = {"lap": limits.number(LAP), "start": start, "pieces": None, "sealed": False}
        own = replace(line, spec=line.spec.model_copy(update=asked))
        pieces = cut_pieces(own, reach, depth, scene, least)
        marked = tuple(replace(piece, mark=f"{line.code}-K{piece.number}") for piece in pieces)
        crossed = any(
            two.start - off < last and first < one.end + off
            for one, two in pairwise(pieces)
            for first, last in below
        )
        stub = len(pieces) > 1 and min(piece.length for piece in pieces) < least
        ways.append((stub, crossed, order, own, marked))
    *_, own, marked = min(ways, key=lambda way: way[:3])
    return own, marked


def _lapped(section: Section, lower: Piece, upper: Piece, at: At) -> End:
    """Return the high end of the lower length, or the low end of the upper one, where they lap."""
    own, other = (upper, lower) if at == "low" else (lower, upper)
    on_top = (upper.lies == "over") == (at == "low")
    u = own.start if at == "low" else own.end
    fit = lap.over if on_top else lap.under
    return fit(at, section, u, lower.end - upper.start, other.mark, sealed=False)


def _held(end: float, lapped: End | None, corner: float, inward: float) -> tuple[float, bool]:
    """Return where the screw nearest an end goes, run distance in inches, and whether it is this length's own.

    Args:
        end: Run distance of the metal's end.
        lapped: How it laps; None at a corner.
        corner: Where the flange ends at the corner.
        inward: 1 at the low end, -1 at the high end.
    """
    if lapped is None or lapped.lap is None:
        return corner + inward * FROM_END, True
    return end + inward * lapped.lap / 2, lapped.lies == "over"


def _screws(first: tuple[float, bool], last: tuple[float, bool]) -> tuple[float, ...]:
    """Return where a cleat is screwed down, evenly between what holds its ends; without what is another's screw."""
    inside = last[0] - first[0]
    if inside <= 0.0:
        return ((first[0] + last[0]) / 2,)
    gaps = max(1, math.ceil(inside / SCREWS_APART - 1e-9))
    at = [first[0] + inside * k / gaps for k in range(gaps + 1)]
    return tuple(at[0 if first[1] else 1 : None if last[1] else -1])


def _corner(roof: Roof, run: Run, section: Section, at: At) -> Array:
    """Return where each strip of a run's cleats ends at a corner of the roof, ``(strips, 2) float, inches``."""
    sign, vertex = (-1.0, run.edge.vertices[0]) if at == "low" else (1.0, run.edge.vertices[1])
    u = 0.0 if at == "low" else run.length
    near = [edge for edge in roof.edges if vertex in edge.vertices]
    hip = next((edge for edge in near if edge.kind == "hip"), None)
    side = _beside_porch(near)
    if side is not None:
        return sign * np.minimum(sign * plane_cut(section, run.frame, *side) - BUTT / 2, sign * u)
    if hip is None:
        return square_cut(section, u)
    ends = _miter(section, run.frame, hip) - sign * BUTT / 2
    for other in near:
        if other.kind == "eave" and other is not run.edge:
            ends = sign * np.minimum(sign * ends, sign * _past(section, run.frame, hip, other))
    return ends


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
        LegSpec.model_construct(
            name="flange", width=ON_DECK + out, turn=None, direction="deck", fastened=True
        ),
        LegSpec.model_construct(name="return", width=BACK, turn=180.0, direction=None, relieved=True),
    )
    section = bend_legs("cleat", legs, {"deck": 0.0}, METALS[metal], thickness, TIGHT * thickness)
    shift = np.array([-ON_DECK, (layers + 0.5) * thickness])
    return replace(section, points=section.points + shift, nesting=np.array([0.0, thickness]))
