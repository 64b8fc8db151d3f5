"""Views of the whole roof: from the street, finished, with the pieces told apart, and with its findings."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Message, message

from .body import Kind
from .camera import UP, Shot, looking_at
from .color_math import Color
from .colors import SHORT
from .notes import Label, piece_label
from .trim_looks import LOOKS
from .view import BESIDE, HOUSE, LEFT_OFF, METAL, OUTSIDE, PANELS, ViewPoint

EYE = 66.0
"""How high the eye of a person in the street is, inches."""

ROAD = 40 * 12.0
"""How far the person stands from the house, inches, or twice its size if that is more."""

FRONT, BACK = (0.75, -1.0, 0.5), (-0.75, 1.0, 0.5)
"""The ways to the eye from which trim and findings are shown."""

LADDER = {"out": 40.0, "above": 44.0, "aside": 30.0}
"""Where the eye of a person on a ladder at the eave is: out from the edge, over it, along it, inches."""


def whole_views(layout: Layout, marks: tuple[Label, ...]) -> Iterator[ViewPoint]:
    """Yield the views of the whole roof, some of them with the ``marks`` of all pieces."""
    box = outline_of(layout)
    shows = HOUSE | OUTSIDE | METAL | (PANELS if layout.scene.panels.show else frozenset())
    yield ViewPoint(
        "street", message("From the street"), (_from_street(box),), shows, "finish", outdoors=True
    )
    yield ViewPoint(
        "finish",
        message("The finished roof"),
        (looking_at(box, (0.9, -1.0, 0.62), margin=1.2),),
        shows,
        "finish",
        outdoors=True,
    )
    yield from _of_trim(layout, box, marks)
    yield from _of_findings(layout, box)
    yield from _from_the_ladder(layout, shows)


def _of_trim(layout: Layout, box: Array, marks: tuple[Label, ...]) -> Iterator[ViewPoint]:
    """Yield the views of every piece of trim with its mark, from the front and from behind."""
    for name, title, way in (
        ("bare", message("Every piece of trim"), FRONT),
        ("bare back", message("Every piece of trim, from behind"), BACK),
    ):
        yield ViewPoint(
            name,
            title,
            (looking_at(box, way, margin=1.2),),
            HOUSE | METAL,
            "pieces",
            notes=(LEFT_OFF,),
            labels=marks,
            caution=True,
            highlight=short_marks(layout),
            key=color_key(layout),
            outdoors=True,
        )


def _of_findings(layout: Layout, box: Array) -> Iterator[ViewPoint]:
    """Yield the views with the findings pinned to the trim, from the front and from behind."""
    for name, title, way in (
        ("findings", message("Findings"), FRONT),
        ("findings back", message("Findings, from behind"), BACK),
    ):
        yield ViewPoint(
            name,
            title,
            (looking_at(box, way, margin=1.12, frame=(0.0, 0.0, BESIDE, 1.0)),),
            HOUSE | METAL,
            "pieces",
            notes=(LEFT_OFF,),
            pins=True,
            outdoors=True,
            highlight=short_marks(layout),
        )


def outline_of(layout: Layout) -> Array:
    """Return ``(n, 3)`` points that the whole house lies within, inches."""
    return np.concatenate([layout.roof.vertices, *layout.roof.walls])


def short_marks(layout: Layout) -> frozenset[str]:
    """Return the marks of the pieces that are cut to what was left."""
    return frozenset(part.mark for part in layout.parts if part.piece.short)


def mark_label(part: Part) -> Label:
    """Return a piece's mark, with its length where the piece is the short one."""
    if not part.piece.short:
        return piece_label(part, part.mark)
    told = message("{mark}  {length}", mark=part.mark, length=Length(part.length))
    return piece_label(part, told, "short", 8)


def color_key(layout: Layout) -> tuple[tuple[Message, Color], ...]:
    """Return what the colors of the pieces mean on this roof."""
    trims = {run.trim for run in layout.runs}
    key = [(look.name, look.tones[1]) for trim, look in LOOKS.items() if trim in trims]
    return (*key, (message("short piece"), SHORT)) if short_marks(layout) else tuple(key)


def _from_street(box: Array) -> Shot:
    """Return the camera of a person who stands in the street and sees the front and the right end."""
    low, high = box.min(axis=0), box.max(axis=0)
    middle, size = (low + high) / 2, high - low
    way = np.array([0.55, -1.0])
    away = max(ROAD, 1.7 * float(np.linalg.norm(size)))
    eye = np.array([*(middle[:2] + way / np.linalg.norm(way) * away), low[2] + EYE])
    shot = looking_at(box, eye - [*middle[:2], low[2] + size[2] * 0.55], margin=1.35)
    toward = shot.target - eye
    return Shot(
        eye,
        eye + toward / np.linalg.norm(toward) * away,
        shot.up,
        shot.width * away / shot.distance,
        shot.height * away / shot.distance,
    )


def _from_the_ladder(layout: Layout, shows: frozenset[Kind]) -> Iterator[ViewPoint]:
    """Yield the view of a person on a ladder at the lowest eave, near its end."""
    eaves = [edge for edge in layout.roof.edges if edge.kind == "eave"]
    if not eaves:
        return
    edge = min(eaves, key=lambda one: (round(float(one.start[2]), 3), one.outward[1]))
    out = edge.outward * [1, 1, 0]
    out = out / np.linalg.norm(out)
    foot = edge.end - edge.direction * min(LADDER["aside"], edge.length / 3)
    eye = foot + out * LADDER["out"] + UP * LADDER["above"]
    target = edge.end - edge.direction * min(72.0, edge.length / 2) - edge.outward * 30
    shot = Shot(eye, target, UP, 110.0, 110.0)
    yield ViewPoint("ladder", message("From the ladder"), (shot,), shows, "finish", outdoors=True)
