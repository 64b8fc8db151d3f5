"""What to tape besides, so that a mistake that shows is found: which of several tapes it is in."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..roof.record import Roof
from ..scene.survey import SurveySpec
from .assumed import assumed
from .doubts import twins
from .fit import fitted
from .quantities import Quantity, every_size
from .survey import standard_errors
from .walk import MANY, walk

MOST = 4
"""So many tapes more are asked for at the most."""


def telling(roof: Roof, taped: Sequence[str], alike: Sequence[str], spec: SurveySpec) -> tuple[str, ...]:
    """Return the tapes that would tell in which of ``alike`` a mistake is, as few as are found; none where none would.

    Args:
        roof: Any roof of the form.
        taped: What has been taped.
        alike: Names among these.
        spec: How well it is measured.
    """
    known = every_size(roof)
    measures = [known[name] for name in taped]
    rest = [stop.quantity for visit in walk(roof, spec) for stop in visit.stops]
    rest = [one for one in rest if one.name not in taped]
    if len(measures) + len(rest) > MANY:
        return ()
    chosen: list[Quantity] = []
    left = _pairs(roof, measures, alike, spec)
    while left and rest and len(chosen) < MOST:
        tries = [_pairs(roof, [*measures, *chosen, one], alike, spec) for one in rest]
        best = int(np.argmin(tries))
        left = tries[best]
        chosen.append(rest.pop(best))
    return () if left else tuple(one.name for one in chosen)


def _pairs(roof: Roof, measures: Sequence[Quantity], alike: Sequence[str], spec: SurveySpec) -> int:
    """Return how many pairs of ``alike`` cannot be told apart by these measures."""
    read = np.array([one.value(roof.vertices) for one in measures])
    fit = fitted(measures, read, standard_errors(measures, spec), assumed(roof))
    own = [number for number, one in enumerate(measures) if one.name in alike]
    return int(twins(fit.leaning)[np.ix_(own, own)].sum()) // 2
