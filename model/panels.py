"""Standing-seam panels: how many, how long, and where their seams stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .geometry.polygon import chord, clip, columns
from .roof.record import Edge, Face, Roof
from .scene.schema import PanelSpec
from .tolerances import POINT
from .trim_kinds import KINDS, kinds_with

Array = NDArray[np.float64]
Side = tuple[Array, float]
"""Unit normal and offset of a line in the plane; the inner side is where ``normal · p`` is less."""

PAN_LIFT = 1 / 8
"""Height of the pan over the deck: it clears up to three layers of trim."""

NOSE = 1.0
"""How far the hook lip of eave and rake trim stands out past the deck's edge, where nothing else is said."""

ROUND_NOSE = 1 / 8
"""How far a pan goes past the nose that it hooks round, so that the turn clears it."""

ENGAGED = 3 / 4
"""How far the turned edge lies under the lip. Source: CDA 9.7, UFGS 07600 3.1.15 (pub)."""

HOOK = ENGAGED + ROUND_NOSE
"""Width of the turned edge, from the turn back: it first has to come round the lip."""

HOOK_DROP = 1 / 4
"""How far the turned edge lies below the pan: the nose, twice folded, lies between."""

BARE = 3 / 4
"""How far a pan goes past an edge that has no nose to hook round."""

CLOSURE_BACK = 3.0
"""How far from the edge the closures stand that carry a cap."""

CORNER = 12.0
"""Where two noses meet at a sharp corner, the pan reaches at most this far past the face."""


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One panel on one face.

    Attributes:
        name: Face and number, from the left as seen looking up the slope: ``front 3``.
        face: Index of its face.
        outline: ``(n, 3) float, inches, scene frame``; its pan, where it lies, clipped at hips and ridges and
            carried past the noses of eave and rake trim that it hooks round; counter-clockwise from above.
        length: Longest length up the slope, inches, hooks included.
        width: Width of deck covered, inches; less than the cover width where a panel is ripped at an edge.
        seams: The upright seam on its left, ``(2, 3) float, inches``: foot line from low to high; the first
            panel of a face has none.
        hooks: Turned edges round the noses, two strips an edge, each ``(n, 3) float, inches``: one turned
            down from the pan's end, one back under the nose, mitered where two noses meet.
        closures: Strips between its seams that carry ridge, hip and high-side caps, each ``(4, 3) float``;
            the first two corners are the foot.
    """

    name: str
    face: int
    outline: Array
    length: float
    width: float
    seams: tuple[Array, ...]
    hooks: tuple[Array, ...]
    closures: tuple[Array, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Flat:
    """A face laid flat: its own plane with x to the right and y up the slope.

    Attributes:
        origin: ``(3,)`` scene point of (0, 0).
        axes: ``(3, 3)`` rows: right, up the slope, and up off the face.
    """

    origin: Array
    axes: Array

    def flatten(self, points: Array) -> Array:
        """Return ``(n, 3)`` scene points as ``(n, 2)``, inches."""
        return np.asarray((points - self.origin) @ self.axes[:2].T)

    def raised(self, points: Array, height: float) -> Array:
        """Return ``(n, 2)`` points as ``(n, 3)`` scene points at a height off the deck, inches."""
        return np.asarray(self.origin + points @ self.axes[:2] + height * self.axes[2])


@dataclass(frozen=True, slots=True, eq=False)
class _Border:
    """One side of a face laid flat.

    Attributes:
        normal: ``(2,)`` unit vector, away from the face.
        deck: Offset of the deck's edge along the normal, inches.
        pan: Offset where the pan ends.
        nose: Whether the pan hooks round a nose here.
        cap: Whether a cap covers the pan's end here.
        low: Whether the pan's foot is here.
    """

    normal: Array
    deck: float
    pan: float
    nose: bool
    cap: bool
    low: bool


def lay_panels(roof: Roof, spec: PanelSpec, noses: Mapping[str, float] | None = None) -> tuple[Panel, ...]:
    """Return the panels of every face, straight up the slope from its eave.

    Args:
        roof: Its faces are convex.
        spec: Cover width, seam height, and where the first seam stands from the deck's left end.
        noses: How far the trim's nose stands out past the deck, inches, by name of the eave or rake; an edge
            that is not named has none. Without it all eaves and rakes have a nose of ``NOSE``.
    """
    if noses is None:
        noses = {edge.name: NOSE for edge in roof.edges if edge.kind in kinds_with("hook")}
    panels: list[Panel] = []
    for index, face in enumerate(roof.faces):
        flat = _laid_flat(face)
        outline = flat.flatten(face.outline)
        middle = outline.mean(axis=0)
        borders = [_border(flat, middle, edge, noses) for edge in roof.edges if index in edge.faces]
        panels.extend(_face_panels(index, face.name, flat, outline, borders, spec))
    return tuple(panels)


def _laid_flat(face: Face) -> _Flat:
    """Return the face's own plane."""
    up = np.array([0.0, 0.0, 1.0]) - face.normal[2] * face.normal
    up /= np.linalg.norm(up)
    return _Flat(face.outline[0], np.array([np.cross(up, face.normal), up, face.normal]))


def _border(flat: _Flat, middle: Array, edge: Edge, noses: Mapping[str, float]) -> _Border:
    """Return one side of the face whose ``middle`` is ``(2,)``, and where the pan ends there."""
    start, end = flat.flatten(np.array([edge.start, edge.end]))
    along = (end - start) / np.linalg.norm(end - start)
    normal = np.array([along[1], -along[0]])
    if normal @ (middle - start) > 0:
        normal = -normal
    deck = float(normal @ start)
    low = edge.kind == "eave"
    trim = KINDS.get(edge.kind)
    if trim is None:
        return _Border(normal, deck, deck, nose=False, cap=False, low=low)
    if trim.panels == "under":
        return _Border(normal, deck, deck - trim.short, nose=False, cap=True, low=low)
    if edge.name in noses:
        return _Border(normal, deck, deck + noses[edge.name] + ROUND_NOSE, nose=True, cap=False, low=low)
    return _Border(normal, deck, deck + BARE, nose=False, cap=False, low=low)


def _face_panels(
    index: int, name: str, flat: _Flat, outline: Array, borders: list[_Border], spec: PanelSpec
) -> Iterator[Panel]:
    """Yield the panels of one face from left to right."""
    left, right = outline[:, 0].min(), outline[:, 0].max()
    cover = _within(_box(outline), [(border.normal, border.pan) for border in borders])
    first = spec.offset if spec.offset > POINT else spec.cover
    seams = np.arange(left + first, right - POINT, spec.cover)
    bounds = [-np.inf, *seams.tolist(), np.inf]
    turned = [_turned(cover, border, borders) for border in borders if border.nose]
    turns = [(columns(under, seams), edge, low) for under, edge, low in turned]
    standing = _standing(cover, borders)
    number = 0
    for i, pan in enumerate(columns(cover, seams)):
        if not len(pan):
            continue
        number += 1
        start, end = bounds[i], bounds[i + 1]
        seam = pan[[0, -1]]
        joined = abs(seam[:, 0] - start).max() <= POINT and seam[1, 1] - seam[0, 1] > POINT
        length = float(np.ptp(pan[:, 1]))
        hooks: list[Array] = []
        for under, edge, low in turns:
            if len(under[i]):
                foot = _between(edge, start, end)
                hooks += [
                    _upright(flat, foot, PAN_LIFT - HOOK_DROP),
                    flat.raised(under[i], PAN_LIFT - HOOK_DROP),
                ]
                length += HOOK_DROP + HOOK if low else 0.0
        feet = [_between(line, start, end) for line in standing]
        yield Panel(
            name=f"{name} {number}",
            face=index,
            outline=flat.raised(pan, PAN_LIFT),
            length=length,
            width=float(min(end, right) - max(start, left)),
            seams=(flat.raised(seam, PAN_LIFT),) if joined else (),
            hooks=tuple(hooks),
            closures=tuple(_upright(flat, foot, PAN_LIFT + spec.seam) for foot in feet if len(foot)),
        )


def _turned(cover: Array, border: _Border, borders: list[_Border]) -> tuple[Array, Array, bool]:
    """Return what all pans of a face turn under one nose, their edge there, and whether it is their foot."""
    under = clip(cover, -border.normal, HOOK - border.pan)
    for other in borders:
        if other.nose and other is not border:
            across = other.normal - border.normal
            size = float(np.linalg.norm(across))
            under = clip(under, across / size, (other.pan - border.pan) / size)
    edge = chord(cover, border.normal, border.pan)
    return (under, edge, border.low) if edge is not None else (np.empty((0, 2)), np.empty((0, 2)), border.low)


def _standing(cover: Array, borders: list[_Border]) -> list[Array]:
    """Return the lines on which closures stand under the caps round a face, ``(2, 2)`` each."""
    sides = [(border.normal, border.deck - (CLOSURE_BACK if border.cap else 0.0)) for border in borders]
    backed = _within(cover, sides)
    lines = [chord(backed, *side) for border, side in zip(borders, sides, strict=True) if border.cap]
    return [line for line in lines if line is not None]


def _between(line: Array, left: float, right: float) -> Array:
    """Return the part of a ``(2, 2)`` segment between two upright lines; ``(0, 2)`` if none."""
    start, end = line
    way = end[0] - start[0]
    if abs(way) <= POINT:
        return line if left < start[0] <= right else line[:0]
    shares = sorted(min(max((cut - start[0]) / way, 0.0), 1.0) for cut in (left, right))
    if (shares[1] - shares[0]) * abs(way) <= POINT:
        return line[:0]
    return np.array([start + share * (end - start) for share in shares])


def _upright(flat: _Flat, foot: Array, height: float) -> Array:
    """Return the ``(4, 3)`` strip between the pan at ``foot`` and a height off the deck, inches."""
    return np.concatenate([flat.raised(foot, PAN_LIFT), flat.raised(foot[::-1], height)])


def _box(outline: Array) -> Array:
    """Return ``(4, 2)`` corners of a box round a face that leaves room for its pans."""
    (left, low), (right, high) = outline.min(axis=0) - CORNER, outline.max(axis=0) + CORNER
    return np.array([[left, low], [right, low], [right, high], [left, high]])


def _within(polygon: Array, sides: Iterable[Side]) -> Array:
    """Return the part of a convex polygon that is inside of every side."""
    for normal, offset in sides:
        polygon = clip(polygon, normal, offset)
    return polygon
