"""A takeoff whose search for cutting plans ends in time."""

from __future__ import annotations

import time

from trimwright.model.layout import Layout
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.plan import Objective
from trimwright.model.takeoff.record import Takeoff

PATIENCE = 20.0
"""Seconds that the search may take unless a person says otherwise; most roofs take less than one."""


def timed_takeoff(layout: Layout, least: Objective | None = None, seconds: float = PATIENCE) -> Takeoff:
    """Return what to buy for ``layout``.

    Args:
        layout: The layout.
        least: What to buy least of; what the scene says when left out.
        seconds: How long the search may take; a plan whose proof takes longer says that it is missing.

    Raises:
        SceneError: A price is missing, or there is too little stock for a piece.
    """
    spec = layout.scene.buy
    if least is not None:
        spec = spec.model_copy(update={"objective": least})
    end = time.monotonic() + seconds
    return take_off(layout, spec, lambda: end - time.monotonic())
