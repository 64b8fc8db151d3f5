"""The outside of the house: siding, foundation, corner boards, windows, doors, porch posts. For pictures alone.

How wide and thick they are is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Roof
from trimwright.model.scene.house import HouseSpec

from .body import Body, Kind, Mesh, merged, slab, triangles_of
from .openings import CASING, HEAD_BOARD, Opening, openings_of
from .porch_posts import porch_posts
from .wall_frames import WallFrame, frames_of

COURSE = 6.0
"""How much of each course of lap siding shows, inches."""

BUTT = 0.55
"""How far the lower edge of a course stands out of the wall, inches; its upper edge lies on the wall."""

BATTEN, BATTENS_APART = (2.5, 0.75), 16.0
"""Width and thickness of a batten, and how far their middles stand apart, inches."""

CORNER, THICK = 4.0, 1.0
"""Width of a corner board, and how far it and the boards round an opening stand out, inches."""

CONCRETE = 0.3
"""How far the foundation stands out, inches."""

SASH, BAR = 2.0, 1.1
"""Width of the frame of a window's sash, and of the bars between its panes, inches."""

GLASS, BEFORE_GLASS, LEAF = 0.62, 0.75, 0.7
"""How far glass, its bars and a door's leaf stand out of the wall, inches."""

PANEL = 6.0
"""How far the panels of a door's leaf stay from its edges, inches."""


def outside_bodies(roof: Roof, spec: HouseSpec) -> Iterator[Body]:
    """Yield a body for each kind of part, as far as there are any."""
    frames = frames_of(roof)
    parts: dict[Kind, list[Mesh]] = {"siding": [], "foundation": [], "casing": [], "door": [], "glass": []}
    for frame, openings in zip(frames, openings_of(roof, frames, spec), strict=True):
        parts["siding"] += _siding(frame, spec, openings)
        if spec.foundation > 0:
            low = shapely.box(-CONCRETE, 0.0, frame.length + CONCRETE, spec.foundation)
            parts["foundation"] += _boards(frame, [low], CONCRETE)
        if spec.siding != "plain":
            parts["casing"] += _boards(frame, _corner_boards(frame, frames, spec.foundation), THICK)
        for one in openings:
            parts["casing"] += _boards(frame, _casing(one), THICK)
            parts["door" if one.door else "glass"] += _boards(frame, [_box(one)], LEAF if one.door else GLASS)
            if one.door:
                parts["door"] += _boards(frame, _door_panels(one), LEAF + 0.3)
            else:
                parts["casing"] += _boards(frame, _bars(one), BEFORE_GLASS)
    parts["casing"] += porch_posts(roof, frames)
    for kind, meshes in parts.items():
        if meshes:
            yield Body(kind, "house", *merged(meshes))


def _boards(frame: WallFrame, shapes: Sequence[shapely.Polygon], thick: float) -> list[Mesh]:
    """Return boards on a wall, so thick."""
    meshes = []
    for shape in shapes:
        flat = _corners(shape)
        meshes.append(slab(frame.lift(flat, thick), -thick * frame.out))
    return meshes


def _corners(shape: shapely.Polygon) -> Array:
    """Return the corners of a polygon once each, counter-clockwise."""
    return np.asarray(shapely.get_coordinates(shapely.orient_polygons(shape))[:-1])


def _siding(frame: WallFrame, spec: HouseSpec, openings: Sequence[Opening]) -> list[Mesh]:
    """Return what covers a wall above its foundation, up to the boards round its openings."""
    whole = shapely.Polygon(frame.outline)
    if not whole.is_valid or spec.siding == "plain":
        return []
    whole = whole.difference(shapely.union_all([board for one in openings for board in _edged(one)]))
    top = float(frame.outline[:, 1].max())
    if spec.siding == "boards":
        middles = np.arange(BATTENS_APART / 2, frame.length - CORNER, BATTENS_APART)
        strips = [shapely.box(x - BATTEN[0] / 2, spec.foundation, x + BATTEN[0] / 2, top) for x in middles]
        return _boards(frame, [part for strip in strips for part in _within(whole, strip)], BATTEN[1])
    meshes: list[Mesh] = []
    for low in np.arange(spec.foundation, top, COURSE):
        strip = shapely.box(CORNER, low, frame.length - CORNER, low + COURSE)
        meshes += [_course(frame, part, float(low)) for part in _within(whole, strip)]
    return meshes


def _within(whole: shapely.Polygon, strip: shapely.Polygon) -> list[shapely.Polygon]:
    """Return the parts of a strip that lie on a wall."""
    parts = shapely.get_parts(whole.intersection(strip))
    return [part for part in parts if part.geom_type == "Polygon" and part.area > 1.0]


def _course(frame: WallFrame, shape: shapely.Polygon, low: float) -> Mesh:
    """Return one course of lap siding, leaning out toward its lower edge, with that edge's underside."""
    flat = _corners(shape)
    off = BUTT * (1 - (flat[:, 1] - low) / COURSE)
    face = frame.lift(flat) + off[:, None] * frame.out
    faces = triangles_of(np.column_stack([flat, np.zeros(len(flat))]))
    foot = flat[np.abs(flat[:, 1] - low) < 1e-6]
    if len(foot) >= 2:
        ends = np.array([[foot[:, 0].min(), low], [foot[:, 0].max(), low]])
        under = np.concatenate([frame.lift(ends), frame.lift(ends[::-1], BUTT)])
        faces = np.concatenate([faces, np.array([[0, 1, 2], [0, 2, 3]]) + len(face)])
        face = np.concatenate([face, under])
    return face, faces, np.ones(len(faces), dtype=np.int8)


def _corner_boards(frame: WallFrame, frames: Sequence[WallFrame], foundation: float) -> list[shapely.Polygon]:
    """Return the boards along both ends of a wall; at an outside corner the left one reaches over the other's edge."""
    boards = []
    over = THICK if _turns_out(frame, frames) else 0.0
    for left, right, edge in ((-over, CORNER, 0.0), (frame.length - CORNER, frame.length, frame.length)):
        inner = right if edge == 0.0 else left
        tops = [frame.top_at(edge), frame.top_at(inner)]
        if min(tops) > foundation + 1:
            low, high = (tops[0], tops[1]) if edge == 0.0 else (tops[1], tops[0])
            boards.append(
                shapely.Polygon([(left, foundation), (right, foundation), (right, high), (left, low)])
            )
    return boards


def _turns_out(frame: WallFrame, frames: Sequence[WallFrame]) -> bool:
    """Return whether the wall's left end is an outside corner of the house."""
    for other in frames:
        end = other.start + other.length * other.along
        if other is not frame and np.abs(end - frame.start)[:2].max() < 1.0:
            return bool(np.cross(other.along, frame.along)[2] > 0.1)
    return False


def _box(one: Opening) -> shapely.Polygon:
    return shapely.box(one.left, one.low, one.right, one.high)


def _casing(one: Opening) -> list[shapely.Polygon]:
    """Return the boards round an opening; a window has one below too, a little wider."""
    left, right = one.left - CASING, one.right + CASING
    boards = [
        shapely.box(left, one.low, one.left, one.high),
        shapely.box(one.right, one.low, right, one.high),
        shapely.box(left - 0.75, one.high, right + 0.75, one.high + HEAD_BOARD),
    ]
    return boards if one.door else [*boards, shapely.box(left - 1, one.low - 2.5, right + 1, one.low)]


def _bars(one: Opening) -> list[shapely.Polygon]:
    """Return the frame of a window's two sashes and the bars between their panes."""
    x, y = (one.left + one.right) / 2, (one.low + one.high) / 2
    return [
        shapely.box(one.left, one.low, one.left + SASH, one.high),
        shapely.box(one.right - SASH, one.low, one.right, one.high),
        shapely.box(one.left + SASH, one.low, one.right - SASH, one.low + SASH),
        shapely.box(one.left + SASH, one.high - SASH, one.right - SASH, one.high),
        shapely.box(one.left + SASH, y - SASH / 2, one.right - SASH, y + SASH / 2),
        shapely.box(x - BAR / 2, one.low + SASH, x + BAR / 2, one.high - SASH),
    ]


def _edged(one: Opening) -> list[shapely.Polygon]:
    """Return an opening with the boards round it."""
    return [_box(one), *_casing(one)]


def _door_panels(one: Opening) -> list[shapely.Polygon]:
    """Return the raised panels of a door's leaf."""
    left, right = one.left + PANEL, one.right - PANEL
    middle = one.low + 0.45 * (one.high - one.low)
    if right - left < 2 * PANEL:
        return []
    return [
        shapely.box(left, one.low + PANEL + 2, right, middle),
        shapely.box(left, middle + PANEL, right, one.high - PANEL),
    ]
