"""Notes: what a view has to say, placed and written over its picture."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from ..display.camera import Shot
from ..display.color_math import Color, mix
from ..display.colors import SEVERITY, SHORT
from ..display.notes import Label, NoteLine, Pin
from ..display.placing import Box, Spot, Want, place
from ..display.stage import Stage
from ..display.trim_looks import LOOKS
from ..display.view import ViewPoint
from ..words.speaker import Speaker, speaker_of, told
from .lettering import INK, PAPER, ClearSheet

Floats = NDArray[np.float32]

NEAR = (0.02, 0.0006)
"""A point is hidden when what is drawn there is nearer to the eye by more than the first, inches, and the second times
its distance."""

CROWD = 24
"""More labels than these are written smaller."""

SIZES = {"piece": 0.027, "short": 0.027, "note": 0.023, "step": 0.020, "tape": 0.022}
"""Height of each kind of label's letters, as a share of the picture's height."""


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """One shot's part of the picture.

    Attributes:
        shot: Its camera.
        box: Where it lies, pixels.
        depth: ``(h, w)`` inches along the line of sight, at any size.
        tall: Height of the whole picture, pixels.
        metal: ``(h, w)`` whether metal is seen, of the depth's size; None when unknown.
    """

    shot: Shot
    box: Box
    depth: Floats
    tall: float
    metal: NDArray[np.bool_] | None = None

    @property
    def size(self) -> tuple[int, int]:
        """Width and height, pixels."""
        return round(self.box.right - self.box.left), round(self.box.bottom - self.box.top)

    def pixels(self, points: Array) -> Array:
        """Return where points fall in the whole picture: ``(n, 2)``."""
        seen, _ = self.shot.project(points, self.size)
        return np.asarray(seen + np.array([self.box.left, self.box.top]))

    def visible(self, points: Array, normals: Array | None = None) -> NDArray[np.bool_]:
        """Return whether each of ``(n, 3)`` points is in sight, and faces the eye."""
        seen, away = self.shot.project(points, self.size)
        wide, high = self.size
        inside = (
            (seen[:, 0] >= 0) & (seen[:, 0] < wide) & (seen[:, 1] >= 0) & (seen[:, 1] < high) & (away > 0)
        )
        rows, columns = self.depth.shape
        x = np.clip(seen[:, 0] / wide * columns, 0, columns - 1).astype(int)
        y = np.clip(seen[:, 1] / high * rows, 0, rows - 1).astype(int)
        free = self.depth[y, x] > away - NEAR[0] - NEAR[1] * away
        if normals is not None:
            free &= np.einsum("ij,ij->i", normals, self.shot.eye - points) > 0.05 * away
        return np.asarray(inside & free)


def write(
    sheet: ClearSheet, stage: Stage, view: ViewPoint, frames: Sequence[Frame], taken: list[Box]
) -> dict[int, Box]:
    """Write labels, lines and pins; return where the pins stand that are in sight, by their numbers."""
    say = speaker_of(stage.scene)
    hues = {body.name: LOOKS[body.trim].hue for body in stage.bodies if body.trim}
    hues |= dict.fromkeys(view.highlight, SHORT)
    main = [
        frame for frame in frames if frame.box.right - frame.box.left > 0.5 * frames[0].box.right
    ] or list(frames[:1])
    boxes = list(taken)
    for frame in frames:
        if frame not in main:
            _rings(sheet, frame, stage, view)
    ticks: list[Box] = []
    for frame in main:
        for line in view.lines:
            _line(sheet, frame, line, hues, (boxes, ticks), say)
    for frame in main:
        others = [other.box for other in frames if other is not frame]
        _labels(sheet, frame, view.labels, hues, (boxes + others, ticks), say)
    return _pins(sheet, main[0], stage.pins, boxes) if view.pins else {}


def _rings(sheet: ClearSheet, frame: Frame, stage: Stage, view: ViewPoint) -> None:
    """Draw a ring round each highlighted piece in a small picture of the whole."""
    for body in stage.bodies:
        if body.kind == "trim" and body.name in view.highlight:
            x, y = frame.pixels(body.vertices.mean(axis=0)[None])[0]
            for color, width in ((PAPER, 6.0), (SHORT, 3.2)):
                sheet.ring((float(x), float(y)), frame.tall * 0.022, width, color)


def _labels(
    sheet: ClearSheet,
    frame: Frame,
    labels: Sequence[Label],
    hues: dict[str, Color],
    taken: tuple[list[Box], list[Box]],
    say: Speaker,
) -> None:
    """Place a frame's labels and draw them: all leaders first, so that none runs over a text.

    No label covers what is ``taken`` by texts or by ticks, and no leader runs through a text.
    """
    boxes, ticks = taken
    share = min(1.0, math.sqrt(CROWD / max(len(labels), 1)))
    wants, sizes = [], []
    for label in labels:
        size = SIZES[label.kind] * frame.tall * share
        seen = label.points[frame.visible(label.points, label.normals)]
        wide, high = sheet.measure(told(say, label.text), size, bold=label.kind != "note")
        pad = size * 0.42
        width, height = wide + 2 * pad, high + pad
        if label.kind == "step":
            width = height = size * 1.75
        if label.kind == "step" and not len(seen):
            seen = label.points[:1]
        anchors = frame.pixels(seen) if len(seen) else np.empty((0, 2))
        if label.kind != "step":
            written = [any(box.holds(x, y) for box in boxes) for x, y in anchors.tolist()]
            anchors = anchors[~np.array(written, dtype=bool)]
        wants.append(Want(anchors, width, height, label.priority, label.kind == "step"))
        sizes.append(size)
    spots = _place(frame, wants, boxes + ticks)
    placed = [
        (label, spot, size)
        for label, spot, size in zip(labels, spots, sizes, strict=True)
        if spot is not None and not _strikes(spot, boxes)
    ]
    for _, spot, size in placed:
        _leader(sheet, spot, size)
    for label, spot, size in placed:
        _callout(sheet, label, told(say, label.text), spot, hues.get(label.mark or "", INK), size)
        boxes.append(spot.box)


def _strikes(spot: Spot, boxes: Sequence[Box]) -> bool:
    """Return whether a label's leader would run through what is written."""
    middle = np.array([spot.box.left + spot.box.right, spot.box.top + spot.box.bottom]) / 2
    way = np.linspace(spot.anchor, middle, 40).tolist()
    return any(box.holds(x, y) for box in boxes for x, y in way)


def _busy(frame: Frame) -> Array:
    """Return how much each part of a frame shows, from 0 to 1: metal does most, and the middle."""
    rows, columns = frame.depth.shape
    step = (slice(None, None, max(1, rows // 120)), slice(None, None, max(1, columns // 160)))
    small = np.isfinite(frame.depth[step])
    metal = small if frame.metal is None else frame.metal[step]
    down, across = (np.linspace(-1, 1, count) for count in small.shape)
    heart = np.exp(-4.0 * (down[:, None] ** 2 + across**2))
    return np.asarray(0.15 * small + 0.6 * metal + 0.25 * heart)


def _place(frame: Frame, wants: Sequence[Want], boxes: Sequence[Box]) -> list[Spot | None]:
    """Place texts within a frame; the placing works from the frame's own corner."""
    corner = np.array([frame.box.left, frame.box.top])
    own = [Want(w.anchors - corner, w.width, w.height, w.priority, w.on_anchor) for w in wants]
    dx, dy = corner
    shifted = [Box(b.left - dx, b.top - dy, b.right - dx, b.bottom - dy) for b in boxes]
    busy = _busy(frame)
    spots = place(own, frame.size, 0.027 * frame.tall, shifted, busy)
    return [
        None
        if one is None
        else Spot(
            Box(one.box.left + dx, one.box.top + dy, one.box.right + dx, one.box.bottom + dy),
            (one.anchor[0] + dx, one.anchor[1] + dy),
        )
        for one in spots
    ]


def _leader(sheet: ClearSheet, spot: Spot, size: float) -> None:
    """Draw the line from a label's box to what it speaks of."""
    box = spot.box
    x = min(max(spot.anchor[0], box.left), box.right)
    y = min(max(spot.anchor[1], box.top), box.bottom)
    if math.hypot(x - spot.anchor[0], y - spot.anchor[1]) > size * 0.3:
        sheet.line([(x, y), spot.anchor], 3.6, PAPER, 170)
        sheet.line([(x, y), spot.anchor], 1.7)
        sheet.dot(spot.anchor, size * 0.17, INK, PAPER)


def _callout(sheet: ClearSheet, label: Label, text: str, spot: Spot, hue: Color, size: float) -> None:
    """Draw a label's box and its text."""
    box = spot.box
    if label.kind == "step":
        middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
        sheet.dot(middle, (box.right - box.left) / 2, mix(hue, (0, 0, 0), 0.35), PAPER)
        sheet.text(middle, text, size, True, PAPER, "mm")
        return
    corner = (box.left + size * 0.42, box.top + size * 0.2)
    if label.kind == "short":
        sheet.box(box.left, box.top, box.right, box.bottom, SHORT, 255, PAPER)
        sheet.text(corner, text, size, True, PAPER)
        return
    sheet.box(box.left, box.top, box.right, box.bottom, rim=mix(hue, (0, 0, 0), 0.15), width=2.0)
    sheet.text(corner, text, size, label.kind != "note")


def _line(
    sheet: ClearSheet,
    frame: Frame,
    line: NoteLine,
    hues: dict[str, Color],
    taken: tuple[list[Box], list[Box]],
    say: Speaker,
) -> None:
    """Draw a line with its text, and keep free what is ``taken`` by texts and by ticks.

    A tick's text is left off where there is no room for it.
    """
    boxes, ticks = taken
    places = [(float(x), float(y)) for x, y in frame.pixels(line.points)]
    size = SIZES["tape"] * frame.tall
    if line.kind == "cut":
        _cut(sheet, frame, line, mix(hues.get(line.mark, INK), (0, 0, 0), 0.45))
        return
    start, end = places[0], places[-1]
    if not (
        frame.box.left - 2 <= end[0] <= frame.box.right + 2
        and frame.box.top - 2 <= end[1] <= frame.box.bottom + 2
    ):
        return
    way = np.array(end) - start
    length = float(np.linalg.norm(way))
    if length < 1:
        return
    way /= length
    text = told(say, line.text)
    wide, high = sheet.measure(text, size, True)
    if line.kind == "measure":
        _measure(sheet, start, end, np.array([-way[1], way[0]]) * size * 0.45)
        middle = (np.array(start) + end) / 2 + [0, -high * 0.95]
    else:
        sheet.line([start, end], 3.4, PAPER, 150)
        sheet.line([start, end], 1.6)
        middle = np.array(end) + way * (high * 0.62 + abs(way[0]) * wide / 2)
    half = (wide / 2 + size * 0.3, high / 2 + size * 0.12)
    box = Box(middle[0] - half[0], middle[1] - half[1], middle[0] + half[0], middle[1] + half[1])
    if line.kind == "tick":
        free = _beside(_within(box, frame.box), end[0], frame.box, boxes + ticks)
        ticks.append(Box(*np.minimum(start, end).tolist(), *np.maximum(start, end).tolist()))
        if free is None or free.holds(*start):
            return
        box = free
    sheet.box(box.left, box.top, box.right, box.bottom, alpha=225, radius=4)
    sheet.text(((box.left + box.right) / 2, (box.top + box.bottom) / 2), text, size, True, INK, "mm")
    boxes.append(box)


def _measure(sheet: ClearSheet, start: tuple[float, float], end: tuple[float, float], side: Array) -> None:
    """Draw the line of a measure with a tick at both ends, which reaches ``side`` to each side of it."""
    for color, width in ((PAPER, 5.0), (INK, 2.2)):
        sheet.line([start, end], width, color)
        for x, y in (start, end):
            sheet.line([(x - side[0], y - side[1]), (x + side[0], y + side[1])], width, color)


def _within(box: Box, frame: Box) -> Box:
    """Return a box moved into a frame."""
    dx = max(frame.left + 2 - box.left, 0.0) + min(frame.right - 2 - box.right, 0.0)
    dy = max(frame.top + 2 - box.top, 0.0) + min(frame.bottom - 2 - box.bottom, 0.0)
    return Box(box.left + dx, box.top + dy, box.right + dx, box.bottom + dy)


def _beside(box: Box, x: float, frame: Box, boxes: Sequence[Box]) -> Box | None:
    """Return a tick's box moved sideways until it covers no other one, still over the tick's end at ``x``.

    None where there is no such place in the tick's own frame: in the next one it would speak of other metal.
    """
    wide = box.right - box.left
    lefts = [box.left, *(other.right + 1 for other in boxes), *(other.left - wide - 1 for other in boxes)]
    for left in sorted(lefts, key=lambda one: abs(one - box.left)):
        moved = Box(left, box.top, left + wide, box.bottom)
        inside = frame.holds(moved.left, moved.top) and frame.holds(moved.right, moved.bottom)
        if inside and moved.left - 4 <= x <= moved.right + 4 and not any(map(moved.overlaps, boxes)):
            return moved
    return None


def _cut(sheet: ClearSheet, frame: Frame, line: NoteLine, color: Color) -> None:
    """Draw the line of a cut: broken where metal hides it."""
    for start, end in pairwise(line.points):
        shares = np.linspace(0, 1, 25)[:, None]
        points = start + shares * (end - start)
        seen, pixels = frame.visible(points), frame.pixels(points)
        for i in range(24):
            if seen[i] and seen[i + 1]:
                sheet.line([tuple(pixels[i]), tuple(pixels[i + 1])], 4.2, color)
            elif i % 3 == 0:
                sheet.line([tuple(pixels[i]), tuple(pixels[i + 1])], 1.8, color, 150)


def _pins(sheet: ClearSheet, frame: Frame, pins: Sequence[Pin], boxes: list[Box]) -> dict[int, Box]:
    """Draw the pins that are in sight, worst first; return where they stand."""
    size = 0.021 * frame.tall
    rank = {"error": 3, "warning": 2, "note": 1}
    shown = [pin for pin in pins if frame.visible(np.array([pin.point]))[0]]
    wants = []
    for pin in shown:
        wide, high = sheet.measure(str(pin.number), size, True)
        wants.append(
            Want(
                frame.pixels(np.array([pin.point])),
                max(wide, high) + size * 0.9,
                high + size * 0.75,
                rank[pin.severity],
            )
        )
    drawn = {}
    for pin, spot in zip(shown, _place(frame, wants, boxes), strict=True):
        if spot is None:
            continue
        color, box = SEVERITY[pin.severity], spot.box
        x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
        sheet.line([(x, y), spot.anchor], 3.4, PAPER, 190)
        sheet.line([(x, y), spot.anchor], 1.8, color)
        sheet.dot(spot.anchor, size * 0.2, color, PAPER)
        pin_mark(sheet, pin, (x, y), size)
        drawn[pin.number] = box
    return drawn


def pin_mark(sheet: ClearSheet, pin: Pin, middle: tuple[float, float], size: float) -> None:
    """Draw a pin's number on the shape of its severity: a diamond, a triangle or a disc."""
    x, y = middle
    r, color = size * 1.05, SEVERITY[pin.severity]
    if pin.severity == "error":
        sheet.shape([(x, y - r * 1.2), (x + r * 1.2, y), (x, y + r * 1.2), (x - r * 1.2, y)], color, PAPER)
    elif pin.severity == "warning":
        sheet.shape(
            [(x, y - r * 1.35), (x + r * 1.3, y + r * 0.85), (x - r * 1.3, y + r * 0.85)], color, PAPER
        )
    else:
        sheet.dot(middle, r, color, PAPER)
    sheet.text(
        (x, y + (r * 0.15 if pin.severity == "warning" else 0)),
        str(pin.number),
        size * 0.92,
        True,
        PAPER,
        "mm",
    )
