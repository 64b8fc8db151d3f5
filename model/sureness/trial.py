"""One roof as it may be: how far the metal of each run reaches there, and at what angles its miters are cut."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ..drips import meet_drips
from ..errors import GeometryError
from ..fitting import ends_of_whole
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
    """Return the trial of a roof, its runs not yet divided: where they are changes no end by what a tape shows."""
    runs, _ = lay_runs(roof, scene, limits)
    runs = meet_drips(roof, runs, scene)
    ends = ends_of_whole(roof, runs)
    reach = {
        run.name: np.array([low.reach[0], high.reach[1], low.depth, high.depth])
        for i, run in enumerate(runs)
        for low, high in ((ends[i, "low"], ends[i, "high"]),)
    }
    miters = {(runs[i].name, at): _angle(end.miter) for (i, at), end in ends.items() if end.miter is not None}
    return Trial(reach, miters)


def _angle(line: Array) -> float:
    """Return how far a line on the sheet is off square to the piece, radians."""
    along, across = line[-1] - line[0]
    return math.atan2(along, abs(across))
