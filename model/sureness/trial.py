"""One roof as it may be: how far the metal of each run reaches there, and at what angles its miters are cut."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..drips import meet_drips
from ..errors import GeometryError
from ..fitting import Fitted, fit_pieces
from ..geometry.arrays import Array
from ..joints.end import At
from ..limits.record import Limits
from ..message import message
from ..roof.build import is_long_enough
from ..roof.record import Roof
from ..runs import lay_runs
from ..scene.schema import Scene
from .unknowns import Unknowns


@dataclass(frozen=True, slots=True, eq=False)
class Trial:
    """What of a roof is looked at.

    Attributes:
        reach: By run, the lowest and highest run distance of its metal, and how deep the cuts go in from there, inches.
        miters: By run and end, the angle of the miter on the sheet, off square, radians.
    """

    reach: Mapping[str, Array]
    miters: Mapping[tuple[str, At], float]


def tried(unknowns: Unknowns, off: Array, scene: Scene, limits: Limits) -> Trial:
    """Return the trial of a roof whose measures are off by so much, ``(m,)`` of what they may be, -1 to 1.

    Raises:
        TrimwrightError: There it cannot be laid out, or an edge is so short that it stays bare.
    """
    roof = unknowns.roof_at(off)
    for before, after in zip(unknowns.roof.edges, roof.edges, strict=True):
        if is_long_enough(before) and not is_long_enough(after):
            raise GeometryError(message("the {edge} may come out too short to trim", edge=before.name))
    return trial_of(roof, scene, limits)


def trial_of(roof: Roof, scene: Scene, limits: Limits) -> Trial:
    """Return the trial of a roof. Where its runs are divided does not matter: pieces placed by hand are left out."""
    free = scene.model_copy(update={"trim": _divided(scene.trim), "run": _divided(scene.run)})
    runs, _ = lay_runs(roof, free, limits)
    fitted = fit_pieces(roof, meet_drips(roof, runs, free), free, limits.number("short-end-piece"))
    own = {run.name: [one for one in fitted if one.run.name == run.name] for run in runs}
    return Trial(
        {run.name: _reach(own[run.name]) for run in runs},
        {
            (one.run.name, end.at): _angle(end.miter)
            for one in fitted
            for end in one.ends.corners
            if end.miter is not None
        },
    )


def _divided(specs: Mapping[Any, Any]) -> dict[Any, Any]:
    """Return what is asked of trim, without pieces placed by hand."""
    return {key: spec and spec.model_copy(update={"pieces": None}) for key, spec in specs.items()}


def _reach(pieces: Sequence[Fitted]) -> Array:
    """Return ``(4,)``: where the metal begins and ends, and how deep the cuts at both ends go in."""
    first, last = pieces[0], pieces[-1]
    return np.array([first.piece.start, last.piece.end, first.ends.low.depth, last.ends.high.depth])


def _angle(line: Array) -> float:
    """Return how far a line on the sheet is off square to the piece, radians."""
    along, across = line[-1] - line[0]
    return math.atan2(along, abs(across))
