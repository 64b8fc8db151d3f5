"""Under a cap: how high its wings hang, where its screws go, and where the closures stand that carry it."""

from __future__ import annotations

import numpy as np

from ..edge_kinds import KINDS
from ..roof.record import Face
from ..runs import Run
from ..screw_lines import insets
from .flat import laid_flat

FOOT = 3 / 4
"""Width of a closure's foot on the pan, inches, from its web toward the edge. Common practice, no source."""

FLANGE_PAST = 3 / 8
"""How far a closure's flange reaches past the outermost row of screws, inches: short of the trim's hem."""

WEB_BEHIND = 1 / 2
"""How far its web stands behind the innermost row of screws, inches."""


def wing_of(run: Run, index: int) -> tuple[int, int]:
    """Return the strip of a run's leg over the face ``index``, and the line of its free edge."""
    section, faces = run.section, run.edge.faces
    first, last = KINDS[run.trim].legs
    strip = section.strip_of(first if faces[0] == index else last)
    return strip, strip + int(faces[0] != index)


def fold_inside(run: Run, index: int) -> float:
    """Return how far inside the deck's edge the fold between a run's two legs lies on a face, inches; negative outside.

    The fold of a break's apron is off the line of the break, for the apron lies above the panels below it.
    """
    section, is_upper = run.section, run.edge.faces[0] == index
    strip, _ = wing_of(run, index)
    along = section.points[strip + 1] - section.points[strip]
    along = along / np.linalg.norm(along)
    return float(-section.points[strip + 1] @ along if is_upper else section.points[strip] @ along)


def hang_of(run: Run, index: int) -> float:
    """Return how high the underside of a run's leg lies above the deck of a face, inches."""
    strip, line = wing_of(run, index)
    return float(run.section.points[line] @ run.section.normals[strip]) - run.section.thickness / 2


def web_back(run: Run, index: int, face: Face, rows: int) -> float:
    """Return how far inside the deck's edge the web of the closures under a run stands, inches.

    Args:
        run: What they carry.
        index: Of the face that they stand on.
        face: That face.
        rows: How many rows of screws each wing gets.
    """
    strip, line = wing_of(run, index)
    out, up = run.section.points[line]
    flat = laid_flat(face)
    edge_of_wing = (run.frame @ [0.0, out, up, 1.0])[:3]
    start, end, free = flat.flatten(np.array([run.edge.start, run.edge.end, edge_of_wing]))
    way = (end - start) / ((end - start) @ (end - start)) ** 0.5
    inside = abs(float(way[0] * (free - start)[1] - way[1] * (free - start)[0]))
    width = float(run.section.v[strip + 1] - run.section.v[strip])
    return inside - insets(width, rows)[-1] - WEB_BEHIND
