"""Which tape is wrong: the one whose misfit no chance explains, or those that could each explain it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..geometry.arrays import Array
from .assumed import Assumed
from .fit import Fit, fitted
from .quantities import Quantity
from .record import Doubt

CHANCE = 3.29
"""A misfit of so many of its standard errors comes about by chance once in a thousand: two-sided, normal
distribution. The test is Baarda's, *A testing procedure for use in geodetic networks* (1968), from memory."""

ALIKE = 10.0
"""A tape explains the misfits as well as another where the squares of their scores differ by less: the odds of one
against the other are then under ``exp(10 / 2)``, some 150 to 1. The project's own."""

MOST = 3
"""Mistakes that are looked for one after the other; more than that, and the survey is to be done again."""


ONE_LIKE_ANOTHER = 0.98
"""Two tapes whose misfits hang together by this much of 1 or more cannot be told apart: of a mistake of an inch, with
a tape read to 1/16 in, the squares of their scores then differ by less than ``ALIKE``. The project's own."""


def twins(leaning: Array) -> NDArray[np.bool_]:
    """Return which tapes a mistake in each looks like, ``(m, m)``; none for a tape that nothing checks.

    Args:
        leaning: ``(m, m)`` how the misfits hang together.
    """
    sizes = np.sqrt(np.maximum(np.diag(leaning), 1e-12))
    alike = np.abs(leaning / sizes[:, None] / sizes) >= ONE_LIKE_ANOTHER
    checked = np.diag(leaning) > 1e-6
    alike &= checked[:, None] & checked
    np.fill_diagonal(alike, False)
    return np.asarray(alike)


def scores(fit: Fit, errors: Array) -> Array:
    """Return each misfit in standard errors of such a misfit, ``(m,)``; 0 where nothing checks the tape."""
    spread = errors * np.sqrt(np.maximum(fit.sure, 1e-12))
    return np.asarray(np.where(fit.sure > 1e-6, fit.misfits / spread, 0.0))


def without_mistakes(
    measures: Sequence[Quantity], read: Array, errors: Array, taken: Assumed
) -> tuple[Fit, list[int], tuple[Doubt, ...]]:
    """Return the fit of the tapes that agree, which tapes those are, and what is wrong with the others.

    A tape whose misfit only it can explain is named and left out. Where several could explain it they are all
    listed, and all stay.
    """
    kept = list(range(len(measures)))
    doubts: list[Doubt] = []
    while True:
        own = [measures[k] for k in kept]
        fit = fitted(own, read[kept], errors[kept], taken)
        told = scores(fit, errors[kept])
        worst = int(np.abs(told).argmax())
        if abs(told[worst]) <= CHANCE or len(doubts) == MOST:
            return fit, kept, tuple(doubts)
        by = float(fit.misfits[worst] / fit.sure[worst])
        order = np.argsort(-np.abs(told), kind="stable")
        alike = [int(k) for k in order if told[worst] ** 2 - told[k] ** 2 < ALIKE]
        doubts.append(Doubt(tuple(own[k].name for k in alike), by))
        if len(alike) > 1:
            return fit, kept, tuple(doubts)
        del kept[worst]
