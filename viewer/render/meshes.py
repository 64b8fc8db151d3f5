"""Meshes: the bodies and screws of a stage as one view colors, hides and lifts them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from trimwright.model.edge_kinds import KINDS
from trimwright.model.screws import Screw

from ..display.body import Body
from ..display.coats import HEADS
from ..display.colors import FOAM, SCREW, coat, finish, told_apart
from ..display.screw_heads import HEAD, foot_of_head
from ..display.stage import Stage
from ..display.view import HOUSE, ViewPoint
from .slicing import CUT_METAL, CUT_WOOD, sliced
from .surface import ColoredMesh

FOOTING = 12.0
"""How far a wall goes on below the ground, inches: out of sight."""

SIDES = 12


def pieces_of(stage: Stage, view: ViewPoint) -> list[ColoredMesh]:
    """Return all that a view shows."""
    result = []
    for body in stage.bodies:
        if body.kind not in view.shows or (body.kind == "trim" and body.name in view.hidden):
            continue
        if view.coloring == "finish":
            colors = finish(body, stage.scene)
        else:
            colors = told_apart(body, stage.scene, view.highlight, view.focus)
        vertices = body.vertices
        if body.kind in ("wall", "foundation") and view.outdoors:
            vertices = _founded(vertices, stage.ground)
        if body.name in view.apart:
            vertices = vertices + view.apart[body.name]
        piece: ColoredMesh | None = ColoredMesh(
            vertices,
            body.faces,
            colors,
            coat(body, stage.scene),
            edges=not _covered(body, view),
            holes=body.holes or (0.0, 0.0),
        )
        if view.cut is not None and piece is not None:
            inside = FOAM if body.kind == "foam" else CUT_WOOD if body.kind in HOUSE else CUT_METAL
            piece = sliced(piece, *view.cut, inside)
        if piece is not None:
            result.append(piece)
    lifted = view.hidden | view.apart.keys()
    shown = [screw for screw in stage.screws if screw.mark not in lifted]
    if view.cut is not None:
        point, normal = view.cut
        shown = [screw for screw in shown if (screw.point - point) @ normal < 0]
    if shown:
        result.append(replace(heads(shown, stage.scene.screws.head), edges=not view.outdoors, shades=False))
    return result


def _covered(body: Body, view: ViewPoint) -> bool:
    """Return whether something lies over the edges of a body that they would show through from far off."""
    if not view.outdoors:
        return False
    if body.kind == "wall":
        return "siding" in view.shows
    under = body.kind == "deck" or (body.trim is not None and KINDS[body.trim].is_covered)
    return under and "pan" in view.shows


def _founded(vertices: NDArray[np.float64], ground: float) -> NDArray[np.float64]:
    """Return a wall that goes on below the ground, so that its shadow begins at its foot."""
    foot = vertices[:, 2] < ground + 0.01
    return np.asarray(vertices - foot[:, None] * [0.0, 0.0, FOOTING])


def heads(screws: Sequence[Screw], diameter: float) -> ColoredMesh:
    """Return the heads of screws as one mesh: flat drums on the painted side."""
    turn = np.arange(SIDES) * (2 * math.pi / SIDES)
    ring = np.stack([np.cos(turn), np.sin(turn)], axis=1) * diameter / 2
    normals = np.array([screw.normal for screw in screws])
    points = np.array([foot_of_head(screw, HEAD) for screw in screws])
    helper = np.where(np.abs(normals[:, 2:]) < 0.9, [[0.0, 0.0, 1.0]], [[1.0, 0.0, 0.0]])
    first = np.cross(normals, helper)
    first /= np.linalg.norm(first, axis=1, keepdims=True)
    second = np.cross(normals, first)
    foot = points[:, None] + ring[:, :1] * first[:, None] + ring[:, 1:] * second[:, None]
    top = points[:, None] + normals[:, None] * HEAD + 0.82 * (foot - points[:, None])
    vertices = np.concatenate([foot, top], axis=1).reshape(-1, 3)
    a, b = np.arange(SIDES), (np.arange(SIDES) + 1) % SIDES
    rim = np.concatenate([np.stack([a, b, b + SIDES], axis=1), np.stack([a, b + SIDES, a + SIDES], axis=1)])
    cap = np.stack([np.full(SIDES - 2, SIDES), a[1:-1] + SIDES, a[2:] + SIDES], axis=1)
    one = np.concatenate([rim, cap])
    faces = (one[None] + (np.arange(len(screws)) * 2 * SIDES)[:, None, None]).reshape(-1, 3)
    colors = np.tile(np.array(SCREW, dtype=np.uint8), (len(faces), 1))
    return ColoredMesh(vertices, faces, colors, HEADS)


def middle_and_radius(pieces: Sequence[ColoredMesh]) -> tuple[NDArray[np.float64], float]:
    """Return the middle and radius of a ball round everything, inches."""
    points = np.concatenate([piece.vertices for piece in pieces])
    low, high = points.min(axis=0), points.max(axis=0)
    return (low + high) / 2, float(np.linalg.norm(high - low) / 2) + 1.0
