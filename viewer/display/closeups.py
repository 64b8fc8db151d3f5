"""Close-ups along a run: where its short piece lands, and where its screws go."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.joints.end import End
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length, Place, message
from trimwright.model.runs import Run
from trimwright.model.tolerances import LEVEL

from .camera import UP, Shot, looking_at
from .notes import Label, NoteLine, label_at, piece_label
from .view import HOUSE, LEFT_OFF, METAL, ViewPoint
from .whole_roof import outline_of

NEIGHBOR = 30.0
"""How much of the piece beside a short one is seen, inches."""

MARGIN = 6.0
"""How much is seen past an end that no piece is beside, inches."""

CORNERS = tuple(np.array([x, y, 0.5]) for y in (-1.0, 1.0) for x in (0.75, -0.75))
"""Where the whole roof is looked at from: off one of its corners."""

ROW = 56.0
"""How much of a run is seen in one row of its tape marks, inches, unless there would be too many rows."""

MOST_ROWS = 6

GAP = 0.012
"""Room between two rows, as a share of the picture's height."""

SAME_ROW = 1e-6
"""Screws whose distances over the developed width differ by less stand in one row, inches."""


def short_views(layout: Layout) -> Iterator[ViewPoint]:
    """Yield where the short piece of each run lands, with the whole roof beside it."""
    for part in layout.parts:
        if not part.piece.short:
            continue
        told = message("{mark}  short piece\n{length}", mark=part.mark, length=Length(part.length))
        labels = [piece_label(part, told, "short", 9)]
        lines = []
        others = {end: mark for end in part.ends.laps for mark in end.others}
        for end, mark in others.items():
            labels.append(_beside(end, layout.part(mark)))
            lines.append(_lap_line(part, end))
        yield ViewPoint(
            f"short piece {part.mark}",
            message("Where the short piece lands: {run}, {mark}", run=part.run.words, mark=part.mark),
            _near_and_whole(layout, part),
            HOUSE | METAL,
            "pieces",
            notes=(LEFT_OFF,),
            focus=frozenset({part.mark, *others.values()}),
            highlight=frozenset({part.mark}),
            labels=tuple(labels),
            lines=tuple(lines),
            caution=True,
            subject="short piece",
        )


def _near_and_whole(layout: Layout, part: Part) -> tuple[Shot, Shot]:
    """Return the close camera, and that of the whole roof for the upper corner that the piece leaves free."""
    run = part.run
    frame = run.frame[:3]
    ends = [end.inward(-(MARGIN if end.lap is None else NEIGHBOR)) for end in part.ends]
    level = frame[:, 1] * [1, 1, 0]
    way = level / np.linalg.norm(level) + UP * 0.75
    if run.edge.slope < LEVEL:
        way = way + frame[:, 0] * 0.35
    near = looking_at(_run_points(run, ends), way, margin=1.3, lens=0.35)
    (middle,), _ = near.project(part.solid.vertices.mean(axis=0)[None], (1000, 600))
    left = 0.015 if middle[0] > 500 else 0.71
    corner = max(CORNERS, key=lambda one: float(way @ one))
    return near, looking_at(outline_of(layout), corner, margin=1.1, frame=(left, 0.02, left + 0.275, 0.31))


def screw_views(layout: Layout) -> Iterator[ViewPoint]:
    """Yield the tape marks of the screws along each run that has some, row by row from its low end."""
    for run in layout.runs:
        parts = layout.parts_of(run.name)
        if not any(layout.screws_of(part.mark) for part in parts):
            continue
        low, high = parts[0].low, parts[-1].high
        rows = min(MOST_ROWS, max(1, math.ceil((high - low) / ROW)))
        step = (high - low) / rows
        frame = run.frame[:3]
        out, up = frame[:, 1], frame[:, 2]
        caps = len(run.edge.faces) == 2
        way = up if caps else up + out * 0.5
        shots = []
        tall = min(0.32, 1 / rows)
        above = (1 - tall * rows) / 2
        for row in range(rows):
            start, end = low + step * row, low + step * (row + 1)
            reach = run.section.points[:, 0].max() + 4.0
            inner = run.section.points[:, 0].min() - 1.5
            span = np.array([[u, o, 0.0] for u in (start - 1.5, end + 1.5) for o in (inner, reach)])
            points = span @ frame[:, :3].T + frame[:, 3]
            top = above + row * tall
            shots.append(
                looking_at(
                    points, way, up=-out, margin=1.0, lens=0.12, frame=(0.0, top, 1.0, top + tall - GAP)
                )
            )
        marks = frozenset(part.mark for part in parts)
        lines = [line for part in parts for line in _marks(layout, part)]
        labels = tuple(piece_label(part, part.mark, "piece", 6) for part in parts)
        others = frozenset(part.mark for part in layout.parts if part.run is not run)
        yield ViewPoint(
            f"screws {run.code}",
            message("Screws along the {run}: {code}", run=run.words, code=run.code),
            tuple(shots),
            HOUSE | METAL,
            "pieces",
            notes=(message("tape marks from each piece's own low end"),),
            focus=marks,
            labels=labels,
            lines=tuple(lines),
            hidden=others,
            caution=True,
            subject="tape marks",
        )


def _marks(layout: Layout, part: Part) -> Iterator[NoteLine]:
    """Yield a tick for each screw of a piece, one row's a wing, and one for its low end, where the tape hooks on.

    Those of the outer row are written beside the metal, all else on it, where each has its own room; the low end comes
    last, so that its text keeps off the ticks of the screws.
    """
    run = part.run
    frame = run.frame[:3]
    edge = run.section.points[:, 0].max()
    screws = layout.screws_of(part.mark)
    rows = [screw.across for screw in screws]
    is_cap = len(run.edge.faces) == 2
    for screw in screws:
        local = (screw.point - frame[:, 3]) @ frame[:, :3]
        if abs(screw.across - max(rows)) < SAME_ROW:
            out = edge + 1.6
        elif is_cap and abs(screw.across - min(rows)) < SAME_ROW:
            out = local[1] + 0.6
        else:
            continue
        foot = frame @ [local[0], out, local[2], 1.0]
        yield NoteLine(np.array([screw.point, foot]), "tick", message("{place}", place=Place(screw.at)))
    hook = np.array([[part.low, edge + 0.6, 0.0, 1.0], [part.low, edge - 1.4, 0.0, 1.0]])
    yield NoteLine(hook @ frame.T, "tick", f"{part.mark}: 0")


def _run_points(run: Run, ends: list[float]) -> Array:
    """Return the run's section at each of ``ends``, ``(n, 3)``, inches."""
    places = [np.column_stack([np.full(len(run.section.points), u), run.section.points]) for u in ends]
    return np.concatenate(places) @ run.frame[:3, :3].T + run.frame[:3, 3]


def _beside(end: End, other: Part) -> Label:
    """Return the label of the piece beside a short one, close to the lap at ``end``."""
    stops = [end.inward(-NEIGHBOR * share) for share in (0.5, 0.3, 0.7)]
    return label_at(other, stops, other.mark, "piece", 6)


def _lap_line(part: Part, end: End) -> NoteLine:
    """Return the measure of the lap at ``end`` along the outer edge of the fastened leg."""
    length = end.lap or 0.0
    section = part.sheet.section
    leg = section.lying[-1]
    middle = section.points[leg.strip] * 0.35 + section.points[leg.strip + 1] * 0.65
    ends = np.array([[end.outermost, *middle], [end.inward(length), *middle]])
    lifted = part.run.frame[:3, 2] * 0.15
    return NoteLine(
        ends @ part.placement[:3, :3].T + part.placement[:3, 3] + lifted,
        "measure",
        message("lap {length}", length=Length(length)),
    )
