"""Air through vented closures: how much of a run is free for it.

Air passes the holes of the closures, and before them the opening between the panels' turned-up ends and what the
closures carry; the smaller of the two counts. What is open in the deck and in the eaves is not known here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..runs import Run
from .closures import Closure
from .record import Panel


@dataclass(frozen=True, slots=True)
class Vent:
    """The vented closures of one run, of both its sides.

    Attributes:
        at: Name of the run.
        kind: What the closures are called.
        length: Of the run, inches.
        holes: Area of the closures' holes, square inches.
        over_ends: Area between the panels' turned-up ends and what the closures carry, square inches.
    """

    at: str
    kind: str
    length: float
    holes: float
    over_ends: float

    @property
    def free(self) -> float:
        """Free area, square inches."""
        return min(self.holes, self.over_ends)

    @property
    def per_foot(self) -> float:
        """Free area of a foot of the run, square inches."""
        return self.free / (self.length / 12)


def vents_of(closures: Sequence[Closure], panels: Sequence[Panel], runs: Sequence[Run]) -> tuple[Vent, ...]:
    """Return the runs with vented closures, in the order of the runs."""
    turned = {(panel.name, end.border): end.turned for panel in panels for end in panel.ends}
    found = []
    for run in runs:
        own = [closure for closure in closures if closure.at == run.name and closure.open_share]
        if own:
            holes = sum(closure.free_area for closure in own)
            over = sum(_over_end(closure, turned.get((closure.panel, run.name), 0.0)) for closure in own)
            found.append(Vent(run.name, own[0].kind, run.length, holes, over))
    return tuple(found)


def _over_end(closure: Closure, turned: float) -> float:
    """Return the area above a panel's end, turned up ``turned`` inches, in front of a closure, square inches."""
    section = closure.sheet.section
    web = section.strip_of("web")
    height = float(np.ptp(section.points[web : web + 2, 1]))
    length = float(np.linalg.norm(closure.line[1] - closure.line[0]))
    return max(height - turned, 0.0) * length
