"""Heads of screws: how high they stand over the metal that they hold."""

from __future__ import annotations

from trimwright.model.geometry.arrays import Array
from trimwright.model.screws import Screw

HEAD = 0.06
"""Height of a screw's pancake head, inches: it stays below the pan. Common practice, no source."""

FLUSH = 1 / 64
"""The same of a flat head, driven flush under a valley's pan, inches: less than a sheet. Common practice, no source."""


def foot_of_head(screw: Screw, height: float) -> Array:
    """Return where a head that is drawn ``height`` inches high begins, ``(3,) float, inches``: flat ones are sunk."""
    return screw.point - screw.normal * (height - FLUSH) if screw.flat else screw.point
